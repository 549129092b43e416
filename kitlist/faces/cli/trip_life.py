"""next, used and restock: where a trip stands, from weeks before it to the day after."""

from __future__ import annotations

import textwrap
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.base.measures import counted
from kitlist.faces.cli.asking import at_terminal
from kitlist.faces.cli.judgement import Json, On, ReplacePaper, TripName
from kitlist.faces.cli.talk import day, not_one, now, open_store, say, show, show_json, store_path, who, width
from kitlist.faces.judging import judged

if TYPE_CHECKING:
    from kitlist.kit import Trip
    from kitlist.outlook.history import BatteryHistory
    from kitlist.readiness import Readiness
    from kitlist.store import Store
    from kitlist.trips.next_step import NextStep
    from kitlist.trips.timeline import Action

READINGS_OF_HISTORY = 200


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
    from kitlist.faces.words import trip_text

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
    from kitlist.store import trip_use
    from kitlist.store.snapshot import snapshot, trips
    from kitlist.trips import next_step

    if not store_path(context).exists():
        return next_step.no_store(somebody_to_ask=at_terminal())
    store = open_store(context)
    known = trips(store)
    if trip is None and all(t.ends_on < on for t in known):
        last = max(known, key=lambda t: t.ends_on, default=None)
        used = last is not None and trip_use.of_trip(store, last.name).any
        return next_step.no_trip(snapshot(store), last, on=on, used=used)
    readiness = judged(store, trip, on=on)
    return next_step.of_trip(readiness, actions_of(store, readiness))


def actions_of(store: Store, readiness: Readiness) -> tuple[Action, ...]:
    """What is to be done for a trip, by day."""
    from kitlist.store import checked_off, trip_use
    from kitlist.trips.check_off import left
    from kitlist.trips.timeline import timeline

    name = readiness.trip.name
    checked = checked_off.progress(store, name)
    return timeline(readiness, checked_off=bool(checked) and not left(checked), used=trip_use.of_trip(store, name).any)


def used(
    context: typer.Context,
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[TRIP] [NAME=AMOUNT...]", help="The trip, else the last; what it took."),
    ] = None,
    linked: Annotated[str | None, typer.Option(help="Batteries that were linked: A,B,C, or bank.")] = None,
    strings: Annotated[int, typer.Option(min=1, max=4, help="Parallel strings they made.")] = 1,
    by: Annotated[str | None, typer.Option(help="Who noted damage.", show_default=False)] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Record what a trip took, set against what was predicted.

    Amounts: "general rods=5", "fire water=8L", "helmet=damaged", "clamps=missing". Counts go down at once. Without
    amounts it shows what was recorded.

    Example: kitlist used
    """
    from kitlist.base.names import quoted
    from kitlist.faces.words import trip_text
    from kitlist.store import checked_off, trip_use
    from kitlist.trips.used import battery_uses, doubts

    store = open_store(context)
    amounts = [word for word in words or () if "=" in word]
    trip = _last_trip(store, [word for word in words or () if "=" not in word], on=day(on))
    names = list(trip.bank) if linked == "bank" else [n.strip() for n in (linked or "").split(",") if n.strip()]
    if amounts or names:
        strings = trip.bank_strings if linked == "bank" else strings
        noted_by = by or who(context, store) or checked_off.last_by(store, trip.name)
        trip_use.record(store, trip.name, amounts, linked=names, strings=strings, on=day(on), by=noted_by, at=now())
        say(f"Recorded {len(amounts)} of {trip.name}, {counted(len(names), 'battery', 'batteries')} linked.")
        for doubt in doubts(trip, on=day(on)):
            say(f"{doubt} Else: kitlist restock {quoted(trip.name)} --done")
    kept = trip_use.of_trip(store, trip.name)
    readiness = judged(store, trip.name, on=day(on))
    compared = battery_uses(readiness.kit, readiness.trip, readiness.outlook, uses=kept.uses, linked=kept.linked)
    if as_json:
        show_json(trip_text.plain_used(trip.name, kept.uses, compared))
    else:
        show("\n".join(trip_text.used_lines(trip.name, kept.uses, compared, columns=min(width(), 100))))


def restock(
    context: typer.Context,
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[TRIP] [NAME...]", help="The trip, else the last; with --done, what was put back."),
    ] = None,
    done: Annotated[bool, typer.Option("--done", help="It was put back: all, or the named things.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """List what to put back, from where, and what to recharge.

    Example: kitlist restock
    """
    from kitlist.faces.words import trip_text
    from kitlist.store import trip_use
    from kitlist.store.snapshot import snapshot
    from kitlist.trips import restock as back

    store = open_store(context)
    named = list(words or ())
    trip = _last_trip(store, named[:1], on=day(on))
    if done:
        put = trip_use.put_back(store, trip.name, named[1:], on=day(on))
        say(f"Put back: {', '.join(use.name for use in put) or 'nothing was waiting'}.")
    kept = trip_use.of_trip(store, trip.name)
    kit = snapshot(store, trip=trip.name)
    lines, charge = back.restock(kit, kept.uses), back.recharge(kit, kept.linked, on=day(on))
    if as_json:
        show_json(trip_text.plain_restock(trip.name, lines, charge))
    else:
        show("\n".join(trip_text.restock_lines(trip.name, lines, charge, columns=min(width(), 100))))


def _last_trip(store: Store, named: list[str], *, on: date) -> Trip:
    """The trip that is named, else the one under way, else the last one that is past. Raises NotFound."""
    from kitlist.base import names
    from kitlist.kit import next_trip
    from kitlist.store.snapshot import trips

    known = trips(store)
    if len(named) > 1:
        raise not_one(named, "trip", [t.name for t in known])
    by_name: dict[str, Trip] = {t.name: t for t in known}
    if named:
        return by_name[names.resolve(named[0], by_name, what="trip")]
    begun = [t for t in known if t.starts_on <= on]
    return max(begun, key=lambda t: t.starts_on) if begun else next_trip(known, on=on)


def history_of_battery(store: Store, name: str) -> tuple[str, ...]:
    """What the readings of a battery say over time."""
    return _history(store, name).words


def _history(store: Store, name: str) -> BatteryHistory:
    from kitlist.outlook.history import battery_history
    from kitlist.store import changes, snapshot, welded

    battery = changes.one(store, "battery", name)
    with store.viewing() as connection:
        readings = snapshot.newest(connection, name, READINGS_OF_HISTORY)
    elsewhere = (battery.welded_on,) if battery.welded_on else ()
    return battery_history(battery, readings, welded_on=(*welded.welded_on(store, name), *elsewhere))


def history(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="The battery, by any start of its name.", show_default=False)],
    chart: Annotated[Path | None, typer.Option(help="Write the drawing to this .svg file too.")] = None,
    replace: ReplacePaper = False,
    as_json: Json = False,
) -> None:
    """Say how a battery holds its charge, and draw it.

    Example: kitlist battery history heron-main --chart heron.svg
    """
    from kitlist.base import names
    from kitlist.store import changes

    store = open_store(context)
    full = names.resolve(name, [battery.name for battery in changes.listed(store, "battery")], what="battery")
    found = _history(store, full)
    if chart is not None:
        from kitlist.faces.paper.build_trend import levels_of, trend_svg
        from kitlist.faces.paper.figure import write_svg
        from kitlist.store.snapshot import snapshot

        levels = levels_of(changes.one(store, "battery", full), snapshot(store).limits)
        write_svg(chart, lambda: trend_svg(full, found, levels=levels), store=store.path, replace=replace)
        say(f"Wrote {chart}.")
    if as_json:
        show_json({"battery": full, "volts_v": found.volts, "resistance_mohm": found.resistance_mohm,
                   "history": found.words})  # fmt: skip
    else:
        words = found.words or ("Too few rested readings to say anything yet.",)
        show("\n".join(textwrap.fill(line, min(width(), 100), subsequent_indent="  ") for line in words))
