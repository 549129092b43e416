"""User text is data: what may reach a paper, a page or a terminal, and in which form."""

from __future__ import annotations

import dataclasses
import re
import unicodedata
from collections.abc import Callable
from enum import Enum
from typing import TypeVar

LONGEST = 600  # of any text on a paper; a builder cuts a name shorter where it matters
LONGEST_NAME = 120
SUBSTITUTE = "¤"  # stands for a character that the typeface does not have
_DROPPED = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}  # control, format (bidi, joiners), surrogate, private, unassigned
_UNIT = "mm²|mm|cm|km|m|V|mV|A|Ah|mΩ|Ω|kW|W|h|min|s|d|%|°C|°F|K|kg|g|lb|L|l|mL|AWG|pt|in|ft"
_NUMBER_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNIT})(?!\w))")
_MINUS = re.compile(r"(?<![\w.)])-(?=\d)")
_VARIATION = range(0xFE00, 0xFE10)
_Document = TypeVar("_Document")


def plain(text: str, *, longest: int = LONGEST) -> str:
    """One line of text without control, format or bidi characters, spaces run together, cut visibly at `longest`.

    >>> plain("Heron\\u202e main\\x1b[31m  battery\\n")
    'Heron main[31m battery'
    """
    cut = text[: longest * 8]  # more than anybody types; keeps the work below in bounds
    spaced = "".join(" " if character.isspace() else character for character in cut)
    composed = unicodedata.normalize("NFC", spaced)
    kept = "".join(
        character
        for character in composed
        if unicodedata.category(character) not in _DROPPED and ord(character) not in _VARIATION
    )
    line = " ".join(kept.split())
    return line if len(line) <= longest else line[: longest - 1].rstrip() + "…"


def typeset(text: str) -> str:
    """The same text with a true minus and with number and unit kept on one line.

    >>> typeset("-6 °C, 12.5 V, E7018-1").replace("\\u00a0", "~")
    '−6~°C, 12.5~V, E7018-1'
    """
    return _NUMBER_UNIT.sub("\u00a0", _MINUS.sub("−", text))


def drawable(text: str, *, has: Callable[[str], bool]) -> str:
    """Only characters that the typeface has: else the same letter without its accent, else a visible substitute.

    Accents that did not compose with their letter are dropped: a stack of them would run into the line above.
    """
    single = (character for character in text if not unicodedata.combining(character))
    return "".join(character if has(character) else _nearest(character, has) for character in single)


def _nearest(character: str, has: Callable[[str], bool]) -> str:
    bare = [part for part in unicodedata.normalize("NFKD", character) if not unicodedata.combining(part)]
    if bare and all(has(part) for part in bare):
        return "".join(bare)
    return SUBSTITUTE


def for_paper(document: _Document, *, has: Callable[[str], bool]) -> _Document:
    """The document with every text in it fit to print; `has` says whether the typeface has a character."""
    return _mapped(document, lambda text: drawable(typeset(plain(text)), has=has))


def for_terminal(document: _Document) -> _Document:
    """The document with every text in it fit for a terminal, which has characters that the typeface has not."""
    return _mapped(document, lambda text: typeset(plain(text)).replace("\u00a0", " "))


def _mapped(value: _Document, change: Callable[[str], str]) -> _Document:
    """A copy of a tree of dataclasses and tuples with every text changed; enums are words of ours and stay."""
    changed: object = value
    if isinstance(value, str) and not isinstance(value, Enum):
        changed = change(value)
    elif isinstance(value, tuple):
        changed = tuple(_mapped(entry, change) for entry in value)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
        new = {name: _mapped(entry, change) for name, entry in fields.items()}
        changed = dataclasses.replace(value, **new)
    return changed  # type: ignore[return-value]
