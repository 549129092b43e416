"""fire-watch-missing: fewer than two people: the welder sees nothing but the arc."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where fewer people go than a weld takes, or nobody said how many."""
    people, least = case.trip.people, case.limits.people_least
    if people is None or people < least:
        yield Gap(
            subject="fire watch",
            what=f"{people} of {least} people: nobody watches for fire while one welds"
            if people is not None
            else f"How many people go is not known; {least} at the least, one welds and one watches",
            remedy="Take a second person. Watch 60 min after the last arc, look again at 3 h."
            if people is not None
            else "Write down how many go.",
            command=f"kitlist trip edit {quoted(case.trip.name)} people=NUMBER",
            measured=people,
            required=least,
            unit="people",
            known=people is not None,
        )


RULE = Rule(
    name="fire-watch-missing",
    title="Nobody to watch for fire",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="Under the helmet nobody sees the grass. Most fires start while the welder looks at the pool.",
    remedy="One welds, one watches; 60 minutes after, and again later.",
    sources=(
        Source(Tag.READ, "WAC 296-307-49503, as 29 CFR 1910.252: fire watch, 0.5 h after"),
        Source(Tag.SECOND_HAND, "NFPA 51B 5.6.1.1: 1 h, since 2019"),
    ),
    check=check,
    good=example.whole,
    bad=lambda: example.with_trip(people=1),
    numbers=("people_least",),
)
