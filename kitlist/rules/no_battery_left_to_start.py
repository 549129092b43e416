"""no-battery-left-to-start: a bank that takes every travelling vehicle's starting battery."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.outlook.bank import starting
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap where each starting battery of the trip is in the bank."""
    starters = [name for name in case.outlook.batteries if name in starting(case.outlook.batteries)]
    if starters and set(starters) <= set(case.trip.bank):
        yield Gap(
            subject="bank",
            what=f"The bank takes every starting battery: {listed(starters)}; no vehicle is left that starts",
            remedy="Leave one vehicle's battery out; choose a second or a loose battery in its place.",
            command=f"kitlist bank {quoted(case.trip.name)}",
            measured=0,
            required=1,
            unit="vehicles left that start",
        )


RULE = Rule(
    name="no-battery-left-to-start",
    title="No vehicle left that starts",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="After the weld somebody must start, to charge, to tow and to fetch help.",
    remedy="Keep at least one vehicle's battery out of the bank.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_trip(bank=("north-main", "north-second", "south-main")),
)
