"""next: where a trip stands, from weeks before it to the day after."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.cli.judging import Json, On, TripName, judged
from kitlist.cli.talk import day, open_store, show, show_json, store_path, width

if TYPE_CHECKING:
    from kitlist.readiness import Readiness
    from kitlist.store import Store
    from kitlist.trips.next_step import NextStep
    from kitlist.trips.timeline import Action


def register(app: typer.Typer) -> None:
    """Put these commands on the app."""
    app.command("next")(next_)


def next_(
    context: typer.Context,
    trip: TripName = None,
    every: Annotated[bool, typer.Option("--all", help="All that is to be done, by day.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Say what to do next, and the command that does it.

    Example: kitlist next --all
    """
    from kitlist.prints import trip_text

    columns = min(width(), 100)
    if every:
        store = open_store(context)
        actions = actions_of(store, judged(store, trip, on=day(on)))
        show_json(trip_text.plain_timeline(actions)) if as_json else show(
            "\n".join(trip_text.timeline_lines(actions, columns=columns))
        )
        return
    step = _step(context, trip, on=day(on))
    if as_json:
        answer: dict[str, Any] = trip_text.plain_next(step)
        show_json(answer)
    else:
        show("\n".join(trip_text.next_lines(step, columns=columns)))


def _step(context: typer.Context, trip: str | None, *, on: date) -> NextStep:
    from kitlist.store.snapshot import snapshot, trips
    from kitlist.trips import next_step

    if not store_path(context).exists():
        return next_step.no_store()
    store = open_store(context)
    known = trips(store)
    if trip is None and all(t.ends_on < on for t in known):
        last = max(known, key=lambda t: t.ends_on, default=None)
        return next_step.no_trip(snapshot(store), last, on=on)
    readiness = judged(store, trip, on=on)
    return next_step.of_trip(readiness, actions_of(store, readiness))


def actions_of(store: Store, readiness: Readiness) -> tuple[Action, ...]:
    """What is to be done for a trip, by day."""
    from kitlist.store import check_off
    from kitlist.trips.check_off import left
    from kitlist.trips.timeline import timeline

    checked = check_off.progress(store, readiness.trip.name)
    return timeline(readiness, checked_off=bool(checked) and not left(checked))
