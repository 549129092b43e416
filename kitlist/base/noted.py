"""What somebody's note or answer says: the words of a kind that stand in it and are not denied there."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from kitlist.base.sources import table

_CLAUSES = re.compile(r"[,;.:()!?\[\]\n]+(?=\s|$)|\s[-–—]\s| (?:but|however|though|although) ")
_BEFORE = 4  # words before a thing in which a "no" denies it: "no bare or taped spots"


@cache
def _rows(role: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words of a role, longest first, and those that take their meaning away where they stand beside them."""
    rows = [row for row in table("noted_words") if row["role"] == role]
    if not rows:
        raise KeyError(f"no words of {role!r} in noted_words")
    words, unless = (
        {plain(word) for row in rows for word in row[column].split("; ") if word} for column in ("words", "unless")
    )
    return tuple(sorted(words, key=len, reverse=True)), tuple(sorted(unless))


@lru_cache(maxsize=4096)  # the same notes are read by many rules
def plain(text: str) -> str:
    """Lower case, marks as single spaces: what words are compared by.

    >>> plain("LiFePO4, 100-Ah")
    'lifepo4 100 ah'
    """
    return re.sub(r"[^\w]+|_+", " ", text.casefold().replace("'", "").replace("’", "")).strip()


def clauses(text: str) -> list[str]:
    """A text cut where a "no" no longer reaches: at marks, and at "but" and its like."""
    return _CLAUSES.split(text)


def noted(role: str, *texts: str) -> str:
    """The first words of a role that the texts say and do not deny, "" where there are none.

    >>> noted("battery damage", "leaks a little at the post"), noted("battery damage", "no leaks, no cracks")
    ('leaks', '')
    >>> noted("lithium label", "charged by a lithium-ready charger"), noted("lithium label", "LFP, has a BMS")
    ('', 'lfp')
    """
    words, unless = _rows(role)
    for text in texts:
        for clause in clauses(text):
            said = plain(clause)
            if said and not _has(said, unless) and (found := _undenied(said, words)):
                return found
    return ""


def answer(text: str) -> str:
    """An answer or a name as it was given, "" where the words only say that there is none yet.

    >>> answer(" Dr May, 1 March: 5 m off "), answer("not asked yet"), answer("-"), answer("nobody")
    ('Dr May, 1 March: 5 m off', '', '', '')
    """
    said = plain(text)
    nothing = not said or said in _rows("no answer")[0] or _has(said, _rows("still to come")[0])
    return "" if nothing else text.strip()


def first_of(text: str, words: Iterable[str]) -> str:
    """The longest of some words that a text says and does not deny, "" where it says none.

    >>> first_of("a cast iron bracket", ["cast", "cast iron"]), first_of("not cast", ["cast"])
    ('cast iron', '')
    """
    longest = tuple(sorted(map(plain, words), key=len, reverse=True))
    return next((found for clause in clauses(text) if (found := _undenied(plain(clause), longest))), "")


def _has(said: str, words: tuple[str, ...]) -> bool:
    return any(f" {word} " in f" {said} " for word in words)


def _undenied(said: str, words: tuple[str, ...]) -> str:
    """The first of the words in a clause that no "no" before it denies, and that has not ended by what follows."""
    for word in words:
        if word not in said:  # most words of a role: no pattern is made for them
            continue
        for found in re.finditer(rf"\b{re.escape(word)}\b", said):
            before = " ".join(said[: found.start()].split()[-_BEFORE:])
            if not _has(before, _rows("no")[0]) and not _has(said[found.end() :], _rows("ended")[0]):
                return word
    return ""
