"""Answers from a phone into the store: only what it changed, and what changed meanwhile is said."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from kitlist.errors import KitlistError
from kitlist.page import forms
from kitlist.page.forms import Tick
from kitlist.rules import Gap
from kitlist.store import Store, check_off
from kitlist.trips.check_off import Line

Gaps = Callable[[], tuple[Gap, ...]]


@dataclass(frozen=True, slots=True)
class Kept:
    """What was kept, as sentences; what another phone had answered otherwise; and the gaps that follow."""

    kept: tuple[str, ...] = ()
    meanwhile: tuple[str, ...] = ()
    gaps: tuple[Gap, ...] = ()


def keep(store: Store, trip: str, ticks: Sequence[Tick], *, by: str, at: datetime, gaps: Gaps) -> Kept:
    """Keep the answers, all of them or none. Raises BadData, NotFound."""
    before = {(line.kind, line.name): line for line in check_off.progress(store, trip)}
    new = [tick for tick in ticks if not _there_already(before.get((tick.kind, tick.name)), tick)]
    if not new:
        return Kept()
    short = any(_short(before.get((tick.kind, tick.name)), tick) for tick in new)
    known = {(gap.rule, gap.subject) for gap in _told(gaps)} if short else set()
    told = [(tick.kind, tick.name, tick.answer, tick.count) for tick in new]
    kept = check_off.record(store, trip, told, by=by, at=at)
    meanwhile = [_meanwhile(before.get((tick.kind, tick.name)), tick) for tick in new]
    return Kept(
        kept=tuple(f"{answer.name}: {answer.words}" for answer in kept),
        meanwhile=tuple(filter(None, meanwhile)),
        gaps=tuple(gap for gap in _told(gaps) if (gap.rule, gap.subject) not in known) if short else (),
    )


def _there_already(line: Line | None, tick: Tick) -> bool:
    """Whether the store says the same already: a form that was sent twice."""
    if line is None or line.answer is None or line.answer.answer is not tick.answer:
        return False
    return tick.answer != "counted" or line.answer.count == tick.count


def _short(line: Line | None, tick: Tick) -> bool:
    if tick.answer == "counted":
        return line is None or tick.count < line.thing.count
    return tick.answer != "there"


def _meanwhile(line: Line | None, tick: Tick) -> str:
    """What another phone had answered since this one was shown the thing; the newest answer counts."""
    if line is None or line.answer is None or forms.state(line.answer) == tick.was:
        return ""
    return f"{line.name}: {line.answer.checked_by} had said {line.answer.words} meanwhile; yours counts now"


def _told(gaps: Gaps) -> tuple[Gap, ...]:
    try:
        return gaps()
    except KitlistError:
        return ()  # what cannot be judged does not keep an answer from being taken
