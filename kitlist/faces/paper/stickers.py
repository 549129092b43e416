"""Stickers for the batteries and leads of one bank: three in a row, cut apart, weatherproof tape over them."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.faces.paper.document import DEFER, Marks, hash_of

STICKER_WIDE_MM, STICKER_HIGH_MM = 66.0, 34.0  # three in a row and at least seven rows clear of the outer 5 mm
STICKERS_A_ROW = 3


@dataclass(frozen=True, slots=True)
class Sticker:
    """One sticker: its mark, as large as it goes, and a line below it that says where it belongs."""

    mark: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stickers:
    """All stickers of one bank, batteries first, then leads in linking order."""

    kit: str
    bank: str
    stickers: tuple[Sticker, ...]
    marks: Marks
    defer: str = DEFER
    title: str = "Stickers"
    untyped: tuple[str, ...] = ()  # words of its names that no family of the type has the letters of

    def content_hash(self) -> str:
        """Eight hex digits of what the stickers say."""
        return hash_of(self, "stickers", leave_out=("marks", "untyped"))
