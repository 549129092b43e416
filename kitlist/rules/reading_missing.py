"""reading-missing: a travelling battery whose charge nobody has measured."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery without a reading: stop in the bank, fix elsewhere."""
    for name, battery in case.outlook.batteries_to_read.items():
        if battery.reading is None:
            in_bank = name in case.trip.bank
            yield Gap(
                subject=name,
                what=f"{name} has no reading: its charge is not known",
                remedy="Let it rest 6 h or more, and read its volts and temperature.",
                command=f"kitlist volts {quoted(name)} VOLTS --rested HOURS --temp DEGREES",
                known=False,
                severity=None if in_bank else Severity.FIX,
            )


def _bad() -> Example:
    readings = tuple(r for r in example.whole().kit.readings if r.battery != "north-second")
    return example.with_kit(readings=readings)


RULE = Rule(
    name="reading-missing",
    title="No reading",
    severity=Severity.STOP,
    doing=Doing.READ,
    why="A battery that nobody measured may be flat: no arc, no engine, no way home.",
    remedy="Measure every battery that travels, rested, within the week before departure.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=_bad,
)
