"""charge-not-known: a reading that does not say what will be in the battery at departure."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.kit import Reading
from kitlist.outlook import BatteryOutlook
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.rulebook import GOOD_REST_H, LEAST_REST_H


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery whose reading, fresh enough, does not tell its charge."""
    for name, battery in case.outlook.batteries_to_read.items():
        reading, days = battery.reading, battery.days_before_start
        if reading is None or days is None or battery.charge.known:
            continue
        if days > case.limits.stale_after_days and battery.charge_when_read.known and not battery.used_since:
            continue  # reading-stale says what to do
        yield Gap(
            subject=name,
            what=_what(name, battery, reading),
            remedy="Let it stand 6 h or more with nothing connected and read again; or draw 10 A for 15 s, "
            "wait 3 min, then read.",
            command=f"kitlist volts {quoted(name)} VOLTS --rested 6h --temp DEGREES (or --quick-load)",
            measured=None if battery.used_since else reading.rested_h,
            required=None if battery.used_since else LEAST_REST_H.value,
            unit="h",
            known=False,
            severity=None if name in case.trip.bank else Severity.FIX,
        )


def _what(name: str, battery: BatteryOutlook, reading: Reading) -> str:
    if battery.used_since:
        return f"{name}: the reading of {reading.taken_at:%d %b} counts no more: {battery.used_since}"
    return f"{name}: the reading of {reading.taken_at:%d %b} does not tell its charge: {battery.charge.reason}"


RULE = Rule(
    name="charge-not-known",
    title="A reading that tells nothing",
    severity=Severity.STOP,
    doing=Doing.READ,
    why="Surface charge makes a half-empty battery look full for hours after charge or drive.",
    remedy="Read at rest: 6 h or more, or by the quick-load method.",
    sources=(
        LEAST_REST_H.source,
        GOOD_REST_H.source,
        Source(Tag.READ, "TM 9-6115-730-24: 3 h, better 8 h"),
        Source(Tag.READ, "TM 5-3805-262-20: 15 s of load, 3 min of rest"),
    ),
    check=check,
    good=lambda: example.with_reading("north-main", rested_h=2),
    bad=lambda: example.with_reading("north-main", rested_h=1.9),
)
