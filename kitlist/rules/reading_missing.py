"""reading-missing: a travelling battery whose charge nobody has measured."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """One gap for all travelling batteries of the bank without a reading, stop, and one for the others, fix."""
    unread = [name for name, battery in case.outlook.batteries_to_read.items() if battery.reading is None]
    in_bank = [name for name in unread if name in case.trip.bank]
    for names, severity in ((in_bank, None), ([name for name in unread if name not in in_bank], Severity.FIX)):
        if names:
            alone = len(names) == 1
            yield Gap(
                subject=names[0],
                what=f"{listed(names)} {'has' if alone else 'have'} no reading: {'its' if alone else 'their'} charge "
                "is not known",
                remedy=f"Let {'it' if alone else 'each'} rest 6 h or more, and read its volts and temperature.",
                command=f"kitlist volts {quoted(names[0])} VOLTS --rested HOURS --temp DEGREES",
                also=tuple(names[1:]),
                known=False,
                severity=severity,
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
