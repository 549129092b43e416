"""The sheet in a few lines for a terminal: verdict, gaps with what to do and to type, and the bank."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from kitlist.base import clean
from kitlist.base.measures import counted
from kitlist.faces.paper.document import BankPanel, Fact, Sheet
from kitlist.faces.paper.lines import gap_lines, verdict_lines
from kitlist.readiness import Readiness
from kitlist.rules.core import Gap

_INDENT = " " * 6


def stops_in_short(stops: Sequence[Gap]) -> str:
    """The first of the stops that stand, and how many more; "" for none."""
    more = f", and {len(stops) - 1} more" if len(stops) > 1 else ""
    return f"{stops[0].what}{more}" if stops else ""


def summary(readiness: Readiness, *, sheet: Sheet, columns: int) -> str:
    """Lines of at most `columns` characters, to be read from top to bottom; commands to type stand on one line."""
    return "\n".join(_lines(readiness, clean.for_terminal(sheet), columns))


def _lines(readiness: Readiness, sheet: Sheet, columns: int) -> Iterator[str]:
    trip = readiness.trip
    days = (trip.starts_on - readiness.on).days
    when = f"leaves in {counted(days, 'day')}" if days > 0 else "leaves today" if days == 0 else "under way or past"
    yield from textwrap.wrap(f"{sheet.trip}: {trip.starts_on} to {trip.ends_on}, {when}", columns)
    yield from verdict_lines(sheet.verdict, columns)
    for line, gap in zip(sheet.gaps, readiness.gaps, strict=True):
        yield ""
        yield from gap_lines(line, columns)
        if gap.command:
            yield f"{_INDENT}> {clean.plain(gap.command)}"
        yield f"{_INDENT}(kitlist why {gap.rule})"
    for line in sheet.accepted:
        yield ""
        yield from gap_lines(line, columns)
    for change in readiness.changes:
        yield ""
        yield from textwrap.wrap(f"Rulebook: {clean.plain(change)}", columns, subsequent_indent=_INDENT)
    if sheet.bank is not None and sheet.bank.facts:
        yield ""
        yield from textwrap.wrap(_one_line(sheet.bank), columns, initial_indent="Bank  ", subsequent_indent=_INDENT)


def _one_line(bank: BankPanel) -> str:
    return "; ".join(_words(fact) for fact in bank.facts)


def _words(fact: Fact) -> str:
    return f"{fact.label[0].lower()}{fact.label[1:]} {fact.value}"
