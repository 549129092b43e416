"""reading-stale: a reading too old for the departure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from kitlist.base.measures import counted
from kitlist.base.sources import Source, Tag
from kitlist.kit.limits import standard
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery whose newest rested reading is over the limit before departure."""
    most_days = case.limits.stale_after_days
    for name, battery in case.outlook.batteries_to_read.items():
        if battery.days_before_start is not None and battery.days_before_start > most_days:
            yield Gap(
                subject=name,
                what=f"{name} was last read {counted(battery.days_before_start, 'day')} before departure; "
                f"{most_days:g} at the most",
                remedy="Read it again, rested 6 h or more.",
                command=f"kitlist volts {quoted(name)} VOLTS --rested HOURS --temp DEGREES",
                measured=battery.days_before_start,
                required=most_days,
                unit="days",
            )


RULE = Rule(
    name="reading-stale",
    title="Reading too old",
    severity=Severity.FIX,
    doing=Doing.READ,
    why="Batteries lose charge by themselves and to a parked vehicle; an old reading says how it was.",
    remedy="Read every battery again within the week before departure.",
    sources=(
        standard().figure("stale_after_days").source,
        Source(Tag.READ, "TM 5-3820-256-24-4: a stored wet battery is checked every 30 days"),
    ),
    check=check,
    numbers=("stale_after_days",),
    good=example.whole,
    bad=lambda: example.with_reading("south-main", taken_at=datetime(2027, 2, 26, 8, 0)),  # noqa: DTZ001
)
