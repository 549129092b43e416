"""What is to be expected of a kit on a trip: of each battery, of the bank, of each packet of rods.

This is where the kit's facts meet physics and welding. It computes and does not judge: rules and prints read it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from kitlist.base.terms import Chemistry
from kitlist.kit import Kit, Trip
from kitlist.kit.slips import without_slips
from kitlist.outlook.bank import BankOutlook, bank_outlook, with_starters_kept
from kitlist.outlook.battery import BatteryOutlook, battery_outlook
from kitlist.outlook.hardware import HardwareOutlook, hardware_outlook, said_polarity
from kitlist.outlook.own_rods import rods_taught
from kitlist.outlook.rods import RodOutlook, rod_outlook
from kitlist.physics import figures

if TYPE_CHECKING:
    from kitlist.outlook.joining import Joining
    from kitlist.outlook.repairs import RepairOutlook

__all__ = ["BankOutlook", "BatteryOutlook", "HardwareOutlook", "Outlook", "RodOutlook", "hardware_outlook", "look_out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """Every travelling battery by name, the chosen bank, every packed packet of rods, the repairs, and the circuit.

    `joining` says which packed lead makes which connection of the bank; None where no bank is chosen.
    """

    batteries: dict[str, BatteryOutlook]
    bank: BankOutlook | None
    rods: tuple[RodOutlook, ...]
    repairs: tuple[RepairOutlook, ...] = ()
    joining: Joining | None = None
    hot_limit_ratio: float = figures.HOT_LIMIT.value

    @property
    def highest_a(self) -> float | None:
        """The highest current to be expected, the 90 % value, A, of any packed rod; None where it is not known.

        Where no packed rod gives one, that of the bank with any rod: eyes and leads are judged whatever is packed.
        """
        highs = [rod.highest_a for rod in self.rods if rod.highest_a is not None]
        any_rod = None if highs or self.bank is None else self.bank.band(None, taught=False)
        return max(highs) if highs else any_rod.high_a if any_rod else None

    @property
    def likely_a(self) -> float | None:
        """The likeliest current, the 50 % value, A, of any packed rod, else of the bank with any; None: not known."""
        middles = [rod.band.middle_a for rod in self.rods if rod.band is not None]
        any_rod = None if middles or self.bank is None else self.bank.band(None)
        return max(middles) if middles else any_rod.middle_a if any_rod else None

    @property
    def batteries_to_read(self) -> dict[str, BatteryOutlook]:
        """The travelling batteries whose charge counts: all but lithium, and those that are refused for the bank."""
        bank = self.bank.trip.bank if self.bank else ()
        return {
            name: battery
            for name, battery in self.batteries.items()
            if battery.battery.chemistry is not Chemistry.LITHIUM and not (battery.refusal and name in bank)
        }

    @property
    def bank_batteries(self) -> tuple[BatteryOutlook, ...]:
        """The batteries of the bank that travel, in linking order."""
        names = self.bank.trip.bank if self.bank else ()
        return tuple(self.batteries[name] for name in names if name in self.batteries)


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What is to be expected of one bank: its batteries as that bank leaves them, the bank, and every packed rod on it.

    Whatever a face shows of a bank comes from here, whether the bank is the trip's or one on offer.
    """

    batteries: dict[str, BatteryOutlook]
    bank: BankOutlook | None
    rods: tuple[RodOutlook, ...]


def expect(
    kit: Kit, trip: Trip, batteries: Mapping[str, BatteryOutlook], *, on: date, counted: bool = True
) -> Expected:
    """What is to be expected of the trip's bank; `batteries` as `batteries_out` has them, no bank counted yet.

    Not `counted`, how many rods it gives is left out.
    """
    kept = with_starters_kept(kit, trip, batteries)
    bank = bank_outlook(kit, trip, kept, on=on) if trip.bank else None
    hot = kit.limits.hot_limit_ratio
    taught = rods_taught(kit, on=on)
    rods = tuple(
        rod_outlook(rod, bank, trip, hot_limit_ratio=hot, taught=taught, counted=counted)
        for rod in kit.rods
        if rod.count > 0
    )
    return Expected(batteries=kept, bank=bank, rods=rods)


def batteries_out(kit: Kit, trip: Trip, *, on: date) -> dict[str, BatteryOutlook]:
    """Every battery that travels, as it stands on a day, whatever the bank."""
    vehicles = {vehicle.name: vehicle for vehicle in kit.vehicles}
    welded = dict(kit.welded)
    return {
        battery.name: battery_outlook(
            battery,
            kit.readings_of[battery.name],
            trip,
            vehicle=vehicles.get(battery.vehicle or ""),
            welded_on=welded.get(battery.name),
            on=on,
            limits=kit.limits,
        )
        for battery in kit.travelling(trip)
    }


def look_out(kit: Kit, trip: Trip, *, on: date) -> Outlook:
    """Compute the outlook of a kit for a trip, as it stands on a day."""
    from kitlist.outlook.joining import joining
    from kitlist.outlook.repairs import repair_outlooks

    kit = without_slips(kit, on=on)
    found = expect(kit, trip, batteries_out(kit, trip, on=on), on=on)
    outlook = Outlook(
        batteries=found.batteries,
        bank=found.bank,
        rods=found.rods,
        joining=joining(kit, trip, polarity=said_polarity(found.rods)),
        hot_limit_ratio=kit.limits.hot_limit_ratio,
    )
    return replace(outlook, repairs=repair_outlooks(kit, trip, outlook))
