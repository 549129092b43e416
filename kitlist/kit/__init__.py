"""The kit as a frozen snapshot: what is owned, measured and planned. No database behind it, no judgement in it.

Each class below is also the one description of its kind (see `kitlist.base.fields`): the command line, the import and
the store's tables follow it, and tests hold them to it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from functools import cached_property
from typing import Any

from kitlist.base.fields import plural
from kitlist.kit.checked import CheckedOff
from kitlist.kit.limits import Limits, Rulebook, standard
from kitlist.kit.owned import Bag, Ballast, Battery, Clamp, Gear, Item, Lead, Reading, Rod, Tool, Vehicle
from kitlist.kit.planned import Acceptance, Bead, Mend, Repair, Trip, Weld, next_trip
from kitlist.kit.printed import PrintedPaper

__all__ = [
    "KINDS",
    "PLURALS",
    "Acceptance",
    "Bag",
    "Ballast",
    "Battery",
    "Bead",
    "Clamp",
    "Gear",
    "Item",
    "Kit",
    "Lead",
    "Mend",
    "Reading",
    "Repair",
    "Rod",
    "Tool",
    "Trip",
    "Vehicle",
    "Weld",
    "next_trip",
    "plain",
]

KINDS: dict[str, type] = {
    "bag": Bag,
    "vehicle": Vehicle,
    "battery": Battery,
    "lead": Lead,
    "ballast": Ballast,
    "clamp": Clamp,
    "rod": Rod,
    "gear": Gear,
    "tool": Tool,
    "item": Item,
    "repair": Repair,
    "trip": Trip,
    "acceptance": Acceptance,
    "bead": Bead,
    "mend": Mend,
    "weld": Weld,
    "reading": Reading,
}
"""Every kind by the word that commands and files use, each after the kinds that it refers to."""

PLURALS = {kind: plural(kind) for kind in KINDS}


@dataclass(frozen=True, kw_only=True)
class Kit:
    """All that one owner or crew keeps. Readings run from the newest to the oldest; `welded` has each battery that was
    linked to weld, with the last day of it."""

    bags: tuple[Bag, ...] = ()
    vehicles: tuple[Vehicle, ...] = ()
    batteries: tuple[Battery, ...] = ()
    leads: tuple[Lead, ...] = ()
    ballasts: tuple[Ballast, ...] = ()
    clamps: tuple[Clamp, ...] = ()
    rods: tuple[Rod, ...] = ()
    gear: tuple[Gear, ...] = ()
    tools: tuple[Tool, ...] = ()
    items: tuple[Item, ...] = ()
    repairs: tuple[Repair, ...] = ()
    trips: tuple[Trip, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
    beads: tuple[Bead, ...] = ()
    mends: tuple[Mend, ...] = ()
    welds: tuple[Weld, ...] = ()
    readings: tuple[Reading, ...] = ()
    printed: tuple[PrintedPaper, ...] = ()
    checked: tuple[CheckedOff, ...] = ()
    welded: tuple[tuple[str, date], ...] = ()
    rulebook: Rulebook = field(default_factory=standard, repr=False)

    @property
    def limits(self) -> Limits:
        """Every threshold in force."""
        return self.rulebook.limits

    @cached_property
    def battery(self) -> dict[str, Battery]:
        """Batteries by name."""
        return {b.name: b for b in self.batteries}

    @cached_property
    def readings_of(self) -> dict[str, tuple[Reading, ...]]:
        """Readings by battery name, newest first."""
        found: dict[str, list[Reading]] = {b.name: [] for b in self.batteries}
        for reading in self.readings:
            found.setdefault(reading.battery, []).append(reading)
        return {name: tuple(readings) for name, readings in found.items()}

    def travelling(self, trip: Trip) -> tuple[Battery, ...]:
        """The batteries that go on the trip: those of its vehicles, and the loose ones."""
        going = set(trip.vehicles)
        return tuple(b for b in self.batteries if b.vehicle is None or b.vehicle in going)


def plain(value: Any) -> Any:
    """A kit value as JSON and TOML have it: enum members as text, tuples as lists."""
    if isinstance(value, StrEnum):
        return str(value)
    if isinstance(value, tuple):
        return [plain(v) for v in value]
    return value
