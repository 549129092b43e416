"""What is to be expected of a kit on a trip: of each battery, of the bank, of each packet of rods.

This is where the kit's facts meet physics and welding. It computes and does not judge: rules and prints read it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from kitlist.kit import Kit, Trip
from kitlist.outlook.bank import BankOutlook, bank_outlook
from kitlist.outlook.battery import BatteryOutlook, battery_outlook
from kitlist.outlook.hardware import HardwareOutlook, hardware_outlook
from kitlist.outlook.rods import RodOutlook, rod_outlook
from kitlist.terms import Chemistry

__all__ = ["BankOutlook", "BatteryOutlook", "HardwareOutlook", "Outlook", "RodOutlook", "hardware_outlook", "look_out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """Every travelling battery by name, the chosen bank if there is one, and every packet of rods that is packed."""

    batteries: dict[str, BatteryOutlook]
    bank: BankOutlook | None
    rods: tuple[RodOutlook, ...]

    @property
    def highest_a(self) -> float | None:
        """The highest current to be expected with any packed rod, the 90 % value, A; None where it is not known."""
        highs = [rod.band.high_a for rod in self.rods if rod.band is not None]
        return max(highs) if highs else None

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


def look_out(kit: Kit, trip: Trip, *, on: date) -> Outlook:
    """Compute the outlook of a kit for a trip, as it stands on a day."""
    vehicles = {vehicle.name: vehicle for vehicle in kit.vehicles}
    batteries = {
        battery.name: battery_outlook(
            battery, kit.readings_of[battery.name], trip, vehicle=vehicles.get(battery.vehicle or ""), on=on
        )
        for battery in kit.travelling(trip)
    }
    bank = bank_outlook(kit, trip, batteries, on=on) if trip.bank else None
    rods = tuple(rod_outlook(rod, bank, trip) for rod in kit.rods if rod.count > 0)
    return Outlook(batteries=batteries, bank=bank, rods=rods)
