"""What lies behind a weld, in somebody's words: what burns, bursts, fires or is live. Only 'nothing' passes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from kitlist.base.noted import answer
from kitlist.base.sources import Source, row_source, table

LONGEST_PHRASE = 5
_CLEARINGS = re.compile(r"[,;.()\n]+| (?:but|though|however) ")


class Danger(StrEnum):
    """What a thing behind a weld does."""

    BURNS = "burns"
    BURSTS = "bursts"
    LIVE = "live"
    RESTRAINT = "restraint"
    ELECTRONICS = "electronics"
    BRAKE = "brake"
    CLOSED_VOLUME = "closed volume"
    POISON = "poison or metal fire"


class Tier(StrEnum):
    """What is asked of a thing behind a weld."""

    NEVER = "never"  # no weld there at all
    STOP = "stop"  # no weld until it is recorded as taken away or unplugged, and by whom
    FIX = "fix"  # out of the way or shielded


@dataclass(frozen=True, slots=True)
class LyingHazard:
    """One thing behind a weld: what it does, what is asked, in whose words, and what to do about it."""

    danger: Danger
    tier: Tier
    name: str
    words: str
    remedy: str
    source: Source


@dataclass(frozen=True, slots=True)
class LyingBehind:
    """What somebody's words say: `nothing` said outright, hazards, what was denied, and words that nobody can read.

    `asked` is False where the words say that nobody has looked.
    """

    asked: bool
    nothing: bool
    hazards: tuple[LyingHazard, ...]
    denied: tuple[str, ...]
    unread: tuple[str, ...]


_SPLIT = re.compile(r"[;:/&+()\[\]\n!?|]|[,.](?!\d)|\s[-–—]+\s| (?:and|plus|also|as well as|with|but|however|though) ")
_OR = re.compile(r" (?:or|nor) ")
_BUT = re.compile(r"\b(nothing|none|nil) (but|except|other than|else than|apart from|save|besides|beyond) ")
_AC = re.compile(r"\ba ?/ ?c\b|\ba\.c\.")
_FAR = re.compile(r"(\d+(?:_\d+)?) ?(mm|cm|m)\b")
_POINT = re.compile(r"(?<=\d)[.,](?=\d)")
_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
ALL_ROUND_MM = 300.0
"""Nothing nearer than this, both sides, is nothing behind a weld. Common practice."""


@cache
def _by_phrase() -> Mapping[str, Mapping[str, str]]:
    return {_plain(word): row for row in table("behind_the_weld") for word in row["words"].split("; ")}


@cache
def _words(role: str) -> frozenset[str]:
    rows = [row for row in table("behind_words") if row["role"] == role]
    return frozenset(_plain(word) for row in rows for word in row["words"].split("; "))


def _plain(text: str) -> str:
    return re.sub(r"[^\w]+", " ", text.casefold().replace("'", "").replace("’", "")).strip()


def what_lies_behind(text: str) -> LyingBehind:
    """Somebody's words, read: the longest phrase that is known counts, and a word that is not known is kept as unread.

    A thing that is denied ("no fuel line") is no hazard, and no answer either: it says what is not there.

    >>> [hazard.name for hazard in what_lies_behind("seat belt tensioner, loom along the rail").hazards]
    ['tensioner', 'wiring', 'closed volume']
    >>> what_lies_behind("nothing").nothing, what_lies_behind("nothing much").unread
    (True, ('nothing much',))
    """
    words = _POINT.sub("_", _AC.sub("aircon", f" {text.casefold()} "))
    if _plain(words) in _words("not asked") or not _plain(words):
        return LyingBehind(asked=False, nothing=False, hazards=(), denied=(), unread=())
    nothing, hazards, denied, unread = False, list[LyingHazard](), list[str](), list[str]()
    looked: list[str] = []  # how it was looked at: says something beside "nothing" alone
    for piece in _SPLIT.split(_BUT.sub(", ", words)):
        no = False
        for phrase in map(_plain, _OR.split(piece)):
            if not phrase:
                continue
            if _is_nothing(phrase):
                nothing = "?" not in text
                unread += [] if nothing else [f"{phrase}?"]
                continue
            if _how_looked(phrase):
                looked.append(phrase)
                continue
            bare = _without_no(phrase)
            no = no or bare is not None  # "no fuel line or wiring" denies both
            found, left = _hazards_in((bare if bare is not None else phrase).split())
            if no and found and not left:
                denied.append(phrase)
                continue
            hazards += found
            unread += left if found else [phrase]
    unread += [] if nothing else looked
    spelt = (words.replace("_", ".") for words in unread)
    return LyingBehind(True, nothing, _once(hazards), tuple(denied), tuple(dict.fromkeys(spelt)))


def still_there(
    behind: str, *, cleared: str, cleared_by: str
) -> tuple[tuple[LyingHazard, ...], tuple[LyingHazard, ...]]:
    """The hazards behind a weld that nobody has taken away or unplugged, and those that somebody has, by name.

    What was cleared is said in the same words, by some of them, or by the hazard's own name; without a name nothing is
    cleared, nor by what is still to be done, denied, or only shielded.

    >>> there, gone = still_there("fuel line, jerry can", cleared="fuel line", cleared_by="Ada")
    >>> [hazard.words for hazard in there], [hazard.words for hazard in gone]
    (['jerry can'], ['fuel line'])
    """
    found = what_lies_behind(behind).hazards
    done = _clauses_done(cleared)
    if not answer(cleared_by) or not done:
        return found, ()
    away = [hazard for clause in done for hazard in what_lies_behind(clause).hazards]
    named = {_plain(piece) for clause in done for piece in _SPLIT.split(clause)}
    named |= {hazard.words for hazard in away}
    named |= {_singular(name) for name in named}
    gone = tuple(
        h
        for h in found
        if h.tier is not Tier.NEVER and (h.words in named or h.name in named or any(_same(h, other) for other in away))
    )
    return tuple(h for h in found if h not in gone), gone


def _same(hazard: LyingHazard, other: LyingHazard) -> bool:
    """Whether two names are of one thing: a petrol tank is "the tank", a jerrycan a jerry can."""
    if hazard.name != other.name:
        return False
    whole, said = ([_singular(word) for word in words.words.split()] for words in (hazard, other))
    return set(said) <= set(whole) or whole == said[-1:] or "".join(whole) == "".join(said)


def _gone_words(cleared: str) -> str:
    """Words for what was cleared: "no longer there" as "away"; "turned off", which takes nothing away, as "shut"."""
    text = cleared.casefold().replace("'", "")
    for role, meant in (("gone", "away"), ("only off", "shut")):
        either = "|".join(re.escape(word) for word in sorted(_words(role), key=len, reverse=True))
        text = re.sub(rf"\b(?:{either})\b", meant, text)
    return text


def _clauses_done(cleared: str) -> list[str]:
    """The clauses that say that something was taken away; "still hanging there" takes back the one before it."""
    done: list[str] = []
    for clause in _CLEARINGS.split(_gone_words(cleared)):
        if _is_done(clause):
            done.append(clause)
        elif set(_plain(clause).split()) & _words("not done") and not what_lies_behind(clause).hazards:
            done = done[:-1]
    return done


def _is_done(clause: str) -> bool:
    """Whether a clause says that something was taken away: nothing in it is denied, still to come, or only shielded."""
    said = set(_plain(clause).split())
    return (
        bool(said)
        and not said & _words("not done")
        and (not said & _words("only shielded") or bool(said & _words("taken")))
    )


def _is_nothing(phrase: str) -> bool:
    """Whether a phrase says outright that there is nothing: all round, and no nearer than `ALL_ROUND_MM`."""
    if phrase in _words("nothing"):
        return True
    first, *rest = phrase.split()
    if first not in _words("nothing begins"):
        return False
    near = any(float(n.replace("_", ".")) * _MM[unit] < ALL_ROUND_MM for n, unit in _FAR.findall(phrase))
    left = _FAR.sub(" ", " ".join(rest)).split()
    return not near and all(word in _words("all round") for word in left)


def _how_looked(phrase: str) -> bool:
    """Whether a phrase only says how or when somebody looked: "seen from both sides", "checked by Jo"."""
    words = phrase.split()
    if not set(words) & _words("looked"):
        return False
    if "by" in words and words[0] in _words("looked"):
        words = words[: words.index("by")]
    return all(word in _words("looked") or word in _words("filler") or word[0].isdigit() for word in words)


def _without_no(phrase: str) -> str | None:
    """What a phrase denies, without its "no"; None where it denies nothing."""
    for no in sorted(_words("no"), key=len, reverse=True):
        if phrase.startswith(f"{no} "):
            return phrase[len(no) + 1 :]
    return None


def _hazards_in(words: Sequence[str]) -> tuple[list[LyingHazard], list[str]]:
    """The hazards among the words of a phrase, the longest first at each place, and the words that nobody can read."""
    found: list[LyingHazard] = []
    left: list[str] = []
    at = 0
    while at < len(words):
        for length in range(min(LONGEST_PHRASE, len(words) - at), 0, -1):
            phrase = " ".join(words[at : at + length])
            known = next((words for words in (phrase, _singular(phrase)) if words in _by_phrase()), None)
            if known is not None:
                found.append(_hazard(_by_phrase()[known], known))
                at += length
                break
        else:
            if meant := _misspelt(words[at]):
                found.append(_hazard(_by_phrase()[meant], words[at]))
            elif words[at] not in _words("filler") and not words[at][0].isdigit():
                left.append(words[at])
            at += 1
    return found, left


def _misspelt(word: str) -> str:
    """The gravest word that a slip of the pen stands for: "feul" is read as fuel, since an unread one is no stop."""
    if word in _words("filler") or len(word) < 4:
        return ""
    return next((meant for meant in sorted(_words("often misspelt")) if _one_slip(word, meant)), "")


def _one_slip(word: str, meant: str) -> bool:
    """Whether two neighbouring letters changed places, or, in a word of six or more, one letter is wrong."""
    if word[0] != meant[0] or abs(len(word) - len(meant)) > 1:
        return False
    same = next((i for i, (a, b) in enumerate(zip(word, meant, strict=False)) if a != b), min(len(word), len(meant)))
    rest, other = word[same:], meant[same:]
    if len(word) == len(meant) and rest[:2] == other[1::-1] and rest[2:] == other[2:]:
        return True
    return len(meant) >= 6 and (rest[1:] == other[1:] or rest[1:] == other or rest == other[1:])


def _singular(phrase: str) -> str:
    return phrase[:-1] if phrase.endswith("s") and not phrase.endswith("ss") else phrase


def _hazard(row: Mapping[str, str], words: str) -> LyingHazard:
    return LyingHazard(Danger(row["kind"]), Tier(row["tier"]), row["name"], words, row["remedy"], row_source(row))


def _once(found: Sequence[LyingHazard]) -> tuple[LyingHazard, ...]:
    return tuple({hazard.words: hazard for hazard in found}.values())
