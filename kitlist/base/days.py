"""Days and times as people write them. What can be read in two ways is answered with both; nothing is guessed."""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta

from kitlist.base.errors import BadData

DAY, MOMENT = "2026-11-25", "2026-11-25T07:30"
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NUMBERS = re.compile(r"(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})")
_NAMED = re.compile(
    r"(?:[a-z]+,? )?(?:(\d{1,2})(?:st|nd|rd|th)?[ -]([a-z]+)|([a-z]+) (\d{1,2})(?:st|nd|rd|th)?),?[ -](\d{4})"
)
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?(?: ?([ap])\.?m\.?)?")
_COUNTED = re.compile(r"(?:in (\d{1,3}) (day|week)s?|(\d{1,3}) (day|week)s? ago)")
FIRST_YEAR, LAST_YEAR = 1950, 2199  # the oldest battery in use, and as far ahead as anybody means
_FROM_TODAY = {"today": 0, "yesterday": -1, "tomorrow": 1}


def day(text: str, *, today: date | None = None) -> date:
    """A day as people write it. Raises BadData, which says how to write it; `today` gives "yesterday" its meaning.

    With `today` days may be counted too: `in 9 days`, `2 weeks ago`.

    >>> str(day("8 May 2027")), str(day("25/05/2027")), str(day("8.5.2027"))
    ('2027-05-08', '2027-05-25', '2027-05-08')
    >>> str(day("in 9 days", today=date(2027, 5, 8))), str(day("1 week ago", today=date(2027, 5, 8)))
    ('2027-05-17', '2027-05-01')
    """
    words = " ".join(text.casefold().split())
    if today is not None and words in _FROM_TODAY:
        return today + timedelta(days=_FROM_TODAY[words])
    if today is not None and (counted := _COUNTED.fullmatch(words)):
        many = int(counted[1] or -int(counted[3])) * (7 if "week" in words else 1)
        return today + timedelta(days=many)
    if numbers := _NUMBERS.fullmatch(words):
        return _from_numbers(text, numbers[1], numbers[3], numbers[4], dots=numbers[2] == ".")
    if named := _NAMED.fullmatch(words):
        month = (named[2] or named[3])[:3]
        if month in _MONTHS:
            return _made(text, int(named[5]), _MONTHS.index(month) + 1, int(named[1] or named[4]))
    raise BadData(f"{text[:40]!r} is no day", hint=f"write it like {DAY}")


def _from_numbers(text: str, first: str, second: str, third: str, *, dots: bool) -> date:
    if len(first) == 4 and len(third) <= 2:
        return _made(text, int(first), int(second), int(third))
    if len(third) != 4 or len(first) > 2:
        raise BadData(f"{text!r} can be read in more than one way", hint=f"write the year in full: {DAY}")
    a, b, year = int(first), int(second), int(third)
    if dots or a == b or b <= 12 < a:  # with dots the day always stands first
        return _made(text, year, b, a)
    if a <= 12 < b:
        return _made(text, year, a, b)
    day_first, month_first = _made(text, year, b, a), _made(text, year, a, b)
    raise BadData(f"{text!r} can be read in two ways", hint=f"write {day_first} or {month_first}")


def _made(text: str, year: int, month: int, on: int) -> date:
    try:
        made = date(year, month, on)
    except ValueError:
        raise BadData(f"there is no day {text[:40]!r}", hint=f"write it like {DAY}") from None
    if not is_meant(made):
        raise BadData(f"nobody means {text[:40]!r}", hint=f"give a year from {FIRST_YEAR} to {LAST_YEAR}, like {DAY}")
    return made


def is_meant(when: date) -> bool:
    """Whether a day or a moment is of years in which somebody has batteries; others are slips of a key."""
    return FIRST_YEAR <= when.year <= LAST_YEAR


def moment(text: str, *, now: datetime | None = None) -> datetime:
    """A day with its hour. Raises BadData; with `now`, an hour alone is today's.

    >>> str(moment("8 May 2027 7:30")), str(moment("2027-05-08T16:05"))
    ('2027-05-08 07:30:00', '2027-05-08 16:05:00')
    """
    words = " ".join(text.split())
    today = now.date() if now is not None else None
    if now is not None and words.casefold() == "now":
        return now
    found = re.fullmatch(rf"(?:(.*?)[ T])?({_CLOCK.pattern})", words, re.IGNORECASE)
    if found is None:
        raise BadData(f"{text[:40]!r} is no time of a day", hint=f"write day and hour like {MOMENT}")
    if not found[1] and today is None:
        raise BadData(f"{text[:40]!r} has no day", hint=f"write day and hour like {MOMENT}")
    on = day(found[1], today=today) if found[1] else today
    clock = _CLOCK.fullmatch(found[2].casefold())
    if clock is None or on is None:
        raise BadData(f"{text[:40]!r} is no time of a day", hint=f"write day and hour like {MOMENT}")
    hour = int(clock[1])
    if clock[4]:
        hour = hour % 12 + (12 if clock[4] == "p" else 0)
    try:
        return datetime.combine(on, time(hour, int(clock[2]), int(clock[3] or 0)))
    except ValueError:
        raise BadData(f"{text[:40]!r} is no time of a day", hint=f"write day and hour like {MOMENT}") from None


def said(when: date) -> str:
    """A day as a sentence has it.

    >>> said(date(2027, 3, 4))
    '4 Mar 2027'
    """
    return f"{when.day} {when:%b %Y}"
