"""Which parts may be welded at all: sound, get home, last resort at walking pace, never."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from kitlist.base.errors import NotFound
from kitlist.base.sources import Source, row_source, table


class RepairClass(StrEnum):
    """What a weld on a part is worth, best first."""

    SOUND = "sound"
    GET_HOME = "get home then rework"
    LAST_RESORT = "last resort at walking pace"
    NEVER = "never"

    @property
    def rank(self) -> int:
        """0 is sound, 3 is never."""
        return tuple(RepairClass).index(self)


@dataclass(frozen=True, slots=True)
class Part:
    """A part as the table knows it: its class, the rule in a sentence, and the word by which it was recognised."""

    name: str
    repair_class: RepairClass
    rule: str
    source: Source
    matched: str


@cache
def _by_word() -> Mapping[str, Mapping[str, str]]:
    found: dict[str, Mapping[str, str]] = {}
    for row in table("repair_parts"):
        for word in (row["part"], *row["also"].split("; ")):
            found[_plain(word)] = row
    return found


def _plain(text: str) -> str:
    """Lower case, hyphens and other marks as single spaces."""
    return re.sub(r"[^a-z0-9]+", " ", text.casefold()).strip()


def parts() -> tuple[Part, ...]:
    """Every part in the table."""
    return tuple(_part(row, row["part"]) for row in table("repair_parts"))


def part(name: str) -> Part:
    """The part that somebody's words mean.

    Words of the table, and their plurals, are looked for as whole words; a longer match hides the shorter ones inside
    it ("spare wheel carrier" is no wheel); of what remains the strictest class counts. Raises NotFound with the nearest
    names: an unknown part has no class, and nobody should take it for sound.

    >>> part("cracked brake pedal").repair_class.value, part("spare wheel carrier").repair_class.value
    ('never', 'get home then rework')
    """
    words = _plain(name)
    spans: list[tuple[int, int, str]] = []
    for word in _by_word():
        for hit in re.finditer(rf"\b{re.escape(word)}(?:e?s)?\b", words):
            spans.append((hit.start(), hit.end(), word))
    outer = [
        (start, end, word)
        for start, end, word in spans
        if not any(s <= start and end <= e and (s, e) != (start, end) for s, e, _ in spans)
    ]
    if not outer:
        raise NotFound(f"no part is known as {name!r}: whether it may be welded cannot be said", hint=_near(words))
    known = [_part(_by_word()[word], word) for _, _, word in outer]
    return max(known, key=lambda p: p.repair_class.rank)


def _part(row: Mapping[str, str], matched: str) -> Part:
    return Part(row["part"], RepairClass(row["class"]), row["rule"], row_source(row), matched)


def _near(words: str) -> str:
    import difflib

    close = difflib.get_close_matches(words, _by_word(), n=3, cutoff=0.6)
    if close:
        return f"Did you mean {' or '.join(close)}?"
    return "Name the part as the trade does: spring hanger, frame rail, roof-rack leg, ..."
