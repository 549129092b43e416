"""volts: record readings, one by one or walking round all batteries."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.base.errors import UsageError
from kitlist.base.names import quoted
from kitlist.faces.cli.asking import at_terminal, say_wrapped
from kitlist.faces.cli.talk import moment, now, open_store, say

if TYPE_CHECKING:
    from kitlist.kit import Reading
    from kitlist.outlook.misread import Misreading
    from kitlist.store import Store


def volts(
    context: typer.Context,
    battery: Annotated[str | None, typer.Argument(help="A battery; none walks round all.", show_default=False)] = None,
    reading: Annotated[
        str | None, typer.Argument(metavar="VOLTS", help="Volts at the posts.", show_default=False)
    ] = None,
    rested: Annotated[
        str | None, typer.Option(help="Time since charge, drive or load: 12h, 45min, 2d, overnight.")
    ] = None,
    temp: Annotated[str | None, typer.Option(help="Battery temperature: 4, 4C or 40F.")] = None,
    load: Annotated[str | None, typer.Option(help="Amps drawn while measuring.")] = None,
    at: Annotated[str | None, typer.Option(help="When: 7:30, yesterday 18:00, 2026-11-25T07:30; else now.")] = None,
    accuracy: Annotated[str | None, typer.Option(help="The meter's accuracy: 0.5%.")] = None,
    charging: Annotated[bool, typer.Option("--charging", help="It was on charge.")] = False,
    quick_load: Annotated[
        bool, typer.Option("--quick-load", help="20 A or more for 3 min first, then 5 min off.")
    ] = False,
) -> None:
    """Record the volts of a battery, or walk round them all.

    Example: kitlist volts heron-main 12.71 --rested 12h --temp 4
    """
    shared = {
        "rested": rested, "battery_temp": temp, "load": load, "taken_at": moment(at),
        "meter_accuracy": accuracy, "charging": charging, "quick_load": quick_load,
    }  # fmt: skip
    store = open_store(context)
    if battery is None:
        if not at_terminal():
            hint = "kitlist volts BATTERY VOLTS --rested HOURS --temp DEGREES"
            raise UsageError("no terminal to walk round at", hint=hint)
        from kitlist.faces.cli.walk_round import walk_round

        walk_round(store, shared)
    elif reading is None:
        hint = f"kitlist volts {quoted(battery)} VOLTS --rested HOURS --temp DEGREES"
        raise UsageError(f"no volts given for {battery}", hint=hint)
    else:
        given = {"battery": battery, "volts": reading} | {k: v for k, v in shared.items() if v is not None}
        kept = record(store, given)
        for slip in doubts(store, kept):
            say_wrapped(f"{slip.question} Else: kitlist reading edit {quoted(kept.battery)} last FIELD=VALUE")


def record(store: Store, given: dict[str, Any]) -> Reading:
    """Keep a reading, and say what it says of the charge."""
    from kitlist.faces.words import reading_text
    from kitlist.store import changes

    kept: Reading = changes.add(store, "reading", given, by_clock=now())
    say(reading_text.recorded(kept))
    battery = changes.one(store, "battery", kept.battery)
    vehicle = changes.one(store, "vehicle", battery.vehicle) if battery.vehicle else None
    if told := reading_text.says(battery, kept, vehicle):
        say(told)
    return kept


def doubts(store: Store, reading: Reading) -> tuple[Misreading, ...]:
    """What of a reading is more likely a slip than true, by its own volts and by what the batteries read before."""
    from kitlist.outlook.misread import misread
    from kitlist.store import readings

    before = [r for r in readings.listed(store, None, count=200) if r.taken_at < reading.taken_at]
    own = [r for r in before if r.battery == reading.battery]
    newest: dict[str, Reading] = {}
    for r in before:
        newest.setdefault(r.battery, r)
    return misread(reading, own=own, others=[r for name, r in newest.items() if name != reading.battery])
