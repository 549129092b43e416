"""What each page shows, as plain data for its template: words are cleaned here, and nothing is judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from kitlist.base import clean
from kitlist.faces.paper.build_items import carried_first, what_it_is
from kitlist.faces.phone import forms
from kitlist.rules import Gap
from kitlist.trips.check_off import Line, state


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One thing to look at: its key, its words, its number on the sheet, the word of its gravest gap, the answer so
    far, what cannot be taken of what was sent and whose answer it would overrule (`asks`)."""

    key: str
    what: str
    see: str
    count: int
    must_carry: bool
    state: str
    answer: str
    counted: str
    said: str
    number: int
    word: str = ""
    wrong: str = ""
    asks: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BagView:
    """One bag: its anchor on the page, its name and place, its rows, the numbers of the first and the last on the
    sheet, how many are left."""

    id: str
    name: str
    place: str
    rows: tuple[RowView, ...]
    left: int

    @property
    def numbers(self) -> str:
        """The numbers of its things on the sheet."""
        first, last = self.rows[0].number, self.rows[-1].number
        return str(first) if first == last else f"{first} to {last}"


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
    asks: Mapping[str, str] = field(default_factory=dict)


def gap(found: Gap) -> GapView:
    """A gap for a page."""
    return GapView(
        severity=str(found.weight),
        what=clean.typeset(clean.plain(found.what)),
        do=clean.typeset(clean.plain(found.remedy)),
    )


def status(checked: Sequence[Line]) -> str:
    """How far the check-off is: "3 of 6, 1 must-carry missing"."""
    done = sum(1 for line in checked if line.answer is not None)
    missing = sum(1 for line in checked if line.answer is not None and line.answer.short and carried_first(line.thing))
    return f"{done} of {len(checked)}" + (f", {missing} must-carry missing" if missing else "")


def bags(checked: Sequence[Line], told: Told, *, words: Mapping[str, str]) -> tuple[BagView, ...]:
    """Every bag in walking order with its rows; `words` has the word of the gravest gap at each thing, by its key."""
    found = []
    for number, (name, lines) in enumerate(groupby(checked, key=lambda line: line.bag), start=1):
        rows = tuple(row(line, told, words) for line in lines)
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


def row(line: Line, told: Told, words: Mapping[str, str]) -> RowView:
    """One thing with its answer, or with what was sent about it and could not be taken."""
    key = forms.key(line.kind, line.name)
    answer = str(line.answer.answer) if line.answer else ""
    counted = str(line.answer.count) if line.answer and line.answer.answer == "counted" else ""
    what, see = what_it_is(line.thing)
    return RowView(
        key=key,
        what=clean.typeset(clean.plain(what, longest=160)),
        see=clean.typeset(clean.plain(see)),
        count=line.thing.count,
        must_carry=carried_first(line.thing),
        state=state(line.answer),
        answer=told.typed.get(f"answer:{key}", answer) if key in told.wrong else answer,
        counted=told.typed.get(f"count:{key}", counted) if key in told.wrong else counted,
        said=said(line),
        number=line.number,
        word=clean.plain(words.get(key, "")),
        wrong=clean.plain(told.wrong.get(key, "")),
        asks=told.asks.get(key, ""),
    )


def said(line: Line) -> str:
    """The answer so far, with who gave it and when."""
    if line.answer is None:
        return ""
    return f"{line.answer.words}, {clean.plain(line.answer.checked_by)} {line.answer.checked_at:%H:%M}"
