"""weld add: one repair welded on the way. It keeps the weld, leaves its field repair, takes its rods off the packet."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import typer

from kitlist.base.measures import counted
from kitlist.faces.cli.talk import open_store, say, today
from kitlist.faces.cli.things import Name, Values
from kitlist.faces.cli.typed import by_the_clock, pairs

if TYPE_CHECKING:
    from kitlist.kit import Kit, Trip
    from kitlist.store.welds import Welded


def add(context: typer.Context, name: Name, values: Values = None) -> None:
    """Keep a weld made on the way, and the mend it leaves.

    NAME is the planned repair's, or any other. What is not said: the day is today; trip, bank and ballast are those of
    the trip under way; the packet is the only one that has rods. before= and after= are volts across the whole bank at
    rest; 12.64+12.60+12.66 adds up.

    Example: kitlist weld add "left hanger" rods=5 before=37.9V after=37.3V after-rested=2h
    """
    from kitlist.kit import Weld
    from kitlist.store.snapshot import snapshot
    from kitlist.store.welds import add_weld, added_up

    store = open_store(context)
    typed = by_the_clock(Weld, pairs(values))
    given = {word.replace("-", "_"): added_up(value) for word, value in typed.items()}
    kit = snapshot(store)
    filled = _from_trip(kit, given, name, on=today())
    _report(add_weld(store, {"name": name} | filled | given))


def _from_trip(kit: Kit, given: dict[str, str], name: str, *, on: date) -> dict[str, Any]:
    """What the kit itself says of a weld, where nobody said otherwise."""
    from kitlist.store.welds import repair_named

    filled: dict[str, Any] = {"welded_on": on.isoformat(), "rods": 0}
    trip = _under_way(kit, given.get("trip"), on)
    if trip is not None:
        filled["trip"] = trip.name
        if "bank" not in given and trip.bank:
            filled |= {"bank": list(trip.bank), "bank_strings": trip.bank_strings}
        if trip.ballast and "bank" not in given:
            filled["ballast"] = trip.ballast
    if (named := repair_named(kit, name)) is not None:
        filled["repair"] = named
    packets = [rod.name for rod in kit.rods if rod.count > 0]
    if len(packets) == 1:
        filled["rod"] = packets[0]
    return {field: value for field, value in filled.items() if field not in given}


def _under_way(kit: Kit, named: str | None, on: date) -> Trip | None:
    if named is not None:
        return None  # said: it is looked up with the rest
    return next((trip for trip in kit.trips if trip.starts_on <= on <= trip.ends_on), None)


def _report(done: Welded) -> None:
    weld, mend = done.weld, done.mend
    say(f"Kept weld {weld.name}, and field repair {mend.name} ({mend.part}) to look at after 5 km, 50 km and a day.")
    if weld.rods and weld.rod is None:
        which = f"Which packet the {counted(weld.rods, 'rod')} came from is not said"
        say(f"{which}: kitlist undo, then again with rod=NAME.")  # a removed weld keeps its name and leaves its mend
    elif weld.rods:
        again = "" if done.rods_off == weld.rods else f"; the other {weld.rods - done.rods_off} were said before"
        say(f"{done.rods_off} taken off {weld.rod}{again}.")
    if weld.trip is None:
        say("It belongs to no trip: none is under way. trip=NAME says which.")
    if weld.after_v is not None and weld.after_rested_h is None:
        say("How long the bank had rested before the volts after is not said: they teach nothing. after-rested=2h")
