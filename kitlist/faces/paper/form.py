"""The blank form: tables to write volts and beads into by hand, in the order in which the commands ask for them."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.faces.paper.document import DEFER, Marks, hash_of


@dataclass(frozen=True, slots=True, kw_only=True)
class FormTable:
    """A table to fill in: `blanks` are asked for once, above it; `rows` are filled in as far as they go.

    `choices` has for each row the words to tick in its open cells, each behind a box; () where one writes.
    """

    title: str
    headings: tuple[str, ...] = ()  # with their units: "Volts, V"; none: the note is all there is
    rows: tuple[tuple[str, ...], ...] = ()
    blank_rows: int = 0
    blanks: tuple[str, ...] = ()
    note: str = ""
    choices: tuple[tuple[str, ...], ...] = ()

    def choices_of(self, row: int) -> tuple[str, ...]:
        """What is ticked in the open cells of a row; nothing where one writes."""
        return self.choices[row] if row < len(self.choices) else ()

    def filled(self) -> tuple[tuple[str, ...], ...]:
        """All rows, each as long as the headings.

        >>> FormTable(title="Volts", headings=("Battery", "Volts, V"), rows=(("Heron main",),), blank_rows=1).filled()
        (('Heron main', ''), ('', ''))
        """
        wide = len(self.headings)
        given = tuple((*row, *[""] * wide)[:wide] for row in self.rows)
        return given + (("",) * wide,) * self.blank_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A blank form of one crew, to be typed in later."""

    kit: str
    tables: tuple[FormTable, ...]
    marks: Marks
    trip: str = ""
    title: str = "Readings and beads"
    defer: str = DEFER

    def content_hash(self) -> str:
        """Eight hex digits of what the form asks for."""
        return hash_of(self, "form", leave_out=("marks",))
