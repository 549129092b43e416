"""A long judgement on one page: what to do, kind by kind, with every stop named; `ready --all` says the rest."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from kitlist.base import clean
from kitlist.faces.paper.document import Sheet
from kitlist.faces.paper.lines import verdict_lines
from kitlist.readiness import Readiness
from kitlist.rules.core import Gap, Severity
from kitlist.rules.doing import Doing
from kitlist.trips.counting import to_count

LONG = 20  # gaps: more than that fill several screens, and nobody reads to their end
_TITLES = {
    Doing.READ: "Read, with the meter",
    Doing.CHECK: "Look, measure or count, and write it down",
    Doing.ASK: "Ask",
    Doing.GET: "Pack it, or get it",
    Doing.MEND: "Mend or change",
    Doing.CHARGE: "Charge",
    Doing.BAKE: "Bake",
    Doing.PRINT: "Print",
}


def page(readiness: Readiness, *, sheet: Sheet, columns: int) -> str:
    """Verdict, every stop in a line, and the rest by what is to be done about it."""
    return "\n".join(_lines(readiness, clean.for_terminal(sheet), columns))


def is_long(readiness: Readiness) -> bool:
    """Whether its gaps are too many to be read one by one."""
    return len(readiness.gaps) > LONG


def _lines(readiness: Readiness, sheet: Sheet, columns: int) -> Iterator[str]:
    trip = readiness.trip
    yield from textwrap.wrap(f"{sheet.trip}: {trip.starts_on} to {trip.ends_on}", columns)
    yield from verdict_lines(sheet.verdict, columns)
    uncounted = to_count(readiness.kit)
    if len(uncounted) > 5:
        yield ""
        yield from textwrap.wrap(f"First: {len(uncounted)} things stand at 0. Count what is there.", columns)
        yield "   > kitlist count"
    for doing, title in _TITLES.items():
        gaps = [gap for gap in readiness.gaps if gap.asks is doing]
        if gaps:
            yield ""
            yield from _group(title, gaps, columns)
    yield ""
    yield from textwrap.wrap("Each with what to do and why: kitlist ready --all", columns)


def _group(title: str, gaps: Sequence[Gap], columns: int) -> Iterator[str]:
    yield f"{title}:"
    stops = [gap for gap in gaps if gap.weight is Severity.STOP]
    for gap in stops:
        yield from textwrap.wrap(
            f"STOP {clean.plain(gap.what)}", columns, initial_indent="   ", subsequent_indent="        "
        )
    for severity in (Severity.FIX, Severity.NOTE):
        named = (name for gap in gaps if gap.weight is severity for name in (gap.subject, *gap.also))
        subjects = list(dict.fromkeys(clean.plain(name) for name in named))
        if subjects:
            words = f"{severity.upper():4} {', '.join(subjects)}"
            yield from textwrap.wrap(words, columns, initial_indent="   ", subsequent_indent="        ")
