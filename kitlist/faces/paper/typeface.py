"""The typeface of every paper: its two weights, which characters it has, how wide a text comes out.

Atkinson Hyperlegible, and Fira Sans for the Cyrillic and Greek that it has not (both SIL Open Font License), each from
its own package; nothing else is ever printed with.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

MM_A_POINT = 25.4 / 72
_PIECE = re.compile(r"^\w-[^-]+-*|[^-]+-*|-+")  # a lone letter stays with its word: U-bolt


@dataclass(frozen=True)
class FontWeight:
    """One weight: the advance of each character it has, in thousandths (`units_a_em`) of the type size."""

    advances: dict[int, int]
    units_a_em: int


@dataclass(frozen=True, slots=True)
class FontAsset:
    """One of the font files, by its weight and its family."""

    bold: bool
    second: bool


def path(*, bold: bool = False, second: bool = False) -> Path:
    """The font file of a weight, of the first family or of the second."""
    if second:
        import fontpkg_fira_sans as package
    else:
        import fontpkg_atkinson_hyperlegible as package

    name = "Bold" if bold else "Regular"
    return Path(package.ROOT) / "files" / f"{'FiraSans' if second else 'AtkinsonHyperlegible'}-{name}.ttf"


@cache
def weight(*, bold: bool = False, second: bool = False) -> FontWeight:
    """A weight of a family; read once a process, and only when something is drawn that needs it."""
    from fontTools.ttLib import TTFont

    with TTFont(path(bold=bold, second=second), lazy=True) as font:
        advances = {code: font["hmtx"][glyph][0] for code, glyph in font.getBestCmap().items()}
        return FontWeight(advances=advances, units_a_em=font["head"].unitsPerEm)


def wants_second(text: str) -> bool:
    """Whether a text has a character that only the second family can draw.

    >>> wants_second("heron-main"), wants_second("Цапля")
    (False, True)
    """
    first = weight().advances
    left = {ord(character) for character in set(text)} - first.keys()
    return bool(left) and not left.isdisjoint(weight(second=True).advances)


def has(character: str) -> bool:
    """Whether one of the families can draw it (both weights of each have the same characters)."""
    return ord(character) in weight().advances or ord(character) in weight(second=True).advances


@cache
def _advance_ratio(character: str, *, bold: bool) -> float:
    """How wide a character comes out, as a part of its type size: in the first family that has it, else the widest."""
    for second in (False, True):
        drawn = weight(bold=bold, second=second)
        if ord(character) in drawn.advances:
            return drawn.advances[ord(character)] / drawn.units_a_em
    drawn = weight(bold=bold)
    return max(drawn.advances.values()) / drawn.units_a_em


def width_mm(text: str, *, size_pt: float, bold: bool = False) -> float:
    """Width of a line in mm, without kerning, which only ever makes it a little narrower.

    >>> round(width_mm("HOLDER TO +", size_pt=12, bold=True))
    28
    """
    return sum(_advance_ratio(character, bold=bold) for character in text) * size_pt * MM_A_POINT


def wrap(text: str, *, width_max_mm: float, size_pt: float, bold: bool = False) -> tuple[str, ...]:
    """The lines that a text takes; it breaks between words and after hyphens, and nowhere else.

    >>> wrap("plover-second battery", width_max_mm=20, size_pt=12, bold=True)
    ('plover-', 'second', 'battery')
    >>> wrap("two lengths, U-bolts", width_max_mm=28, size_pt=12)
    ('two lengths,', 'U-bolts')
    """
    lines: list[str] = []
    for word in text.split():
        for place, piece in enumerate(_PIECE.findall(word)):
            longer = f"{lines[-1]}{'' if place else ' '}{piece}" if lines else piece
            if lines and width_mm(longer, size_pt=size_pt, bold=bold) <= width_max_mm:
                lines[-1] = longer
            else:
                lines.append(piece)
    return tuple(lines)


def cut(text: str, *, width_max_mm: float, size_pt: float, bold: bool = False) -> str:
    """The text, or as much of it as fits with … at its end.

    >>> cut("Extinguisher", width_max_mm=20, size_pt=12)
    'Extinguis…'
    """
    shown = text
    while len(shown) > 1 and width_mm(shown, size_pt=size_pt, bold=bold) > width_max_mm:
        shown = shown.removesuffix("…")[:-1].rstrip() + "…"
    return shown
