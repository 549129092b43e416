"""Which batteries to charge before a trip, by when, how long to rest them, when to take the reading that counts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from kitlist.base.sources import PRACTICE, Figure, Source, Tag
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Condition
from kitlist.kit import Trip
from kitlist.outlook import Outlook
from kitlist.outlook.battery import BatteryOutlook
from kitlist.physics.battery.recharge import Feed, current_into_battery, most_volts
from kitlist.physics.battery.standing import may_freeze

RECHARGE_BELOW = Figure(
    "a battery is recharged under", 0.80, "of full", Source(Tag.PRACTICE, "12.50 V, where sulphation begins to matter")
)
TOP_UP_BELOW = Figure("a battery of the bank is topped up under", 0.95, "of full", PRACTICE)
NIGHT_H = Figure("rest before a reading, the least that is good", 6.0, "h", PRACTICE)
DEEP_DISCHARGED_V = Figure(
    "a battery is deep-discharged at rest under", 11.6, "V", Source(Tag.SECOND_HAND, "three vehicle makers' manuals")
)
REST_H = Figure("rest before the reading that counts", 24.0, "h", Source(Tag.PRACTICE, "6 h or more, 24 h best"))
READ_DAYS_BEFORE = 1
CHARGE_DAYS_BEFORE = 3

CAUTIONS = (
    "Each battery alone, off the others, never as a string. Open air, no flame, no spark; goggles on.",
    "Never charge a frozen, cracked, leaking or swollen battery.",
)


SLOW_SHARE = Figure(
    "of its 20 h capacity, the most that a deep-discharged battery is charged with",
    0.10,
    "A/Ah",
    Source(Tag.SECOND_HAND, "three vehicle makers' manuals: 24 h or more, no quick charge"),
)


class ChargeDo(StrEnum):
    """What is done with a battery before a trip, what needs most doing first."""

    REPLACE = "replace or test"
    CHARGE_THEN_READ = "charge, then read"
    CHARGE_FULL = "charge full"
    TOP_UP = "top up"
    READ = "read again"
    LEAVE = "leave as it is"

    @property
    def charges(self) -> bool:
        """Whether a charger goes on."""
        return self in (ChargeDo.CHARGE_THEN_READ, ChargeDo.CHARGE_FULL, ChargeDo.TOP_UP)


class Rest(StrEnum):
    """The rest that the days left still allow between the charge and the reading that counts."""

    DAY = "day"
    NIGHT = "night"
    NONE = "none"

    @property
    def hours(self) -> float:
        """How long, h; 0 where only taking the surface charge off is left."""
        return {Rest.DAY: REST_H.value, Rest.NIGHT: NIGHT_H.value, Rest.NONE: 0.0}[self]

    @property
    def worth(self) -> str:
        """How it is read then, and what that reading is worth."""
        bleed = "20 A or more for 3 min takes the surface charge off, then 5 min of wait"
        return {
            Rest.DAY: "a day of rest: the reading is as good as it gets",
            Rest.NIGHT: "no full day is left: a night of 6 h or more with nothing connected is nearly as good; over "
            f"12.70 V flooded, 12.90 V calcium, 13.05 V AGM or gel it shows no charge until {bleed}",
            Rest.NONE: f"no night is left: {bleed}, and the reading counts for 0.05 V less; unbled it shows nothing",
        }[self]


@dataclass(frozen=True, slots=True)
class ChargeLine:
    """What to do with one battery. `back_ah` is the charge that is missing, by the best guess.

    `most_v` and `most_a` are the most that its charger may give; None where it is not charged, or its size not known.
    """

    name: str
    do: ChargeDo
    why: str
    soc_ratio: float | None
    back_ah: float | None
    most_v: float | None = None
    most_a: float | None = None


@dataclass(frozen=True, slots=True)
class ChargePlan:
    """All travelling batteries, what needs most doing first, and the days."""

    trip: str
    charge_by: date
    rest: Rest
    read_on: date
    lines: tuple[ChargeLine, ...]
    cautions: tuple[str, ...]

    @property
    def rest_h(self) -> float:
        """The rest before the reading that counts, h."""
        return self.rest.hours


def charge_plan(trip: Trip, outlook: Outlook, *, on: date) -> ChargePlan:
    """The charge plan of a trip, as it stands on a day; a day that is past is today."""
    lines = [_line(name, battery, trip) for name, battery in outlook.batteries.items()]
    lines.sort(key=lambda line: (list(ChargeDo).index(line.do), line.name))
    return ChargePlan(
        trip=trip.name,
        charge_by=max(on, trip.starts_on - timedelta(days=CHARGE_DAYS_BEFORE)),
        rest=rest_left((trip.starts_on - on).days),
        read_on=max(on, trip.starts_on - timedelta(days=READ_DAYS_BEFORE)),
        lines=tuple(lines),
        cautions=CAUTIONS,
    )


def rest_left(days: int) -> Rest:
    """The rest that so many days before the departure still allow.

    >>> [rest_left(days).hours for days in (3, 1, 0)]
    [24.0, 6.0, 0.0]
    """
    return Rest.DAY if days > READ_DAYS_BEFORE else Rest.NIGHT if days > 0 else Rest.NONE


def _line(name: str, outlook: BatteryOutlook, trip: Trip) -> ChargeLine:
    soc = outlook.charge.soc_ratio
    best = None if soc is None else soc.best
    back = None
    if best is not None and outlook.battery.c20_ah is not None:
        back = (1 - best) * outlook.battery.c20_ah
    do, why = _what(outlook, name in trip.bank, trip)
    most_v = most_volts(outlook.battery.chemistry) if do.charges else None
    return ChargeLine(name, do, why, best, back, most_v, _most_a(outlook) if do.charges else None)


def _most_a(outlook: BatteryOutlook) -> float | None:
    """The most amperes of its charger: by its kind, and a tenth of its size where it is deep-discharged."""
    battery, reading = outlook.battery, outlook.reading
    if battery.c20_ah is None:
        return None
    usual_a = current_into_battery(
        Feed.CHARGER, rating=1000.0, capacity_ah=battery.c20_ah, chemistry=battery.chemistry
    ).best
    flat = reading is not None and reading.volts_v < DEEP_DISCHARGED_V.value
    return min(usual_a, SLOW_SHARE.value * battery.c20_ah) if flat else usual_a


def _what(outlook: BatteryOutlook, in_bank: bool, trip: Trip) -> tuple[ChargeDo, str]:
    battery, soc = outlook.battery, outlook.charge.soc_ratio
    if battery.condition not in (Condition.SOUND, Condition.UNKNOWN):
        return ChargeDo.REPLACE, f"It is {battery.condition}: do not charge it."
    if battery.chemistry is Chemistry.LITHIUM:
        return ChargeDo.LEAVE, "Lithium: by its own charger, as its maker says."
    if outlook.refusal:
        return ChargeDo.REPLACE, f"It is {outlook.refusal}. Charged, it may still leave you standing."
    if outlook.used_since:
        do = ChargeDo.CHARGE_THEN_READ if "welded" in outlook.used_since else ChargeDo.READ
        return do, f"{outlook.used_since[0].upper()}{outlook.used_since[1:]}."
    if soc is None:
        return ChargeDo.CHARGE_THEN_READ, f"{outlook.charge.reason[0].upper()}{outlook.charge.reason[1:]}."
    if outlook.never_cranks:
        return ChargeDo.REPLACE, f"Even full it does not start {battery.vehicle} in the cold."
    freezes = trip.coldest_c is not None and may_freeze(soc_ratio=soc, coldest_c=trip.coldest_c)
    if outlook.crank is not None and outlook.crank.cranks is False and soc.best >= TOP_UP_BELOW.value:
        return ChargeDo.REPLACE, f"Full as it is, it may not start {battery.vehicle} in the cold."
    if why := _why_full(outlook, soc, freezes=bool(freezes)):
        return ChargeDo.CHARGE_FULL, why
    if in_bank and soc.best < TOP_UP_BELOW.value:
        return ChargeDo.TOP_UP, "It welds: every point is more rods."
    if outlook.days_before_start is not None and outlook.days_before_start > READ_DAYS_BEFORE:
        return ChargeDo.READ, "Good so far; the day before departure it is read once more."
    return ChargeDo.LEAVE, "Read, and charged."


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
