"""One battery over time: how its charge falls while it stands, and how its resistance grows, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from kitlist.base.errors import KitlistError
from kitlist.base.sources import PRACTICE, Figure
from kitlist.base.span import Span
from kitlist.kit import Battery, Kit, Reading
from kitlist.outlook.battery import when_read
from kitlist.physics.arc import bead
from kitlist.physics.battery.charge import Charge
from kitlist.physics.battery.standing import Standing, carry_forward

LEAST_FALL = Figure("a fall of charge that two readings by one meter tell", 0.03, "of full", PRACTICE)
LEAST_DAYS = Figure("a fall of charge is told over", 3, "days or more", PRACTICE)
LEAST_CHANGE = Figure("a change of resistance that two readings on load tell", 0.15, "of the first", PRACTICE)
PAIRED_WITHIN = timedelta(hours=6)  # a reading on load belongs to a rested one of the same day


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """How the charge fell over a time without charging: shares of full a week, and what its kind should lose."""

    since: date
    until: date
    fall_a_week_ratio: float
    should_a_week_ratio: Span | None
    told: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryHistory:
    """Rested volts by day, oldest first; the newest fall of charge; resistance by day in mΩ from readings on load."""

    volts: tuple[tuple[date, float], ...]
    fall: Fall | None
    resistance_mohm: tuple[tuple[date, float], ...]

    @property
    def trend_words(self) -> tuple[str, ...]:
        """The words without the readings themselves: what they come to."""
        return self.words[1 if len(self.volts) > 1 else 0 :]

    @property
    def words(self) -> tuple[str, ...]:
        """What it says, a sentence each; nothing where there are too few readings."""
        told = [_volts_words(self.volts)] if len(self.volts) > 1 else []
        if self.fall is not None:
            told.append(_fall_words(self.fall))
        if len(self.resistance_mohm) > 1:
            told.append(_resistance_words(self.resistance_mohm))
        return tuple(told)


def history_of(kit: Kit, name: str) -> BatteryHistory:
    """The history of one battery of a kit from the readings that the snapshot holds."""
    welded = [day for battery, day in kit.welded if battery == name]
    return battery_history(kit.battery[name], kit.readings_of.get(name, ()), welded_on=welded)


def battery_history(battery: Battery, readings: Sequence[Reading], *, welded_on: Sequence[date] = ()) -> BatteryHistory:
    """The history of one battery from its readings, newest first.

    The fall is taken over the newest run of rested readings in which the charge never rose: it was not charged
    between them, and it did not weld (`welded_on`). That it fed nothing else is not known: a fridge looks like a fault.
    """
    rested = [r for r in reversed(readings) if when_read(battery, r).soc_ratio is not None]
    return BatteryHistory(
        volts=tuple((r.taken_at.date(), r.volts_v) for r in rested),
        fall=_fall(battery, _newest_run(battery, rested, welded_on)),
        resistance_mohm=tuple(_resistances(readings)),
    )


def _newest_run(battery: Battery, rested: Sequence[Reading], welded_on: Sequence[date]) -> list[Reading]:
    run: list[Reading] = []
    for reading in reversed(rested):
        if run and _best(battery, reading) < _best(battery, run[0]) - 0.005:  # it was charged after this one
            break
        if run and any(reading.taken_at.date() <= day <= run[0].taken_at.date() for day in welded_on):
            break
        run.insert(0, reading)
    return run


def _best(battery: Battery, reading: Reading) -> float:
    soc = when_read(battery, reading).soc_ratio
    return 0.0 if soc is None else soc.best


def _fall(battery: Battery, run: Sequence[Reading]) -> Fall | None:
    if len(run) < 2:
        return None
    first, last = run[0], run[-1]
    days = (last.taken_at - first.taken_at).total_seconds() / 86400
    if days < LEAST_DAYS.value:
        return None
    was, now = _best(battery, first), _best(battery, last)
    weeks = days / 7
    should = _should_lose(battery, when_read(battery, first), run, days)
    return Fall(
        since=first.taken_at.date(),
        until=last.taken_at.date(),
        fall_a_week_ratio=max(0.0, was - now) / weeks,
        should_a_week_ratio=None
        if should is None
        else Span(*(s / weeks for s in (should.low, should.best, should.high))),
        told=was - now >= LEAST_FALL.value,
    )


def _should_lose(battery: Battery, charge: Charge, run: Sequence[Reading], days: float) -> Span | None:
    """What a battery of this kind loses over so many days, as shares of full; None where it cannot be told."""
    soc = charge.soc_ratio
    if soc is None:
        return None
    exact = replace(charge, soc_ratio=Span(soc.best, soc.best, soc.best))
    connected = battery.vehicle is not None if battery.stays_connected is None else battery.stays_connected
    known = [r.battery_temp_c for r in run if r.battery_temp_c is not None]
    try:
        left = carry_forward(
            exact,
            days=days,
            chemistry=battery.chemistry,
            standing=Standing.CONNECTED if connected else Standing.DISCONNECTED,
            mean_temp_c=sum(known) / len(known) if known else 20.0,
            capacity_ah=battery.c20_ah,
        ).soc_ratio
    except KitlistError:
        return None
    return None if left is None else Span(soc.best - left.high, soc.best - left.best, soc.best - left.low)


def _resistances(readings: Sequence[Reading]) -> list[tuple[date, float]]:
    """Resistance from each reading on load and the rested one nearest to it, mΩ, oldest first."""
    rested = [r for r in readings if not r.load_a and not r.charging]
    found = []
    for loaded in reversed([r for r in readings if r.load_a]):
        near = min(rested, key=lambda r: abs(r.taken_at - loaded.taken_at), default=None)
        if near is None or loaded.load_a is None or abs(near.taken_at - loaded.taken_at) > PAIRED_WITHIN:
            continue
        try:
            seen = bead.work_out(
                bead.BeadReadings(rest_v=near.volts_v, bank_v=loaded.volts_v, current_a=loaded.load_a, in_series=1)
            )
        except KitlistError:
            continue
        found.append((loaded.taken_at.date(), seen.source_ohm * 1000))
    return found


def _volts_words(volts: Sequence[tuple[date, float]]) -> str:
    shown = volts[-5:]
    return f"Rested volts: {', '.join(f'{v:.2f} on {day}' for day, v in shown)}."


def _fall_words(fall: Fall) -> str:
    if not fall.told:
        return f"Holding its charge from {fall.since} to {fall.until}."
    losing = f"Losing {_percent(fall.fall_a_week_ratio)} a week, {fall.since} to {fall.until}"
    should = fall.should_a_week_ratio
    if should is None:
        return f"{losing}; what its kind should lose is not known."
    if fall.fall_a_week_ratio <= should.high:
        way = "as" if fall.fall_a_week_ratio >= should.low else "no more than"
        return f"{losing}: {way} its kind should ({_percent(should.low)} to {_percent(should.high)})."
    return f"{losing}: {_times(fall.fall_a_week_ratio / should.best)} what its kind should."


def _percent(ratio: float) -> str:
    return f"{ratio * 100:.0f} %" if ratio >= 0.02 else f"{ratio * 100:.1f} %"


def _times(factor: float) -> str:
    if factor < 1.75:
        return "more than"
    return "twice" if factor < 2.5 else f"{factor:.0f} times"


def _resistance_words(points: Sequence[tuple[date, float]]) -> str:
    (since, first), (until, last) = points[0], points[-1]
    change = last / first - 1
    if abs(change) < LEAST_CHANGE.value:
        return f"Resistance steady: {first:.1f} mΩ on {since}, {last:.1f} on {until}."
    way = "up" if change > 0 else "down"
    return f"Resistance {way} {abs(change) * 100:.0f} %: {first:.1f} mΩ on {since}, {last:.1f} on {until}."
