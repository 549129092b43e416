"""What a card consists of, as plain data: faces of blocks from top to bottom, and the marks that tell it from another.

Nothing here judges, computes or words anything: `build_card` brings every text ready to read.
"""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.terms import Polarity
from kitlist.faces.paper.charts import Chart
from kitlist.faces.paper.document import DEFER, Caution, Hookup, Marks, hash_of

FORMAT = 2
"""Part of every card's hash, so that a card of another layout never has the hash of this one."""


@dataclass(frozen=True, slots=True)
class Step:
    """One action, verb first; `see` is the state or value that answers it, set bold at the right."""

    text: str
    see: str = ""


@dataclass(frozen=True, slots=True)
class Lines:
    """A short unnumbered paragraph behind a bold word or two: what belongs to the step above it."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PolarityBanner:
    """Which end goes where, in words, as large as the card allows."""

    polarity: Polarity


@dataclass(frozen=True, slots=True)
class IfThenLine:
    """A trigger, bold at the left, and what to do then."""

    trigger: str
    then: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A small table: under its headings a row a thing, numbers at the right; `notes` has a line below each row.

    Not `headed` is a piece that stands below another piece of the same table, without title and headings of its own.
    """

    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()
    headed: bool = True
    numbers: bool = False  # every column holds numbers


@dataclass(frozen=True, slots=True)
class Bars:
    """The bank's current beside each rod's range, drawn."""

    chart: Chart


@dataclass(frozen=True, slots=True)
class Blanks:
    """Rules to write on, each behind its word."""

    words: tuple[str, ...]


Block = Step | Caution | Hookup | Lines | PolarityBanner | IfThenLine | Grid | Bars | Blanks


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One face of the card: its number (1, 1b, 2 ...), when it begins, its blocks, and which face is next."""

    number: str
    title: str
    when: str
    blocks: tuple[Block, ...]
    next: str = ""
    wrong: str = ""  # where to look when it goes wrong; "" on that face itself
    first_step: int = 1  # the steps of a face that goes on are counted on
    back_cover: bool = False

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps alone, in order."""
        return tuple(block for block in self.blocks if isinstance(block, Step))


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """The glovebox card: faces on a ring, read a step, do it. It holds no reading, so a lamination stays true."""

    kit: str
    bank: str
    faces: tuple[Face, ...]
    marks: Marks
    defer: str = DEFER
    title: str = "Glovebox card"
    format: int = FORMAT
    untyped: tuple[str, ...] = ()  # words of its names that no family of the type has the letters of

    def content_hash(self) -> str:
        """Eight hex digits of what the card shows; the sheet prints it, so that a stale card can be told."""
        return hash_of(self, "card", leave_out=("marks", "untyped"))
