"""What own welds taught, as lines for a terminal and as JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Any

from kitlist.base.measures import counted
from kitlist.outlook.own_rods import LearnedLine
from kitlist.outlook.own_welds import OwnWelds

_DIGITS = {"Ah": 2, "V": 1, "": 2}


def learned_lines(taught: OwnWelds, *, columns: int) -> Iterator[str]:
    """Predicted against measured, share inside the 80 % band, what was set aside, and what to measure next."""
    for line in taught.lines:
        yield from textwrap.wrap(_sentence(line), columns, subsequent_indent="    ")
        for note in _notes(line):
            yield from textwrap.wrap(note, columns, initial_indent="  - ", subsequent_indent="    ")
    for name, why in taught.unused:
        yield from textwrap.wrap(f"{name} teaches no ampere-hours: {why}", columns, subsequent_indent="    ")
    best = taught.next_best
    if best is not None:
        less = f"{best.narrows_by * 100:.0f} % off the spread of {_title(best)}"
        words = f"What would narrow most ({less}): {best.measure}."
        yield from textwrap.wrap(words, columns, subsequent_indent="    ")


def _title(line: LearnedLine) -> str:
    return f"{line.what.words}, {line.of}"


def _value(line: LearnedLine, value: float) -> str:
    return f"{value:.{_DIGITS[line.unit]}f} {line.unit}".rstrip()


def _sentence(line: LearnedLine) -> str:
    if not line.readings:
        return f"{_title(line)}: predicted {_value(line, line.predicted)}; not measured yet"
    band = line.next_weld
    measured = counted(len(line.readings), "weld")
    return (
        f"{_title(line)}: predicted {_value(line, line.predicted)}, by {measured} {_value(line, line.learned.best)}; "
        f"the next one {_value(line, band.low)} to {_value(line, band.high)}"
    )


def _notes(line: LearnedLine) -> Iterator[str]:
    if line.hits.of:
        yield f"{line.hits.inside} of {line.hits.of} inside the 80 % band that was predicted before each"
    if line.hits.too_narrow:
        yield "so few that the bands were too narrow: they are shown half as wide again"
    for reading in line.learned.set_aside:
        yield f"set aside as far off the others: {reading.name}, {_value(line, reading.value)}"


def plain_learned(taught: OwnWelds) -> dict[str, Any]:
    """The same as JSON has it."""
    best = taught.next_best
    return {
        "learned": [
            {
                "what": line.what.name.lower(),
                "of": line.of,
                "unit": line.unit,
                "predicted": line.predicted,
                "learned": line.learned.best,
                "next_80_percent": [line.next_weld.low, line.next_weld.high],
                "readings": [{"name": r.name, "value": r.value} for r in line.learned.used],
                "set_aside": [{"name": r.name, "value": r.value} for r in line.learned.set_aside],
                "inside": line.hits.inside,
                "of_predicted": line.hits.of,
                "too_narrow": line.hits.too_narrow,
                "narrows_by_ratio": line.narrows_by,
            }
            for line in taught.lines
        ],
        "unused": [{"weld": name, "why": why} for name, why in taught.unused],
        "measure_next": None if best is None else best.measure,
    }
