"""Which parts may be welded at all: sound, get home, last resort at walking pace, never. The head noun decides."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache, lru_cache

from kitlist.base.errors import NotFound
from kitlist.base.sources import PRACTICE, Source, row_source, table
from kitlist.base.terms import Steel


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
    """A part as the table knows it: its class, the rule in a sentence, and the word by which it was recognised.

    `ask`: off the list until somebody who knows the part has said that it may be welded. `carries`: a bracket or a
    beam, which takes the class of what hands its load on to it. `steel`: the only kind that it is
    made of, where there is one.
    """

    name: str
    repair_class: RepairClass
    rule: str
    source: Source
    matched: str
    ask: bool = False
    carries: bool = False
    steel: Steel | None = None


_SPLIT = re.compile(
    r"[,;:()\[\]\n]| (?:and|or|plus|with|next to|near|beside|by|behind|above|under|below|over|between|on|onto|to|in|at"
    r"|inside|against|along) "
)
_OF = re.compile(r" (?:of|for|from|holding|carrying|that holds|that carries) ")
_SIDES = re.compile(r"\b([no])/s\b")
_ARTICLES = ("the", "a", "an", "my", "our", "its")


@cache
def _by_word() -> Mapping[str, Mapping[str, str]]:
    found: dict[str, Mapping[str, str]] = {}
    for row in table("repair_parts"):
        for word in (row["part"], *row["also"].split("; ")):
            found[_plain(word)] = row
    return found


@cache
def _words(role: str) -> Mapping[str, str]:
    """The words of a role in `part_words`, each with the part whose load it stands for ("" where it has none)."""
    rows = [row for row in table("part_words") if row["role"] == role]
    return {_plain(word): row["part"] for row in rows for word in row["words"].split("; ")}


def _plain(text: str) -> str:
    """Lower case, hyphens and other marks as single spaces."""
    return re.sub(r"[^a-z0-9]+", " ", text.casefold().replace("'", "")).strip()


def parts() -> tuple[Part, ...]:
    """Every part in the table."""
    return tuple(_part(row, row["part"]) for row in table("repair_parts"))


@lru_cache(maxsize=256)  # every bank that is weighed reads each part again
def part(name: str) -> Part:
    """The part that somebody's words mean: the last noun is what is welded, the words before it say what it serves.

    A bracket of a shock absorber is a bracket; one that hands on the load of a seat, a tow bar or a caliper is judged
    as that. Of several parts named the strictest counts. Raises NotFound where a head noun is not known: thickness does
    not make a part weldable, and nobody should take an unknown one for sound.

    >>> part("cracked brake pedal").repair_class.value, part("spare wheel carrier").repair_class.value
    ('never', 'get home then rework')
    >>> part("bracket of the gas strut").repair_class.value, part("drawbar eye").repair_class.value
    ('sound', 'never')
    """
    text = _SIDES.sub(r"\1s", name.casefold()).replace("&", " and ").replace("+", " and ").replace("/", ",")
    chunks = [chunk for piece in _SPLIT.split(f" {text} ") if (chunk := _in_order(piece))]
    known = [found for chunk in chunks if (found := _head(chunk)) is not None]
    unread = [" ".join(chunk) for chunk in chunks if _head(chunk) is None and not _says_nothing(chunk)]
    worst = max(known, key=lambda p: (p.repair_class.rank, p.ask), default=None)
    if worst is None or (unread and worst.repair_class is not RepairClass.NEVER):
        what = unread[0] if unread and known else name
        raise NotFound(f"no part is known as {what!r}: whether it may be welded cannot be said", hint=_near(name))
    return worst


def allowed(name: str, by: str) -> Part:
    """A part that the table does not know, of which somebody who knows it has said that it may be welded."""
    rule = f"Get home: {by} has said that it may be welded."
    return Part(name, RepairClass.GET_HOME, rule, PRACTICE, name)


def _in_order(text: str) -> list[str]:
    """The words of a phrase, what comes after "of" or "for" put before: "bracket of the shock" is a shock bracket."""
    pieces = [_plain(piece).split() for piece in _OF.split(f" {text} ")]
    words = [word for piece in reversed(pieces) for word in _bare(piece)]
    return words if words else _bare(_plain(text).split())


def _bare(words: list[str]) -> list[str]:
    return words[1:] if words[1:] and words[0] in _ARTICLES else words


def _says_nothing(words: Sequence[str]) -> bool:
    """Whether words say only what is wrong or where it is."""
    said = {**_words("condition"), **_words("place")}
    return all(word in said or _singular(word) in said or word.isdigit() for word in words) or " ".join(words) in said


def _head(words: Sequence[str]) -> Part | None:
    """The part that a phrase ends with, once words at its end that only say what is wrong or where are left out."""
    while " ".join(words[-2:]) in _words("condition"):
        words = words[:-2]  # "bolt hole": no bolt
    for end in range(len(words), 0, -1):
        if end < len(words) and not _says_nothing(words[end:]):
            return None
        for start in range(end):
            phrase = " ".join(words[start:end])
            row = _by_word().get(phrase) or _by_word().get(_singular(phrase))
            if row is not None:
                return _loaded(_part(row, phrase), words[:start])
        if words[end - 1] in _words("piece") or _singular(words[end - 1]) in _words("piece"):
            return _whole(words[: end - 1], words[end - 1])
    return None


def _whole(words: Sequence[str], piece: str) -> Part | None:
    """The part that a piece belongs to: a coupling head is the coupling, a recovery loop takes what recovery pulls."""
    if (found := _head(words)) is not None:
        return found
    served = _served(words, ("load", "serves"))
    worst = max(served, key=lambda p: p.repair_class.rank, default=None)
    return replace(worst, matched=f"{' '.join(words)} {piece}") if worst is not None else None


def _served(words: Sequence[str], roles: Sequence[str]) -> list[Part]:
    """The parts whose load, fluid or work a phrase names."""
    text = f" {' '.join(words)} "
    named = [part for role in roles for word, part in _words(role).items() if f" {word} " in text]
    return [_part(_by_word()[_plain(name)], " ".join(words)) for name in named]


def _loaded(found: Part, before: Sequence[str]) -> Part:
    """A bracket or beam as the part whose load it takes, where the words before it name one."""
    if not found.carries:
        return found
    taken = [replace(load, matched=f"{load.matched} {found.matched}") for load in _served(before, ("load",))]
    light = {word: but for word, but in _words("no load").items() if before and before[-1] in (word, f"{word}s")}
    if light:  # the bracket of a cable, a lamp or a damper takes no load of what these belong to
        taken = [load for load in taken if load.name in light.values()]
    worst = max([found, *taken], key=lambda p: p.repair_class.rank)
    return worst if worst is found else replace(worst, name=f"{found.matched} that takes the load of a {worst.name}")


def _singular(phrase: str) -> str:
    """The last word without its plural; a part's table holds the others as they are."""
    if phrase.endswith(("xes", "shes", "ches", "sses")):
        return phrase[:-2]
    return phrase[:-1] if phrase.endswith("s") and not phrase.endswith("ss") else phrase


def _part(row: Mapping[str, str], matched: str) -> Part:
    return Part(
        row["part"],
        RepairClass(row["class"]),
        row["rule"],
        row_source(row),
        matched,
        ask=bool(row["ask"]),
        carries=bool(row["load"]),
        steel=Steel(row["steel"]) if row["steel"] else None,
    )


def _near(name: str) -> str:
    import difflib

    close = difflib.get_close_matches(_plain(name), _by_word(), n=3, cutoff=0.6)
    if close:
        return f"Did you mean {' or '.join(close)}?"
    return "Name the part as the trade does: spring hanger, frame rail, roof-rack leg, ..."
