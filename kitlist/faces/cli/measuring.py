"""volts: record readings, one by one or walking round all batteries."""

from __future__ import annotations

import sys
from typing import Annotated, Any

import typer

from kitlist.base.errors import KitlistError, UsageError
from kitlist.base.measures import counted
from kitlist.base.names import quoted
from kitlist.faces.cli.talk import now, open_store, say, show


def volts(
    context: typer.Context,
    battery: Annotated[str | None, typer.Argument(help="A battery; none walks round all.", show_default=False)] = None,
    reading: Annotated[
        str | None, typer.Argument(metavar="VOLTS", help="Volts at the posts.", show_default=False)
    ] = None,
    rested: Annotated[str | None, typer.Option(help="Time since charge, drive or load: 12h, 45min, 2d.")] = None,
    temp: Annotated[str | None, typer.Option(help="Battery temperature: 4, 4C or 40F.")] = None,
    load: Annotated[str | None, typer.Option(help="Amps drawn while measuring.")] = None,
    at: Annotated[str | None, typer.Option(help="When: 2026-11-25T07:30; else now.")] = None,
    accuracy: Annotated[str | None, typer.Option(help="The meter's accuracy: 0.5%.")] = None,
    charging: Annotated[bool, typer.Option("--charging", help="It was on charge.")] = False,
    quick_load: Annotated[
        bool, typer.Option("--quick-load", help="10 A or more for 15 s first, then 3 min off.")
    ] = False,
) -> None:
    """Record the volts of a battery, or walk round them all.

    Example: kitlist volts heron-main 12.71 --rested 12h --temp 4
    """
    shared = {
        "rested": rested, "battery_temp": temp, "load": load, "taken_at": at,
        "meter_accuracy": accuracy, "charging": charging, "quick_load": quick_load,
    }  # fmt: skip
    store = open_store(context)
    if battery is None:
        _walk(store, shared)
    elif reading is None:
        raise UsageError(
            f"no volts given for {battery}", hint=f"kitlist volts {quoted(battery)} VOLTS --rested HOURS --temp DEGREES"
        )
    else:
        _record(store, battery, reading, shared)


def _record(store: Any, name: str, reading: str, shared: dict[str, Any]) -> None:
    from kitlist.faces.words import reading_text
    from kitlist.store import changes

    given = {"battery": name, "volts": reading} | {k: v for k, v in shared.items() if v is not None}
    kept = changes.add(store, "reading", given, by_clock=now())
    say(reading_text.recorded(kept))
    battery = changes.one(store, "battery", kept.battery)
    vehicle = changes.one(store, "vehicle", battery.vehicle) if battery.vehicle else None
    if told := reading_text.says(battery, kept, vehicle):
        say(told)


def _walk(store: Any, shared: dict[str, Any]) -> None:
    """Ask for every battery in turn; each answer is kept before the next is asked."""
    from kitlist.store import changes

    batteries = changes.listed(store, "battery")
    if not batteries:
        say("No batteries yet. kitlist battery add heron-main vehicle=Heron chemistry=calcium c20=70Ah")
        return
    if not sys.stdin.isatty():
        raise UsageError("no terminal to walk round at", hint="kitlist volts BATTERY VOLTS --rested 12h --temp 4")
    say("Volts at the posts, all loads off. Enter alone passes a battery over; Ctrl-C ends, what was kept stays.")
    if shared["rested"] is None:
        shared["rested"] = typer.prompt("Rested how long (12h)", default="", show_default=False) or None
    if shared["battery_temp"] is None:
        shared["battery_temp"] = typer.prompt("Battery temperature, °C", default="", show_default=False) or None
    kept = 0
    try:
        for battery in batteries:
            kept += _ask(store, battery, shared)
    except typer.Abort:
        say("")
    show(f"{kept} of {counted(len(batteries), 'battery', 'batteries')} recorded.")


def _ask(store: Any, battery: Any, shared: dict[str, Any]) -> int:
    """Ask for the volts of one battery until they can be taken; 0 where it is passed over."""
    place = battery.vehicle or battery.bag or "loose"
    while answer := typer.prompt(f"{battery.name} ({place}), volts", default="", show_default=False):
        try:
            _record(store, battery.name, answer, shared)
        except KitlistError as error:
            say(error.message)
            continue
        return 1
    return 0
