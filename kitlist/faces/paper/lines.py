"""A sheet's verdict and gaps as lines of text: what a screen shows of it, without the parts that are drawn."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from kitlist.faces.paper.document import GapLine, VerdictBox

_SEVERITY_WIDE = 6


def wrapped(text: str, columns: int, *, first: str = "", rest: str | None = None) -> list[str]:
    """The text in lines of so many characters, `first` before it, `rest` before the lines that follow."""
    later = " " * len(first) if rest is None else rest
    return textwrap.wrap(text, columns, initial_indent=first, subsequent_indent=later) or [first.rstrip()]


def verdict_lines(verdict: VerdictBox, columns: int) -> Iterator[str]:
    """The word with its counts, and what it asks of the crew."""
    counts = ", ".join(f"{count.value} {count.label}" for count in verdict.counts if count.value != "0")
    mark = "*" if verdict.changed else ""
    yield from wrapped(f"{mark}{verdict.word.upper()}{f' ({counts})' if counts else ''}", columns)
    if verdict.meaning:
        yield from wrapped(verdict.meaning, columns)


def gap_lines(gap: GapLine, columns: int) -> Iterator[str]:
    """A gap: its severity and what is wrong, then what to do and who took it on."""
    mark = "*" if gap.changed else ""
    yield from wrapped(gap.what, columns, first=f"{mark}{gap.severity.upper()}".ljust(_SEVERITY_WIDE))
    for line in filter(None, (gap.do, gap.accepted)):
        yield from wrapped(line, columns, first=" " * _SEVERITY_WIDE)
