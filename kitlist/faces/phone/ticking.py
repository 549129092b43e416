"""Answers from a phone into the store: only what it changed, and what changed meanwhile is said."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime

from kitlist.base.errors import KitlistError, NotFound
from kitlist.faces.phone import forms
from kitlist.faces.phone.forms import Tick, WrongField
from kitlist.rules import Gap
from kitlist.store import Store, checked_off
from kitlist.trips import check_off
from kitlist.trips.check_off import Line

Gaps = Callable[[], tuple[Gap, ...]]


@dataclass(frozen=True, slots=True)
class Kept:
    """What was kept, as sentences; what another phone had answered otherwise; the gaps that follow; what was not."""

    kept: tuple[str, ...] = ()
    meanwhile: tuple[str, ...] = ()
    gaps: tuple[Gap, ...] = ()
    wrong: tuple[WrongField, ...] = ()


def keep(store: Store, trip: str, ticks: Sequence[Tick], *, by: str, at: datetime, gaps: Gaps) -> Kept:
    """Keep the answers, all of them or none; one about a count that is recorded otherwise meanwhile is said, not kept.

    Raises BadData, NotFound.
    """
    before = {(line.kind, line.name): line for line in checked_off.progress(store, trip)}
    for tick in ticks:
        if (tick.kind, tick.name) not in before:  # by its whole name: the start of another's would tick that one
            raise NotFound(f"no {tick.kind} is called {tick.name!r}", hint="It is gone meanwhile: load the page again.")
    wrong = tuple(filter(None, (_doubt(before[tick.kind, tick.name], tick, by=by, at=at) for tick in ticks)))
    keys = {one.key for one in wrong}
    new = [
        tick
        for tick in ticks
        if forms.key(tick.kind, tick.name) not in keys and not _there_already(before[tick.kind, tick.name], tick)
    ]
    if not new:
        return Kept(wrong=wrong)
    short = any(_short(before.get((tick.kind, tick.name)), tick) for tick in new)
    known = {(gap.rule, gap.subject) for gap in _told(gaps)} if short else set()
    told = [(tick.kind, tick.name, tick.answer, tick.count) for tick in new]
    kept = checked_off.record(store, trip, told, by=by, at=at)
    meanwhile = [_meanwhile(before.get((tick.kind, tick.name)), tick) for tick in new]
    return Kept(
        kept=tuple(f"{answer.name}: {answer.words}" for answer in kept),
        meanwhile=tuple(filter(None, meanwhile)),
        gaps=tuple(gap for gap in _told(gaps) if (gap.rule, gap.subject) not in known) if short else (),
        wrong=wrong,
    )


def _doubt(line: Line, tick: Tick, *, by: str, at: datetime) -> WrongField | None:
    """What must be looked at once more. Whoever saw 4 and says `there` has not seen the 6 that are recorded since."""
    key = forms.key(tick.kind, tick.name)
    if tick.of not in ("", str(line.thing.count)):
        why = f"{line.thing.count} are recorded now, not {tick.of[:8]}: load the page again and look again"
        return WrongField(key, why)
    counted = check_off.counted(line.thing, tick.answer, tick.count)
    why = check_off.contested(line.answer, counted=counted, by=by, at=at, sure=tick.sure)
    return WrongField(key, why, check_off.state(line.answer)) if why else None


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
    if line is None or line.answer is None or check_off.state(line.answer) == tick.was:
        return ""
    return f"{line.name}: {line.answer.checked_by} had said {line.answer.words} meanwhile; yours counts now"


def _told(gaps: Gaps) -> tuple[Gap, ...]:
    try:
        return gaps()
    except KitlistError:
        return ()  # what cannot be judged does not keep an answer from being taken
