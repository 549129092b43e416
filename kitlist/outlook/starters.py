"""A vehicle's starting batteries: how many there are, what a bank takes of them, and whether the vehicle still starts.

Starting needs all of them: the two halves of 24 V under a bridge, or twins side by side. One of twins may do alone,
but only where that has been seen, and not in frost.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from kitlist.base.terms import DAMAGED, BatteryPlace, StartBatteries
from kitlist.kit import Battery, Kit, Reading, Trip, Vehicle
from kitlist.physics.bank.pairs import Rejoin, rejoin_halves, rejoin_twins, twin_may_go

_LEAST_REST_H = 2.0  # volts of two halves are set side by side only after this; common practice


def vehicles_of(kit: Kit, trip: Trip) -> tuple[Vehicle, ...]:
    """The vehicles that go on the trip, guests too."""
    return tuple(vehicle for vehicle in kit.vehicles if vehicle.name in trip.vehicles)


def starters_of(kit: Kit, vehicle: Vehicle) -> tuple[Battery, ...]:
    """The starting batteries that are recorded of a vehicle."""
    return tuple(b for b in kit.batteries if b.vehicle == vehicle.name and b.place is BatteryPlace.START)


class Parted(StrEnum):
    """What it means that a bank takes only some of a vehicle's starting batteries."""

    HALF_OF_24_V = "one half of 24 V alone"
    TWIN_SEEN = "one of twins; the other has been seen to start the engine"
    TWIN_NOT_SEEN = "one of twins; that the other starts the engine alone has not been seen"
    TWIN_IN_FROST = "one of twins, in frost"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lent:
    """What a bank takes of one vehicle's starting batteries, and what stays. `parted` is None where it takes all."""

    vehicle: Vehicle
    taken: tuple[str, ...]
    stays: tuple[str, ...]
    parted: Parted | None

    def __str__(self) -> str:
        return f"{', '.join(self.taken)} of {self.vehicle.name}: {self.parted or 'all that it starts on'}"

    @property
    def starts(self) -> bool:
        """Whether the vehicle starts while those are in the bank."""
        return self.parted is Parted.TWIN_SEEN


def lent(kit: Kit, trip: Trip) -> Iterator[Lent]:
    """Every vehicle of the trip with starting batteries in its bank."""
    for vehicle in vehicles_of(kit, trip):
        names = [battery.name for battery in starters_of(kit, vehicle)]
        taken = tuple(name for name in names if name in trip.bank)
        if taken:
            stays = tuple(name for name in names if name not in taken)
            yield Lent(vehicle=vehicle, taken=taken, stays=stays, parted=_parted(vehicle, taken, trip))


def _parted(vehicle: Vehicle, taken: tuple[str, ...], trip: Trip) -> Parted | None:
    if len(taken) >= vehicle.start_batteries.how_many:
        return None
    if vehicle.start_batteries is StartBatteries.PAIR:
        return Parted.HALF_OF_24_V
    if twin_may_go(starts_alone=vehicle.starts_on_one, coldest_c=trip.coldest_c):
        return Parted.TWIN_SEEN
    return Parted.TWIN_NOT_SEEN if vehicle.starts_on_one is not True else Parted.TWIN_IN_FROST


def still_start(kit: Kit, trip: Trip) -> tuple[str, ...]:
    """The vehicles that start while the bank is linked: none of their sound starting batteries is in it, or a twin is
    and the other one does alone. A vehicle none of whose batteries is recorded is not known, and not counted."""
    away = {one.vehicle.name: one.starts for one in lent(kit, trip)}
    return tuple(
        vehicle.name
        for vehicle in vehicles_of(kit, trip)
        if (own := starters_of(kit, vehicle))
        and all(battery.condition not in DAMAGED for battery in own)
        and away.get(vehicle.name, True)
    )


def takes_every_start(kit: Kit, trip: Trip) -> bool:
    """Whether the bank leaves no vehicle that starts, of those that started before it was taken."""
    before = still_start(kit, replace(trip, bank=(), bank_strings=1))
    return bool(before) and not still_start(kit, trip)


def parted_badly(kit: Kit, trip: Trip) -> tuple[Lent, ...]:
    """The vehicles of which the bank takes one of two starting batteries, where that one alone is not to be taken."""
    return tuple(one for one in lent(kit, trip) if one.parted not in (None, Parted.TWIN_SEEN))


@dataclass(frozen=True, slots=True)
class Halves:
    """A vehicle's two starting batteries by their newest rested readings, V apart, and what may be done with them."""

    vehicle: Vehicle
    higher: Reading
    lower: Reading

    @property
    def apart_v(self) -> float:
        """Volts between them."""
        return round(self.higher.volts_v - self.lower.volts_v, 3)

    @property
    def may(self) -> Rejoin:
        """What that allows: halves of 24 V by the bridge's limits, twins by theirs."""
        if self.vehicle.start_batteries is StartBatteries.TWIN:
            return Rejoin.BACK if rejoin_twins(apart_v=self.apart_v) else Rejoin.CHARGE_FIRST
        return rejoin_halves(apart_v=self.apart_v)


def halves(kit: Kit, vehicle: Vehicle, readings: Mapping[str, Reading | None]) -> Halves | None:
    """The two starting batteries of a vehicle by their newest readings; None unless two, read and rested."""
    if vehicle.start_batteries is StartBatteries.SINGLE:
        return None
    read = [reading for battery in starters_of(kit, vehicle) if (reading := readings.get(battery.name)) is not None]
    rested = [r for r in read if not r.charging and not r.load_a and (r.rested_h or 0) >= _LEAST_REST_H]
    if len(rested) != vehicle.start_batteries.how_many:
        return None
    lower, higher = sorted(rested, key=lambda reading: reading.volts_v)
    return Halves(vehicle, higher, lower)
