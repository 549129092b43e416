"""reading-stale: a reading too old for the departure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.rulebook import STALE_AFTER_DAYS
from kitlist.sources import Source, Tag


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery whose newest rested reading is over the limit before departure."""
    for name, battery in case.outlook.batteries_to_read.items():
        if battery.days_before_start is not None and battery.days_before_start > STALE_AFTER_DAYS.value:
            yield Gap(
                subject=name,
                what=f"{name} was last read {battery.days_before_start} days before departure; "
                f"{STALE_AFTER_DAYS.value:g} at the most",
                remedy="Read it again, rested 6 h or more.",
                command=f"kitlist volts {quoted(name)} VOLTS --rested 6h --temp DEGREES",
                measured=battery.days_before_start,
                required=STALE_AFTER_DAYS.value,
                unit="days",
            )


RULE = Rule(
    name="reading-stale",
    title="Reading too old",
    severity=Severity.FIX,
    why="Batteries lose charge by themselves and to a parked vehicle; an old reading says how it was.",
    remedy="Read every battery again within the week before departure.",
    sources=(
        STALE_AFTER_DAYS.source,
        Source(Tag.READ, "TM 5-3820-256-24-4: a stored wet battery is checked every 30 days"),
    ),
    check=check,
    good=example.whole,
    bad=lambda: example.with_reading("south-main", taken_at=datetime(2027, 2, 26, 8, 0)),  # noqa: DTZ001
)
