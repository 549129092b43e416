"""One battery on a trip: what its reading says, what is left at departure, may it weld, does it crank."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from kitlist.base.errors import KitlistError, OutOfRange
from kitlist.base.noted import noted
from kitlist.base.terms import BatteryPlace
from kitlist.kit import Battery, Reading, Trip, Vehicle
from kitlist.kit.limits import Limits
from kitlist.outlook.refusal import Refusal, not_now, unfit
from kitlist.physics import figures
from kitlist.physics.battery import charge as charges
from kitlist.physics.battery.charge import Charge, Way, way_of
from kitlist.physics.battery.cold import Floor
from kitlist.physics.battery.cranking import CrankCheck, Cranking, SaeRating, crank_check, to_sae
from kitlist.physics.battery.resistance import Basis, LoadedReading, SourceResistance, source_resistance
from kitlist.physics.battery.standing import NO_LOSS, Loss, Standing, carry_forward, may_freeze, standing_loss

_NO_READING = Charge(None, "no reading")


_FLAT_REST_H = 2.0  # before it the volts are those of the load that has just ended; common practice
_HOME_C = 20.0  # where a battery stands before a trip; common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryOutlook:
    """A battery on the trip. `charge` is at departure; `refusal` says why it must not be in a bank, None when it may.

    `way` is how its reading was taken, None where it shows no charge; `loss` what standing takes until departure;
    `floor` what it keeps, at any temperature; `coldest_c` the trip's coldest, or what is taken for it. `used_since`
    says what happened to it after the reading, which then counts no more ("" where nothing did). `flat` is the reading
    at which it was deep-discharged, where nobody has tested it under load since.
    """

    battery: Battery
    reading: Reading | None
    charge_when_read: Charge
    charge: Charge
    days_before_start: int | None
    floor: Floor
    coldest_c: float
    rating: SaeRating | None
    resistance: SourceResistance | None
    crank: CrankCheck | None
    refusal: Refusal | None
    way: Way | None = None
    loss: Loss = NO_LOSS
    used_since: str = ""
    flat: Reading | None = None

    @property
    def charge_to_crank(self) -> float | None:
        """The charge that its engine needs at the coldest; None for other batteries, or where it cannot be told."""
        return self.floor.cranking.charge_ratio(temp_c=self.coldest_c) if self.floor.cranking else None

    @property
    def never_cranks(self) -> bool:
        """Whether even a full charge does not start its engine at the coldest: charging it is no help."""
        return self.charge_to_crank is not None and self.charge_to_crank > 1

    @property
    def floor_ratio(self) -> float:
        """The charge that any battery keeps at the coldest of the trip."""
        return self._kept(replace(self.floor, cranking=None, always_ratio=0.0))

    @property
    def reserve_ratio(self) -> float:
        """The charge that this one keeps: its floor, what its engine needs, or what the last starting battery keeps."""
        return min(1.0, self._kept(self.floor))

    @property
    def reserve_for(self) -> str:
        """What the reserve is for, in words."""
        if self.reserve_ratio <= self.floor_ratio:
            return "its floor"
        if self.floor.always_ratio >= self.reserve_ratio:
            return "as the bank takes every starting battery"
        return "for its engine in the cold"

    @property
    def spare_ah(self) -> float | None:
        """Charge that may be taken before its reserve, Ah by the best guess; None where it is not known."""
        if self.charge.soc_ratio is None or self.battery.c20_ah is None:
            return None
        return max(0.0, self.charge.soc_ratio.best - self.reserve_ratio) * self.battery.c20_ah

    @property
    def not_now(self) -> Refusal | None:
        """Why a bank cannot have it as things stand: unfit, not known, or nothing to give; None where it may."""
        soc = self.charge.soc_ratio
        return self.refusal or not_now(
            chemistry=self.battery.chemistry,
            capacity_ah=self.battery.c20_ah,
            resistance_known=self.resistance is not None,
            soc_ratio=soc,
            reserve_ratio=2.0 if self.never_cranks else self.reserve_ratio,
            may_freeze=soc is not None and may_freeze(soc_ratio=soc, coldest_c=self.coldest_c) is True,
        )

    def _kept(self, floor: Floor) -> float:
        """The floor at the coldest; all of the charge where it is colder than anybody knows what a battery gives."""
        try:
            return floor.at(self.coldest_c)
        except OutOfRange:
            return 1.0


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
    driven_at = vehicle.driven_at if vehicle and vehicle.driven_at and vehicle.driven_at.date() <= on else None
    at_rest = [r for r in readings if not r.load_a and r.taken_at.date() <= on]
    reading = _reading_that_counts(battery, at_rest, driven_at)
    true = with_true_rest(reading, driven_at)
    then = when_read(battery, true)
    days = None if reading is None else max(0, (trip.starts_on - reading.taken_at.date()).days)
    charge, loss = (then, NO_LOSS) if days is None else _at_departure(battery, then, days, trip)
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
        floor=_floor(battery, vehicle, resistance, rating, trip, limits),
        coldest_c=figures.COLD_NOT_KNOWN_C.value if trip.coldest_c is None else trip.coldest_c,
        rating=rating,
        resistance=resistance,
        crank=_crank(battery, vehicle, charge, resistance, rating, trip),
        refusal=_refusal(battery, readings, at_rest, resistance, rating),
        way=way_of(rested_h=true.rested_h, bled=true.quick_load) if true and then.known else None,
        loss=loss,
        used_since=since,
        flat=_flat(readings, limit_v=limits.deep_discharged_v),
    )


def _flat(readings: tuple[Reading, ...], *, limit_v: float) -> Reading | None:
    """The newest rested reading under the limit that no reading under load came after."""
    rested = (r for r in readings if not r.load_a and not r.charging and (r.rested_h or 0.0) >= _FLAT_REST_H)
    found = next((r for r in rested if r.volts_v < limit_v), None)
    return None if found is None or any(r.load_a and r.taken_at > found.taken_at for r in readings) else found


def _reading_that_counts(battery: Battery, at_rest: list[Reading], driven_at: datetime | None) -> Reading | None:
    """The newest reading that shows a charge, else the newest of all.

    One that shows none (on charge, hardly rested, nonsense) does not push out the good one before it; nor does one that
    was only bled push out one of the same day that had rested, unless it shows less.
    """
    shows = [(r, when_read(battery, with_true_rest(r, driven_at)).soc_ratio) for r in at_rest]
    known = [(r, soc) for r, soc in shows if soc is not None]
    if not known:
        return at_rest[0] if at_rest else None
    newest, soc = known[0]
    for earlier, was in known[1:]:
        if newest.taken_at - earlier.taken_at > timedelta(days=1):
            break
        if newest.quick_load and not earlier.quick_load and soc.best >= was.best:
            return earlier
    return newest


def _used_since(reading: Reading | None, driven_at: datetime | None, welded_on: date | None) -> str:
    """What happened to the battery after the reading: it says no more what is in it. "" where nothing did."""
    if reading is None:
        return ""
    if welded_on is not None and reading.taken_at.date() == welded_on:
        return f"it welded on {welded_on}, and what is read counts from the day after"
    if welded_on is not None and reading.taken_at.date() < welded_on:
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


def _floor(
    battery: Battery,
    vehicle: Vehicle | None,
    resistance: SourceResistance | None,
    rating: SaeRating | None,
    trip: Trip,
    limits: Limits,
) -> Floor:
    """What the battery keeps: the owner's limits, and for its own engine. What cold takes is in the floor itself."""
    current_a = _crank_a(vehicle, rating)
    starts = battery.place is BatteryPlace.START and vehicle is not None and trip.coldest_c is not None
    cranking = None
    if starts and resistance is not None and current_a is not None:
        cranking = Cranking(chemistry=battery.chemistry, resistance=resistance, current_a=current_a)
    return Floor(
        warm_ratio=limits.floor_warm_ratio,
        cold_ratio=limits.floor_cold_ratio,
        cold_below_c=limits.cold_below_c,
        cranking=cranking,
    )


def _crank_a(vehicle: Vehicle | None, rating: SaeRating | None) -> float | None:
    """What the engine draws: as its owner measured it, else half of the battery's rating."""
    if vehicle is not None and vehicle.crank_each_a is not None:
        return vehicle.crank_each_a  # twins share it
    return rating.current_a.best * figures.CRANK_SHARE.value if rating and rating.current_a else None


def when_read(battery: Battery, reading: Reading | None) -> Charge:
    """What a reading says of a battery's charge, at the time it was taken."""
    if reading is None:
        return _NO_READING
    if noted("reading not at rest", reading.note):
        return Charge(None, f"its note says '{reading.note}': that is no battery at rest")
    try:
        return charges.state_of_charge(
            chemistry=battery.chemistry,
            rested_v=reading.volts_v,
            rested_h=reading.rested_h,
            temp_c=reading.battery_temp_c,
            quick_load=reading.quick_load,
            on_charge=reading.charging,
            meter_ratio=meter_of(reading),
        )
    except KitlistError as error:
        return Charge(None, error.message)


def meter_of(reading: Reading) -> float:
    """The accuracy of the meter that read it, as a share of the volts; a fair one where nobody wrote it down."""
    known = reading.meter_accuracy_ratio
    return figures.METER_RATIO.value if known is None else min(known, 0.05)


def _at_departure(battery: Battery, charge: Charge, days: int, trip: Trip) -> tuple[Charge, Loss]:
    """The charge carried to the day of departure, and what standing takes of it.

    A battery in a vehicle is taken to stay connected unless said. The charge is the likely one, at the trip's mean.
    Rods are counted with what it loses in the warmest that it stands in, at home or on the trip: no colder night keeps
    charge in it that a warm day took, so that a colder trip never shows more of them.
    """
    connected = battery.vehicle is not None if battery.stays_connected is None else battery.stays_connected
    known = [t for t in (trip.coldest_c, trip.hottest_c) if t is not None]
    standing = Standing.CONNECTED if connected else Standing.DISCONNECTED
    mean_temp_c = sum(known) / len(known) if known else _HOME_C
    warm_c = min(50.0, max((_HOME_C, *known)))
    chemistry, capacity_ah = battery.chemistry, battery.c20_ah
    try:
        carried = carry_forward(
            charge,
            days=days,
            chemistry=chemistry,
            standing=standing,
            mean_temp_c=mean_temp_c,
            capacity_ah=capacity_ah,
        )
        if not days:
            return carried, NO_LOSS
        return carried, standing_loss(
            days=days, chemistry=chemistry, standing=standing, mean_temp_c=warm_c, capacity_ah=capacity_ah
        )
    except KitlistError as error:
        return Charge(None, error.message), NO_LOSS


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
    return crank_check(
        chemistry=battery.chemistry,
        soc_ratio=charge.soc_ratio,
        resistance=resistance,
        temp_c=trip.coldest_c,
        crank_a=_crank_a(vehicle, rating),
    )


def _refusal(
    battery: Battery,
    readings: tuple[Reading, ...],
    at_rest: list[Reading],
    resistance: SourceResistance | None,
    rating: SaeRating | None,
) -> Refusal | None:
    """Why the battery itself is unfit. A low reading counts until a reading on load after it says otherwise."""
    rested = [r for r in at_rest if not r.charging]
    tested_at = max((r.taken_at for r in readings if r.load_a), default=None)
    stood = [r for r in rested[1:] if way_of(rested_h=r.rested_h, bled=r.quick_load)]  # not the volts of a crank
    low = [r.volts_v for r in stood if tested_at is None or r.taken_at >= tested_at]
    measured = resistance is not None and resistance.basis in (Basis.TESTER, Basis.LOADED)
    cca = rating.current_a if rating else None
    return unfit(
        chemistry=battery.chemistry,
        built_in_cutoff=battery.built_in_cutoff,
        condition=battery.condition,
        words=f"{battery.name}; {battery.note}",
        rested_v=rested[0].volts_v if rested else None,
        lowest_v=min(low, default=None),
        measured_ohm=resistance.new_ohm.best if resistance and measured else None,
        reject_ohm=figures.REJECT_CRANK_VOLTS.value / cca.best if cca else None,
    )
