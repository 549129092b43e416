"""The typeface of every paper: its two weights, which characters it has, how wide a text comes out.

Atkinson Hyperlegible (SIL Open Font License) from its own package; nothing else is ever printed with.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

MM_A_POINT = 25.4 / 72
_PIECE = re.compile(r"[^-]+-*|-+")


@dataclass(frozen=True)
class FontWeight:
    """One weight: the advance of each character it has, in thousandths (`units_a_em`) of the type size."""

    advances: dict[int, int]
    units_a_em: int


def path(*, bold: bool = False) -> Path:
    """The font file."""
    import fontpkg_atkinson_hyperlegible as package

    name = "Bold" if bold else "Regular"
    return Path(package.ROOT) / "files" / f"AtkinsonHyperlegible-{name}.ttf"


@cache
def weight(*, bold: bool = False) -> FontWeight:
    """Read once a process, and only when something is drawn."""
    from fontTools.ttLib import TTFont

    with TTFont(path(bold=bold), lazy=True) as font:
        advances = {code: font["hmtx"][glyph][0] for code, glyph in font.getBestCmap().items()}
        return FontWeight(advances=advances, units_a_em=font["head"].unitsPerEm)


def has(character: str) -> bool:
    """Whether both weights can draw it (they have the same characters)."""
    return ord(character) in weight().advances


def width_mm(text: str, *, size_pt: float, bold: bool = False) -> float:
    """Width of a line in mm, without kerning, which only ever makes it a little narrower.

    >>> round(width_mm("HOLDER TO +", size_pt=12, bold=True))
    28
    """
    drawn = weight(bold=bold)
    widest = max(drawn.advances.values())
    units = sum(drawn.advances.get(ord(character), widest) for character in text)
    return units / drawn.units_a_em * size_pt * MM_A_POINT


def wrap(text: str, *, width_max_mm: float, size_pt: float, bold: bool = False) -> tuple[str, ...]:
    """The lines that a text takes; it breaks between words and after hyphens, and nowhere else.

    >>> wrap("plover-second battery", width_max_mm=20, size_pt=12, bold=True)
    ('plover-', 'second', 'battery')
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
