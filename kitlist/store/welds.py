"""A weld on a trip: its record, the field repair it leaves, its rods off the packet, its batteries linked, at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kitlist.base.errors import BadData
from kitlist.kit import Kit, Mend, Repair, Weld, entry, plain
from kitlist.store import changes, rows, trip_use
from kitlist.store.opening import Store

if TYPE_CHECKING:
    from kitlist.store.writer import Writer


@dataclass(frozen=True, slots=True)
class Welded:
    """What was kept of a weld: the weld, its field repair, and how many rods that took off the packet."""

    weld: Weld
    mend: Mend
    rods_off: int


def add_weld(store: Store, values: Mapping[str, Any]) -> Welded:
    """Keep a weld from raw values, and all that follows from it; all of it or nothing. Raises BadData, NotFound.

    A name that is taken gets a number. The field repair has the part and vehicle of the planned repair, else the
    weld's own name. Rods that `used` has taken off this trip already are not taken off again.
    """
    with store.writing() as change:
        return add_weld_within(change, values)


def added_up(value: str) -> str:
    """The sum of volts read battery by battery; anything else as it is.

    >>> added_up("12.64+12.60+12.66 V"), added_up("37.9V")
    ('37.900', '37.9V')
    """
    parts = value.replace("V", "").replace("v", "").split("+")
    try:
        return f"{sum(float(part) for part in parts):.3f}" if len(parts) > 1 else value
    except ValueError:
        return value


def repair_named(kit: Kit, name: str) -> str | None:
    """The planned repair that a weld's name means; None where it is none of them."""
    return next((x.name for x in kit.repairs if x.name.casefold() == name.strip().casefold()), None)


def what_follows(done: Welded) -> tuple[str, ...]:
    """What a weld that was kept leaves to do, and what it lacks to teach anything, as sentences."""
    weld = done.weld
    said = [f"Look at field repair {done.mend.name} ({done.mend.part}) after 5 km, 50 km and a day"]
    if weld.after_v is not None and weld.after_rested_h is None:
        said.append("How long the bank had rested before the volts after is not said: they teach nothing")
    return tuple(said)


def add_weld_within(change: Writer, values: Mapping[str, Any]) -> Welded:
    """`add_weld` inside an open change."""
    from kitlist.store.tables import LinkedBatteryRow

    connection = change.connection
    taken = {name.casefold() for kind in ("weld", "mend") for name in rows.names_of(connection, kind, where="1")}
    spelled = changes.full_names(connection, "weld", values)
    weld: Weld = entry.build("weld", spelled | {"name": _free(str(values.get("name", "")), taken)})
    _refuse_doubtful(weld)
    repair = None if weld.repair is None else changes.find(connection, "repair", weld.repair)
    changes.insert(change, "weld", weld)
    mend = _mend(weld, repair)
    changes.insert(change, "mend", mend)
    off = 0
    if weld.rod is not None and weld.rods:
        rod = changes.find(connection, "rod", weld.rod)
        off = trip_use.take_rods(change, weld.trip, rod, weld.rods, weld.welded_on, said_by="weld")
    if weld.trip is not None:
        for name in weld.bank:
            row = LinkedBatteryRow(trip=weld.trip, battery=name, linked_on=weld.welded_on, strings=weld.bank_strings)
            change.insert_if_new(row)
    return Welded(weld, mend, off)


def _refuse_doubtful(weld: Weld) -> None:
    if weld.rods and not weld.bank:
        raise BadData("which batteries it was welded from is not said", hint="bank=FIRST,SECOND,THIRD")


def _free(name: str, taken: set[str]) -> str:
    """The name, or with the first number from 2 that makes it new."""
    if name.strip().casefold() not in taken:
        return name
    return next(new for n in range(2, 1000) if (new := f"{name.strip()} {n}").casefold() not in taken)


def _mend(weld: Weld, repair: Repair | None) -> Mend:
    values = {
        "name": weld.name,
        "part": repair.part if repair is not None else weld.name,
        "vehicle": repair.vehicle if repair is not None else None,
        "welded_on": weld.welded_on,
        "trip": weld.trip,
        "rod": weld.rod,
        "bank": list(weld.bank),
        "current_a": weld.current_a,
    }
    mend: Mend = entry.build("mend", {key: plain(value) for key, value in values.items()})
    return mend
