"""no-battery-left-to-start: a bank that takes every travelling vehicle's starting battery."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.outlook.starters import lent, takes_every_start
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap where the bank takes of every vehicle what it starts on."""
    if takes_every_start(case.kit, case.trip):
        from kitlist.outlook.options.plan import plan_for  # a planner, for the few kits that ask for another bank

        taken = [name for one in lent(case.kit, case.trip) for name in one.taken]
        others = plan_for(case.kit, case.trip, on=case.on, changes=False).offers
        other = next((offer.words for offer in others if not offer.takes_every_start), "")
        yield Gap(
            subject="bank",
            what=f"The bank takes starting batteries of every vehicle: {listed(taken)}; no vehicle is left that starts",
            remedy=f"Leave one vehicle's battery out: {other} serves."
            if other
            else "No other bank of these batteries serves: take a second or a loose battery, or one more vehicle, "
            "along. Or take a charged starter pack that is in no bank, see it start an engine before the trip, and put "
            "one vehicle's battery back first.",
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
