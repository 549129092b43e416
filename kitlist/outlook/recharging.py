"""Rods beyond what one charge burns: how often the bank is charged on the trip so that they burn, and how long."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from kitlist.base.measures import counted
from kitlist.base.sources import PRACTICE, Figure
from kitlist.base.span import Span
from kitlist.kit import Kit, Trip
from kitlist.outlook import Outlook
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.charge_words import time_words
from kitlist.outlook.field_charge import USUAL_COLD_C, kept_ratio, times_of, ways_to_charge
from kitlist.physics.bank.book import charges_in
from kitlist.physics.battery.charge import Charge
from kitlist.physics.battery.charge_time import ChargeTime
from kitlist.physics.battery.recharge import FULL_LEAVES, RestAfterCharge

CHARGING_H_A_DAY = Figure("hours of a day on a trip that charging and its rest may take", 6.0, "h", PRACTICE)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargesNeeded:
    """Rods beyond what one charge burns: how many charges on the trip, and how long each takes the slowest battery.

    `fits` says whether the days of the trip have the hours for them, each with its rest.
    """

    charges: int
    takes_each: ChargeTime
    ways: tuple[str, ...]
    fits: bool = True

    @property
    def words(self) -> str:
        """As a rule says it: so many charges on the trip, of so many minutes each, by what."""
        charges, ways = counted(self.charges, "charge"), "; ".join(self.ways)
        return f"{charges} on the trip, each {time_words(self.takes_each)}, by {ways}"


def charges_needed(
    kit: Kit, trip: Trip, outlook: Outlook, *, total_ah: float, one_charge_ah: float
) -> ChargesNeeded | None:
    """How often the bank is charged on the trip so that rods of `total_ah` burn, and how long each charge takes.

    `one_charge_ah` is what the bank gives down to its reserve as it is. Each battery goes by the quickest way it has,
    from what it keeps back up by that; the slowest governs. None where a battery of the bank has no way, or a time
    cannot be told.
    """
    if one_charge_ah <= 0.0 or total_ah <= one_charge_ah or not trip.bank:
        return None
    ways, used, slowest = ways_to_charge(kit, trip), [], ChargeTime.none()
    temp_c = USUAL_COLD_C if trip.coldest_c is None else trip.coldest_c
    back_ah = min(one_charge_ah, total_ah - one_charge_ah) / trip.bank_strings
    for name in trip.bank:
        battery = outlook.batteries.get(name)
        if battery is None or battery.battery.c20_ah is None or battery.refusal:
            return None
        low = kept_ratio(battery, (rod for rod in outlook.rods if rod.welds))
        to_ratio = min(1.0 - FULL_LEAVES.value, low + back_ah / battery.battery.c20_ah)
        times = times_of(kit, trip, outlook, _with_charge(battery, low), to_ratio=to_ratio, ways=ways, temp_c=temp_c)
        ending = [time for time in times if time.takes.likely_h < inf]
        # to the minute: of two that are as quick the first, so that no engine is held at fast idle for nothing
        best = min(ending, key=lambda time: round(60 * time.takes.likely_h), default=None)
        if best is None:
            return None
        used.append(best.way.words)
        if best.takes.likely_h >= slowest.likely_h:
            slowest = best.takes
    charges = charges_in(total_ah=total_ah, spare_ah=one_charge_ah, one_charge_ah=one_charge_ah)
    days = (trip.ends_on - trip.starts_on).days + 1
    fits = charges * (slowest.likely_h + RestAfterCharge().link_h) <= CHARGING_H_A_DAY.value * days
    return ChargesNeeded(charges=charges, takes_each=slowest, ways=tuple(dict.fromkeys(used)), fits=fits)


def _with_charge(battery: BatteryOutlook, ratio: float) -> BatteryOutlook:
    return replace(battery, charge=Charge(Span.exactly(min(1.0, ratio))))
