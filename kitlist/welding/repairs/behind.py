"""What lies behind a weld, in somebody's words: what burns, bursts, fires or is live. Only 'nothing' passes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from kitlist.base.sources import Source, row_source, table

LONGEST_PHRASE = 5


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


_SPLIT = re.compile(r"[,;:/&+.()\[\]\n!?|]| (?:and|plus|also|as well as|with|but|however|though) ")
_OR = re.compile(r" (?:or|nor) ")
_BUT = re.compile(r"\b(nothing|none) (but|except|other than|apart from) ")


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
    words = f" {text.casefold()} "
    if _plain(words) in _words("not asked") or not _plain(words):
        return LyingBehind(asked=False, nothing=False, hazards=(), denied=(), unread=())
    nothing, hazards, denied, unread = False, list[LyingHazard](), list[str](), list[str]()
    for piece in _SPLIT.split(_BUT.sub(", ", words)):
        no = False
        for phrase in map(_plain, _OR.split(piece)):
            if not phrase:
                continue
            if phrase in _words("nothing"):
                nothing = True
                continue
            bare = _without_no(phrase)
            no = no or bare is not None  # "no fuel line or wiring" denies both
            found, left = _hazards_in((bare if bare is not None else phrase).split())
            if no and found and not left:
                denied.append(phrase)
                continue
            hazards += found
            unread += left if found else [phrase]
    return LyingBehind(True, nothing, _once(hazards), tuple(denied), tuple(dict.fromkeys(unread)))


def still_there(
    behind: str, *, cleared: str, cleared_by: str
) -> tuple[tuple[LyingHazard, ...], tuple[LyingHazard, ...]]:
    """The hazards behind a weld that nobody has taken away or unplugged, and those that somebody has, by name.

    What was cleared is said in the same words, or by the hazard's own name; without a name nothing is cleared.

    >>> there, gone = still_there("fuel line, jerry can", cleared="fuel line", cleared_by="Ada")
    >>> [hazard.words for hazard in there], [hazard.words for hazard in gone]
    (['jerry can'], ['fuel line'])
    """
    found = what_lies_behind(behind).hazards
    if not cleared_by.strip():
        return found, ()
    named = {hazard.words for hazard in what_lies_behind(cleared).hazards} | {_plain(cleared)}
    named |= {_plain(piece) for piece in _SPLIT.split(cleared)}
    gone = tuple(h for h in found if h.tier is not Tier.NEVER and (h.words in named or h.name in named))
    return tuple(h for h in found if h not in gone), gone


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
            if words[at] not in _words("filler") and not words[at][0].isdigit():
                left.append(words[at])
            at += 1
    return found, left


def _singular(phrase: str) -> str:
    return phrase[:-1] if phrase.endswith("s") and not phrase.endswith("ss") else phrase


def _hazard(row: Mapping[str, str], words: str) -> LyingHazard:
    return LyingHazard(Danger(row["kind"]), Tier(row["tier"]), row["name"], words, row["remedy"], row_source(row))


def _once(found: Sequence[LyingHazard]) -> tuple[LyingHazard, ...]:
    return tuple({hazard.words: hazard for hazard in found}.values())
