"""charge-not-known: a reading that does not say what will be in the battery at departure."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.kit import Reading
from kitlist.outlook import BatteryOutlook
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.rulebook import GOOD_REST_H, LEAST_REST_H, SETTLED_H


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery whose reading, fresh enough, does not tell its charge."""
    for name, battery in case.outlook.batteries_to_read.items():
        reading, days = battery.reading, battery.days_before_start
        if reading is None or days is None or battery.charge.known:
            continue
        if days > case.limits.stale_after_days and battery.charge_when_read.known and not battery.used_since:
            continue  # reading-stale says what to do
        fresh = battery.charge_when_read.surface_charge_suspected and not battery.used_since
        rest_h = SETTLED_H.value if fresh else GOOD_REST_H.value
        yield Gap(
            subject=name,
            what=_what(name, battery, reading),
            remedy=f"Let it stand {rest_h:g} h or more with nothing connected and read again; or draw 20 A or more for "
            "3 min (headlamps on main beam), wait 5 min, then read.",
            command=f"kitlist volts {quoted(name)} VOLTS --rested HOURS --temp DEGREES",
            measured=None if battery.used_since else reading.rested_h,
            required=None if battery.used_since else rest_h if fresh else LEAST_REST_H.value,
            unit="h",
            known=False,
            severity=None if name in case.trip.bank else Severity.FIX,
        )


def _what(name: str, battery: BatteryOutlook, reading: Reading) -> str:
    day = f"{reading.taken_at.day} {reading.taken_at:%b}"
    if battery.used_since:
        # a day of welding has several readings: which of them it was, only the hour says
        return f"{name}: the reading of {day}, {reading.taken_at:%H:%M} counts no more: {battery.used_since}"
    return f"{name}: the reading of {day} does not tell its charge: {battery.charge.reason}"


RULE = Rule(
    name="charge-not-known",
    title="A reading that tells nothing",
    severity=Severity.STOP,
    doing=Doing.READ,
    why="Surface charge makes a half-empty battery look full for hours after charge or drive.",
    remedy="Read at rest: 6 h or more, 24 h after a charger; or after a bleed of 20 A or more for 3 min.",
    sources=(
        LEAST_REST_H.source,
        GOOD_REST_H.source,
        Source(Tag.READ, "TM 9-6115-730-24: 3 h, better 8 h"),
        Source(Tag.PRACTICE, "bleed: 20 A or more for 3 min, 5 min of rest"),
        SETTLED_H.source,
    ),
    check=check,
    good=lambda: example.with_reading("north-main", rested_h=2, volts_v=12.95),
    bad=lambda: example.with_reading("north-main", rested_h=1.9, volts_v=12.95),
)
