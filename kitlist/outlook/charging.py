"""Which batteries to charge before a trip, by when, how long to rest them, when to take the reading that counts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from kitlist.base.sources import PRACTICE, Figure, Source, Tag
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Condition
from kitlist.kit import Trip
from kitlist.outlook import Outlook
from kitlist.outlook.battery import BatteryOutlook
from kitlist.physics.battery.standing import may_freeze

RECHARGE_BELOW = Figure(
    "a battery is recharged under", 0.80, "of full", Source(Tag.PRACTICE, "12.50 V, where sulphation begins to matter")
)
TOP_UP_BELOW = Figure("a battery of the bank is topped up under", 0.95, "of full", PRACTICE)
REST_H = Figure("rest before the reading that counts", 24, "h", Source(Tag.PRACTICE, "6 h or more, 24 h best"))
READ_DAYS_BEFORE = 1
CHARGE_DAYS_BEFORE = 3

CAUTIONS = (
    "Each battery alone, off the others, never as a string. Open air, no flame, no spark; goggles on.",
    "Never charge a frozen, cracked, leaking or swollen battery.",
)


@dataclass(frozen=True, slots=True)
class ChargeLine:
    """What to do with one battery. `back_ah` is the charge that is missing, by the best guess."""

    name: str
    do: str
    why: str
    soc_ratio: float | None
    back_ah: float | None


@dataclass(frozen=True, slots=True)
class ChargePlan:
    """All travelling batteries, what needs most doing first, and the days."""

    trip: str
    charge_by: date
    rest_h: float
    read_on: date
    lines: tuple[ChargeLine, ...]
    cautions: tuple[str, ...]


def charge_plan(trip: Trip, outlook: Outlook, *, on: date) -> ChargePlan:
    """The charge plan of a trip, as it stands on a day; a day that is past is today."""
    lines = [_line(name, battery, trip) for name, battery in outlook.batteries.items()]
    lines.sort(key=lambda line: (_ORDER.index(line.do), line.name))
    return ChargePlan(
        trip=trip.name,
        charge_by=max(on, trip.starts_on - timedelta(days=CHARGE_DAYS_BEFORE)),
        rest_h=REST_H.value,
        read_on=max(on, trip.starts_on - timedelta(days=READ_DAYS_BEFORE)),
        lines=tuple(lines),
        cautions=CAUTIONS,
    )


_ORDER = ("replace or test", "charge, then read", "charge full", "top up", "read again", "leave as it is")


def _line(name: str, outlook: BatteryOutlook, trip: Trip) -> ChargeLine:
    soc = outlook.charge.soc_ratio
    best = None if soc is None else soc.best
    back = None
    if best is not None and outlook.battery.c20_ah is not None:
        back = (1 - best) * outlook.battery.c20_ah
    do, why = _what(outlook, name in trip.bank, trip)
    return ChargeLine(name, do, why, best, back)


def _what(outlook: BatteryOutlook, in_bank: bool, trip: Trip) -> tuple[str, str]:
    battery, soc = outlook.battery, outlook.charge.soc_ratio
    if battery.condition not in (Condition.SOUND, Condition.UNKNOWN):
        return "replace or test", f"It is {battery.condition}: do not charge it."
    if battery.chemistry is Chemistry.LITHIUM:
        return "leave as it is", "Lithium: by its own charger, as its maker says."
    if outlook.refusal:
        return "replace or test", f"It is {outlook.refusal}. Charged, it may still leave you standing."
    if outlook.used_since:
        do = "charge, then read" if "welded" in outlook.used_since else "read again"
        return do, f"{outlook.used_since[0].upper()}{outlook.used_since[1:]}."
    if soc is None:
        return "charge, then read", f"{outlook.charge.reason[0].upper()}{outlook.charge.reason[1:]}."
    if outlook.never_cranks:
        return "replace or test", f"Even full it does not start {battery.vehicle} in the cold."
    freezes = trip.coldest_c is not None and may_freeze(soc_ratio=soc, coldest_c=trip.coldest_c)
    if outlook.crank is not None and outlook.crank.cranks is False and soc.best >= TOP_UP_BELOW.value:
        return "replace or test", f"Full as it is, it may not start {battery.vehicle} in the cold."
    if why := _why_full(outlook, soc, freezes=bool(freezes)):
        return "charge full", why
    if in_bank and soc.best < TOP_UP_BELOW.value:
        return "top up", "It welds: every point is more rods."
    if outlook.days_before_start is not None and outlook.days_before_start > READ_DAYS_BEFORE:
        return "read again", "Good so far; the day before departure it is read once more."
    return "leave as it is", "Read, and charged."


def _why_full(outlook: BatteryOutlook, soc: Span, *, freezes: bool) -> str:
    """Why a battery is charged full before the trip: on the same bounds as those on which it is judged; "" for none."""
    kept = outlook.reserve_ratio
    if freezes:
        return "It may freeze as it is."
    if outlook.crank is not None and outlook.crank.cranks is False:
        return f"It may not start {outlook.battery.vehicle} in the cold."
    if soc.low < kept:
        word, what = "will" if soc.best < kept else "may", "reserve" if kept > outlook.floor_ratio else "floor"
        return f"It {word} be under its {what} of {kept * 100:.0f} %: {soc.low * 100:.0f} at the least."
    return f"Under {RECHARGE_BELOW.value * 100:.0f} %." if soc.best < RECHARGE_BELOW.value else ""
