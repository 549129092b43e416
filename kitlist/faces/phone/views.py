"""What each page shows, as plain data for its template: words are cleaned here, and nothing is judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from kitlist.base import clean
from kitlist.faces.paper.build_items import carried_first, what_it_is
from kitlist.faces.phone import forms
from kitlist.rules import Gap
from kitlist.trips.check_off import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One thing to look at: its key, its words, the answer so far, what cannot be taken of what was sent."""

    key: str
    what: str
    see: str
    count: int
    must_carry: bool
    state: str
    answer: str
    counted: str
    said: str
    wrong: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BagView:
    """One bag: its anchor on the page, its name and place, its rows, how many are left."""

    id: str
    name: str
    place: str
    rows: tuple[RowView, ...]
    left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class GapView:
    """A gap in words."""

    severity: str
    what: str
    do: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the last thing sent came to: said once, in the bag it is about (its anchor), else at the top of the page."""

    bag: str = ""
    kept: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    gaps: tuple[GapView, ...] = ()
    wrong: Mapping[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)


def gap(found: Gap) -> GapView:
    """A gap for a page."""
    return GapView(severity=str(found.weight), what=clean.plain(found.what), do=clean.plain(found.remedy))


def status(checked: Sequence[Line]) -> str:
    """How far the check-off is: "3 of 6, 1 must-carry missing"."""
    done = sum(1 for line in checked if line.answer is not None)
    missing = sum(1 for line in checked if line.answer is not None and line.answer.short and carried_first(line.thing))
    return f"{done} of {len(checked)}" + (f", {missing} must-carry missing" if missing else "")


def bags(checked: Sequence[Line], told: Told) -> tuple[BagView, ...]:
    """Every bag in walking order with its rows."""
    found = []
    for number, (name, lines) in enumerate(groupby(checked, key=lambda line: line.bag), start=1):
        rows = tuple(row(line, told) for line in lines)
        place = next((line.place for line in checked if line.bag == name), "")
        found.append(
            BagView(
                id=f"bag-{number}",
                name=clean.plain(name),
                place=clean.plain(place),
                rows=rows,
                left=sum(1 for shown in rows if not shown.state),
            )
        )
    return tuple(found)


def row(line: Line, told: Told) -> RowView:
    """One thing with its answer, or with what was sent about it and could not be taken."""
    key = forms.key(line.kind, line.name)
    answer = str(line.answer.answer) if line.answer else ""
    counted = str(line.answer.count) if line.answer and line.answer.answer == "counted" else ""
    what, see = what_it_is(line.thing)
    return RowView(
        key=key,
        what=clean.plain(what, longest=160),
        see=clean.plain(see),
        count=line.thing.count,
        must_carry=carried_first(line.thing),
        state=forms.state(line.answer),
        answer=told.typed.get(f"answer:{key}", answer) if key in told.wrong else answer,
        counted=told.typed.get(f"count:{key}", counted) if key in told.wrong else counted,
        said=said(line),
        wrong=clean.plain(told.wrong.get(key, "")),
    )


def said(line: Line) -> str:
    """The answer so far, with who gave it and when."""
    if line.answer is None:
        return ""
    return f"{line.answer.words}, {clean.plain(line.answer.checked_by)} {line.answer.checked_at:%H:%M}"
