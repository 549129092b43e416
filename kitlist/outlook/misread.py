"""Slips of the pen in a reading: what can be true and is more likely written wrong, as questions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

from kitlist.base.sources import PRACTICE, Figure
from kitlist.kit import Reading

HOT_BATTERY = Figure("a battery is rarely warmer", 50, "°C", PRACTICE)
LIVES = Figure("a 12 V battery of which a cell or two is left shows more at rest", 8, "V", PRACTICE)
FALL = Figure("rested volts that fell more than this between two readings are asked about", 0.3, "V", PRACTICE)
NEAR = Figure("two readings of one battery by one meter agree within", 0.05, "V", PRACTICE)
WITHIN = timedelta(days=30)  # a history longer ago says little about today
_TENFOLD = (10.0, 15.0)  # volts that a 12 V battery shows at rest: a tenth of them is a point too far left


@dataclass(frozen=True, slots=True)
class Misreading:
    """A question about one field, and what was perhaps meant."""

    field: str
    question: str


def misread(reading: Reading, *, own: Iterable[Reading] = (), others: Iterable[Reading] = ()) -> tuple[Misreading, ...]:
    """What is more likely a slip than true; `own` are the battery's readings before, `others` the other batteries'.

    >>> from datetime import datetime
    >>> read = Reading(battery="main", volts_v=1.274, taken_at=datetime(2027, 5, 1, 7), battery_temp_c=72)
    >>> [slip.question for slip in misread(read)]
    ['1.274 V: is it 12.74 V?', '72 °C is hotter than a battery stands: is it 72 F?']
    """
    found = []
    low, high = _TENFOLD
    if low <= reading.volts_v * 10 <= high:
        found.append(Misreading("volts_v", f"{reading.volts_v:g} V: is it {reading.volts_v * 10:g} V?"))
    elif reading.volts_v < LIVES.value and not reading.load_a:
        said = f"{reading.volts_v:g} V at rest is less than a 12 V battery with any life in it shows"
        found.append(Misreading("volts_v", f"{said}: was the meter on both posts, and is a digit missing?"))
    temp = reading.battery_temp_c
    if temp is not None and temp > HOT_BATTERY.value:
        found.append(Misreading("battery_temp_c", f"{temp:g} °C is hotter than a battery stands: is it {temp:g} F?"))
    if not found and (question := _wrong_battery(reading, own, others)):
        found.append(Misreading("battery", question))
    return tuple(found)


def _wrong_battery(reading: Reading, own: Iterable[Reading], others: Iterable[Reading]) -> str:
    """The question about a battery that reads far from itself, and like another one where there is such."""
    before = max((r for r in own if _comparable(r, reading)), key=lambda r: r.taken_at, default=None)
    if before is None or not _comparable(reading, reading):
        return ""
    off = reading.volts_v - before.volts_v
    alike = [r for r in others if _comparable(r, reading) and abs(r.volts_v - reading.volts_v) <= NEAR.value]
    said = f"{reading.battery} read {before.volts_v:g} V on {before.taken_at:%Y-%m-%d}"
    if abs(off) > FALL.value and alike:
        nearest = min(alike, key=lambda r: abs(r.volts_v - reading.volts_v))
        return f"{said}, and {nearest.battery} read {nearest.volts_v:g} V: is it the right battery?"
    if off < -FALL.value:
        return f"{said}, now {reading.volts_v:g} V: is it the right battery, and was nothing left on?"
    return ""


def _comparable(one: Reading, with_: Reading) -> bool:
    """Whether both were read at rest, the one not after the other and not too long before it."""
    at_rest = not one.load_a and not one.charging and not with_.charging and not with_.load_a
    return at_rest and timedelta(0) <= with_.taken_at - one.taken_at <= WITHIN
