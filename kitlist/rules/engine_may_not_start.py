"""engine-may-not-start: a starting battery that will not crank its engine on the coldest morning."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.kit import Vehicle
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each starting battery that does not crank by the best guess, or of which it cannot be told."""
    for name, battery in case.outlook.batteries_to_read.items():
        crank = battery.crank
        if crank is None or not battery.charge.known or crank.cranks:
            continue
        if crank.cranks is None:
            yield Gap(
                subject=name,
                what=f"{name}: whether it starts {battery.battery.vehicle} in the cold cannot be told: {crank.reason}",
                remedy="Write down its cranking rating and capacity, or have it load-tested.",
                known=False,
            )
            continue
        yield Gap(
            subject=name,
            what=f"{name} may not start {battery.battery.vehicle}: {crank.reason}",
            remedy="Even full it does not start it: replace it, or have it load-tested before leaving."
            if battery.never_cranks
            else "Charge it full and read again; if it is old, replace it or have it load-tested before leaving.",
            measured=round(crank.volts.best, 1) if crank.volts else None,
            required=crank.needed_v,
            unit="V",
        )


def _bad() -> Example:
    return example.with_kit(vehicles=(Vehicle(name="North", crank_a=250), Vehicle(name="South", crank_a=900)))


RULE = Rule(
    name="engine-may-not-start",
    title="An engine that may not start",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="The weld is for nothing if the vehicle stays where it is. Cold thickens oil and weakens the battery at once.",
    remedy="Charge, test or replace the battery.",
    sources=(Source(Tag.READ, "TM 5-4210-230-14&P-1, Table 5"), PRACTICE),
    check=check,
    good=example.whole,
    bad=_bad,
)
