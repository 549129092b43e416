"""no-bank-chosen: a trip for which nobody has said which batteries weld."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import shades_waiting


def check(case: Case) -> Iterator[Gap]:
    """A gap where the trip has no bank, or a bank with a battery that does not travel."""
    if not case.trip.bank:
        yield Gap(
            subject=case.trip.name,
            what=f"No bank is chosen: nobody knows which batteries to link{shades_waiting(case)}",
            remedy="Choose two or three batteries that travel, in linking order.",
            command=f"kitlist trip edit {quoted(case.trip.name)} bank=FIRST,SECOND,THIRD",
            measured=0,
            required=2,
            unit="batteries",
        )
        if case.trip.wet is None:
            yield Gap(
                subject=case.trip.name,
                what=f"Nobody has said whether the welding may be wet: until then no bank over "
                f"{case.limits.wet_limit_v:g} V is offered",
                remedy="Write down whether it may be.",
                command=f"kitlist trip edit {quoted(case.trip.name)} wet=ANSWER",
                known=False,
                severity=Severity.FIX,
                doing=Doing.ASK,
            )
        return
    travelling = {battery.name for battery in case.kit.travelling(case.trip)}
    for name in case.trip.bank:
        if name not in travelling:
            yield Gap(
                subject=name,
                what=f"{name} is in the bank, but its vehicle does not go on the trip",
                remedy="Take its vehicle along, or choose another battery.",
            )


RULE = Rule(
    name="no-bank-chosen",
    title="No bank chosen",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Everything else hangs on the bank: volts, current, links, rods, filter. Choose it at home.",
    remedy="Choose two or three batteries that travel, in linking order.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_trip(bank=()),
)
