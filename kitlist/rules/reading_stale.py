"""reading-stale: a reading too old for the departure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from kitlist.base.measures import counted
from kitlist.base.sources import Source, Tag
from kitlist.kit.limits import standard
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """One gap that names every travelling battery whose newest rested reading is over the limit before departure."""
    most_days = case.limits.stale_after_days
    old = {
        name: battery.days_before_start
        for name, battery in case.outlook.batteries_to_read.items()
        if battery.days_before_start is not None and battery.days_before_start > most_days
    }
    if old:
        names, oldest = list(old), max(old.values())
        first = max(case.on, case.trip.starts_on - timedelta(days=most_days))
        alone = len(names) == 1
        yield Gap(
            subject=names[0],
            what=f"{listed(names)} {'was' if alone else 'were'} last read {'' if alone else 'up to '}"
            f"{counted(oldest, 'day')} before departure; {most_days:g} at the most",
            remedy=f"Read {'it' if alone else 'each'} again, rested 6 h or more, "
            f"on {first.day} {first:%b %Y} or after.",
            command=f"kitlist volts {quoted(names[0])} VOLTS --rested HOURS --temp DEGREES",
            also=tuple(names[1:]),
            measured=oldest,
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
