"""The judgement in a few lines for a terminal: verdict, gaps with what to do and to type, and the bank."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from kitlist.prints.document import BankPanel, Fact
from kitlist.readiness import Readiness

_INDENT = " " * 6


def summary(readiness: Readiness, *, bank: BankPanel | None, columns: int) -> str:
    """Lines of at most `columns` characters, to be read from top to bottom."""
    return "\n".join(_lines(readiness, bank, columns))


def _lines(readiness: Readiness, bank: BankPanel | None, columns: int) -> Iterator[str]:
    trip = readiness.trip
    counts = ", ".join(f"{count} {severity}" for severity, count in readiness.counts.items() if count)
    days = (trip.starts_on - readiness.on).days
    when = f"leaves in {days} days" if days > 0 else "leaves today" if days == 0 else "under way or past"
    yield from textwrap.wrap(f"{trip.name}: {trip.starts_on} to {trip.ends_on}, {when}", columns)
    yield f"{readiness.verdict.upper()}{f' ({counts})' if counts else ''}"
    yield from textwrap.wrap(readiness.verdict.meaning, columns)
    for gap in readiness.gaps:
        yield ""
        yield from _indented(gap.what, columns, first=f"{gap.weight.upper():6}")
        yield from _indented(gap.remedy, columns)
        if gap.command:
            yield f"{_INDENT}> {gap.command}"
        yield f"{_INDENT}(kitlist why {gap.rule})"
    if bank is not None and bank.facts:
        yield ""
        yield from _indented(_one_line(bank.facts), columns, first="Bank  ")


def _one_line(facts: tuple[Fact, ...]) -> str:
    return "; ".join(f"{fact.label[0].lower()}{fact.label[1:]} {fact.value}" for fact in facts)


def _indented(text: str, columns: int, *, first: str = _INDENT) -> list[str]:
    return textwrap.wrap(text, columns, initial_indent=first, subsequent_indent=_INDENT)
