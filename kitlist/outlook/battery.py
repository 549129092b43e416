"""One battery on a trip: what its reading says, what is left at departure, may it weld, does it crank."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from kitlist.base.errors import KitlistError
from kitlist.base.terms import DAMAGED, BatteryPlace, Chemistry
from kitlist.kit import Battery, Reading, Trip, Vehicle
from kitlist.kit.limits import Limits
from kitlist.physics import figures
from kitlist.physics.battery import charge as charges
from kitlist.physics.battery.charge import Charge
from kitlist.physics.battery.cranking import CrankCheck, SaeRating, charge_to_crank, crank_check, to_sae
from kitlist.physics.battery.resistance import Basis, LoadedReading, SourceResistance, Wear, source_resistance, wear
from kitlist.physics.battery.standing import Standing, carry_forward

_NO_READING = Charge(None, "no reading")


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryOutlook:
    """A battery on the trip. `charge` is at departure; `refusal` says why it must not be in a bank ("" when it may).

    `used_since` says what happened to it after the reading, which then counts no more ("" where nothing did);
    `every_starter` that it is in a bank which takes every starting battery of the trip.
    """

    battery: Battery
    reading: Reading | None
    charge_when_read: Charge
    charge: Charge
    days_before_start: int | None
    floor_ratio: float
    rating: SaeRating | None
    resistance: SourceResistance | None
    crank: CrankCheck | None
    charge_to_crank: float | None
    refusal: str
    used_since: str = ""
    every_starter: bool = False

    @property
    def never_cranks(self) -> bool:
        """Whether even a full charge does not start its engine at the coldest: charging it is no help."""
        return self.charge_to_crank is not None and self.charge_to_crank > 1

    @property
    def own_reserve_ratio(self) -> float:
        """The charge it keeps for itself: its floor, or what its engine needs in the cold where that is more."""
        return min(1.0, max(self.floor_ratio, self.charge_to_crank or 0.0))

    @property
    def reserve_ratio(self) -> float:
        """The charge it keeps on this trip: its own reserve, or 0.75 in a bank that takes every starting battery."""
        return max(self.own_reserve_ratio, figures.RESERVE_COLD.value if self.every_starter else 0.0)

    @property
    def reserve_for(self) -> str:
        """What the reserve is for, in words."""
        if self.reserve_ratio > max(self.floor_ratio, self.own_reserve_ratio):
            return "as the bank takes every starting battery"
        return "for its engine in the cold" if self.own_reserve_ratio > self.floor_ratio else "its floor"

    @property
    def spare_ah(self) -> float | None:
        """Charge that may be taken before its reserve, Ah by the best guess; None where it is not known."""
        if self.charge.soc_ratio is None or self.battery.c20_ah is None:
            return None
        return max(0.0, self.charge.soc_ratio.best - self.reserve_ratio) * self.battery.c20_ah


def battery_outlook(
    battery: Battery,
    readings: tuple[Reading, ...],
    trip: Trip,
    *,
    vehicle: Vehicle | None,
    welded_on: date | None = None,
    on: date,
    limits: Limits,
) -> BatteryOutlook:
    """The outlook of one battery from its readings (newest first), as it stands on a day.

    `welded_on` is the last day on which it was linked to weld: a reading counts from the day after it.
    """
    reading = next((r for r in readings if not r.load_a and r.taken_at.date() <= on), None)
    driven_at = vehicle.driven_at if vehicle and vehicle.driven_at and vehicle.driven_at.date() <= on else None
    then = when_read(battery, with_true_rest(reading, driven_at))
    days = None if reading is None else max(0, (trip.starts_on - reading.taken_at.date()).days)
    charge = then if days is None else _at_departure(battery, then, days, trip)
    since = _used_since(reading, driven_at, welded_on if welded_on and welded_on <= on else None)
    if since:
        charge = Charge(None, since)
    rating = None
    if battery.cranking_a is not None:
        rating = to_sae(rating_a=battery.cranking_a, standard=battery.cranking_standard)
    resistance = _resistance(battery, rating, _loaded(battery, readings, on=on))
    return BatteryOutlook(
        battery=battery,
        reading=reading,
        charge_when_read=then,
        charge=charge,
        days_before_start=days,
        floor_ratio=floor_ratio(trip, limits),
        rating=rating,
        resistance=resistance,
        crank=_crank(battery, vehicle, charge, resistance, rating, trip),
        charge_to_crank=_charge_to_crank(battery, vehicle, resistance, rating, trip),
        refusal=_refusal(battery, reading, resistance, rating),
        used_since=since,
    )


def _used_since(reading: Reading | None, driven_at: datetime | None, welded_on: date | None) -> str:
    """What happened to the battery after the reading: it says no more what is in it. "" where nothing did."""
    if reading is None:
        return ""
    if welded_on is not None and reading.taken_at.date() <= welded_on:
        return f"it welded since, on {welded_on}"
    if driven_at is not None and reading.taken_at < driven_at:
        return f"it was driven since, until {driven_at:%Y-%m-%d %H:%M}"
    return ""


def with_true_rest(reading: Reading | None, driven_at: datetime | None) -> Reading | None:
    """The reading with no more rest than there was since the drive before it."""
    if reading is None or driven_at is None or reading.rested_h is None or reading.taken_at < driven_at:
        return reading
    since_h = (reading.taken_at - driven_at).total_seconds() / 3600
    return replace(reading, rested_h=min(reading.rested_h, since_h))


def floor_ratio(trip: Trip, limits: Limits) -> float:
    """The charge that every battery must keep on this trip; an unknown cold is taken for frost."""
    cold = trip.coldest_c is None or trip.coldest_c < limits.cold_below_c
    return limits.floor_cold_ratio if cold else limits.floor_warm_ratio


def when_read(battery: Battery, reading: Reading | None) -> Charge:
    """What a reading says of a battery's charge, at the time it was taken."""
    if reading is None:
        return _NO_READING
    try:
        return charges.state_of_charge(
            chemistry=battery.chemistry,
            rested_v=reading.volts_v,
            rested_h=reading.rested_h,
            temp_c=reading.battery_temp_c,
            quick_load=reading.quick_load,
            on_charge=reading.charging,
            meter_ratio=_meter(reading),
        )
    except KitlistError as error:
        return Charge(None, error.message)


def _meter(reading: Reading) -> float:
    known = reading.meter_accuracy_ratio
    return figures.METER_RATIO.value if known is None else min(known, 0.05)


def _at_departure(battery: Battery, charge: Charge, days: int, trip: Trip) -> Charge:
    """The charge carried to the day of departure. A battery in a vehicle is taken to stay connected unless said."""
    connected = battery.vehicle is not None if battery.stays_connected is None else battery.stays_connected
    known = [t for t in (trip.coldest_c, trip.hottest_c) if t is not None]
    try:
        return carry_forward(
            charge,
            days=days,
            chemistry=battery.chemistry,
            standing=Standing.CONNECTED if connected else Standing.DISCONNECTED,
            mean_temp_c=sum(known) / len(known) if known else 20.0,
            capacity_ah=battery.c20_ah,
        )
    except KitlistError as error:
        return Charge(None, error.message)


def _resistance(
    battery: Battery, rating: SaeRating | None, loaded: LoadedReading | None = None
) -> SourceResistance | None:
    """By the surest thing known; a reading on load that makes no sense is passed over."""
    for reading in dict.fromkeys((loaded, None)):
        try:
            return source_resistance(
                cca_sae=rating.current_a if rating else None,
                capacity_ah=battery.c20_ah,
                tester_mohm=battery.tester_mohm,
                loaded=reading,
            )
        except KitlistError:
            continue
    return None


def _loaded(battery: Battery, readings: tuple[Reading, ...], *, on: date) -> LoadedReading | None:
    """The newest reading on load with a rested one of the day before it, whose charge is known."""
    for under in (r for r in readings if r.load_a and r.taken_at.date() <= on):
        for rest in (r for r in readings if not r.load_a and not r.charging):
            charge = when_read(battery, rest).soc_ratio
            if timedelta(0) <= under.taken_at - rest.taken_at <= timedelta(days=1) and charge is not None:
                temp_c = under.battery_temp_c if under.battery_temp_c is not None else rest.battery_temp_c
                return LoadedReading(
                    rest_v=rest.volts_v,
                    load_v=under.volts_v,
                    current_a=under.load_a or 0.0,
                    soc_ratio=charge.best,
                    temp_c=25.0 if temp_c is None else temp_c,
                )
    return None


def _crank(
    battery: Battery,
    vehicle: Vehicle | None,
    charge: Charge,
    resistance: SourceResistance | None,
    rating: SaeRating | None,
    trip: Trip,
) -> CrankCheck | None:
    """Whether the engine starts at the coldest; only for a starting battery and a known cold."""
    if battery.place is not BatteryPlace.START or vehicle is None or trip.coldest_c is None:
        return None
    cca = rating.current_a if rating else None
    return crank_check(
        chemistry=battery.chemistry,
        soc_ratio=charge.soc_ratio,
        resistance=resistance,
        temp_c=trip.coldest_c,
        crank_a=vehicle.crank_each_a,
        cca_sae_a=cca.best if cca else None,
    )


def _charge_to_crank(
    battery: Battery,
    vehicle: Vehicle | None,
    resistance: SourceResistance | None,
    rating: SaeRating | None,
    trip: Trip,
) -> float | None:
    """The charge that its engine needs at the coldest; None for other batteries, or where it cannot be told."""
    if battery.place is not BatteryPlace.START or vehicle is None or trip.coldest_c is None or resistance is None:
        return None
    cca = rating.current_a if rating else None
    return charge_to_crank(
        chemistry=battery.chemistry,
        resistance=resistance,
        temp_c=trip.coldest_c,
        crank_a=vehicle.crank_each_a,
        cca_sae_a=cca.best if cca else None,
    )


def _refusal(
    battery: Battery, reading: Reading | None, resistance: SourceResistance | None, rating: SaeRating | None
) -> str:
    if battery.chemistry is Chemistry.LITHIUM:
        return "lithium"
    if battery.built_in_cutoff:
        return "it has a built-in cut-off"
    if battery.condition in DAMAGED:
        return f"it is {battery.condition}"
    if reading is not None and not reading.charging and charges.shorted_cell_suspected(rested_v=reading.volts_v):
        return f"{reading.volts_v:.2f} V at rest: a shorted cell or ruined, 10.7 V at the least"
    cca = rating.current_a if rating else None
    if resistance is not None and cca is not None and resistance.basis in (Basis.TESTER, Basis.LOADED):
        measured = resistance.new_ohm.best
        if wear(full_25_ohm=measured, cca_sae_a=cca.best) is Wear.REJECT:
            limit = figures.REJECT_CRANK_VOLTS.value / cca.best
            return f"worn out: {measured * 1000:.1f} mΩ, {limit * 1000:.1f} mΩ at the most for its rating"
    return ""
