"""reading: which readings there are, and taking out one that was mistyped."""

from __future__ import annotations

from typing import Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.base.measures import with_unit
from kitlist.base.names import quoted
from kitlist.faces.cli.talk import columns, now, open_store, say, show, show_json
from kitlist.faces.cli.typed import by_the_clock, pairs

Battery = Annotated[str, typer.Argument(help="The battery, by any start of its name.", show_default=False)]
At = Annotated[
    str, typer.Argument(help="`last`, or when it was taken by any start: 2026-11-25T07:30.", show_default=False)
]
readings = typer.Typer(
    help="Readings of the batteries: list, edit, remove, restore.", no_args_is_help=True, rich_markup_mode=None
)


@readings.command("list")
def list_(
    context: typer.Context,
    battery: Annotated[str | None, typer.Argument(help="One battery; else all.", show_default=False)] = None,
    count: Annotated[int, typer.Option(min=1, help="How many, the newest first.")] = 20,
    as_json: Annotated[bool, typer.Option("--json", help="For a script.")] = False,
) -> None:
    """List the newest readings.

    Example: kitlist reading list
    """
    from kitlist.base.fields import fields_of
    from kitlist.kit import Reading
    from kitlist.store import readings as kept

    found = kept.listed(open_store(context), battery, count=count)
    if as_json:
        show_json([{f.name: getattr(r, f.name) for f in fields_of(Reading)} for r in found])
    elif not found:
        say("No readings yet.\nkitlist volts NAME VOLTS --rested HOURS --temp DEGREES")
    else:
        cells = [
            (r.battery, f"{r.taken_at:%Y-%m-%d %H:%M}", f"{r.volts_v:.2f} V", _number(r.rested_h, "h"),
             _number(r.battery_temp_c, "°C"), _number(r.load_a, "A"), "yes" if r.charging else "")
            for r in found
        ]  # fmt: skip
        show(columns(cells, ("battery", "taken at", "volts", "rested", "temperature", "load", "charging")))


def _number(value: float | None, unit: str) -> str:
    return "" if value is None else with_unit(value, unit)


@readings.command("edit")
def edit(
    context: typer.Context,
    battery: Battery,
    at: At,
    values: Annotated[list[str] | None, typer.Argument(metavar="FIELD=VALUE...", show_default=False)] = None,
) -> None:
    """Correct a mistyped reading; the journal keeps what it was.

    Fields: volts, rested, battery-temp, load, charging, quick-load, taken-at, battery.

    Example: kitlist reading edit heron-main last volts=12.74
    """
    from kitlist.faces.words import reading_text
    from kitlist.kit import Reading
    from kitlist.store import readings as kept

    given = pairs(values)
    if not given:
        raise UsageError("nothing to change", hint=f"kitlist reading edit {quoted(battery)} last volts=VOLTS")
    reading = kept.correct(open_store(context), battery, at, by_the_clock(Reading, given), by_clock=now())
    say(reading_text.recorded(reading))


@readings.command("remove")
def remove(context: typer.Context, battery: Battery, at: At) -> None:
    """Take out a mistyped reading; it stays in the history.

    Example: kitlist reading remove heron-main last
    """
    from kitlist.store import readings as kept

    store = open_store(context)
    gone = kept.remove(store, battery, at)
    say(f"Removed {gone.volts_v:g} V of {gone.battery}, {gone.taken_at:%Y-%m-%d %H:%M}.")
    say(f"kitlist reading restore {quoted(gone.battery)} {kept.shortest(store, gone)} brings it back.")


@readings.command("restore")
def restore(context: typer.Context, battery: Battery, at: At) -> None:
    """Bring back a reading that was removed.

    Example: kitlist reading restore heron-main 2026-11-25T07:30
    """
    from kitlist.store import readings as kept

    back = kept.restore(open_store(context), battery, at)
    say(f"Brought back {back.volts_v:g} V of {back.battery}, {back.taken_at:%Y-%m-%d %H:%M}.")
