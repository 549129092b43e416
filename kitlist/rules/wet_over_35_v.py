"""wet-over-35-v: a bank over 35 V where the welder may be wet, sweating or cramped."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.measures import told_apart
from kitlist.outlook.linkable import Bar
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.rulebook import WET_LIMIT_V


def check(case: Case) -> Iterator[Gap]:
    """A gap where the bank has more volts than the wet allows, and the trip is wet, or nobody has said."""
    for found in case.bars(Bar.WET, Bar.WET_NOT_SAID):
        wet, full_v, limit_v = found.bar is Bar.WET, found.volts_v or 0.0, found.limit_v or 0.0
        said = "the welding may be wet, sweaty or cramped" if wet else "nobody has said whether it may be wet"
        yield Gap(
            subject="bank",
            what=f"{told_apart(full_v, limit_v, places=1)[0]} V at rest and {said}: {limit_v:g} V at the most",
            remedy="Two batteries in the wet, or weld dry: mat, dry gloves, body off the steel."
            if wet
            else "Write down whether it may be; if so, choose two batteries.",
            command="" if wet else f"kitlist trip edit {quoted(case.trip.name)} wet=ANSWER",
            measured=round(full_v, 1),
            required=limit_v,
            unit="V",
            known=wet,
        )


RULE = Rule(
    name="wet-over-35-v",
    title="Over 35 V in the wet",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Wet skin, sweat and cramped places let a current through that dry hands do not.",
    remedy="Two batteries in series stay under the limit; three do not.",
    sources=(WET_LIMIT_V.source,),
    check=check,
    numbers=("wet_limit_v",),
    good=example.whole,
    bad=lambda: example.with_trip(wet=True),
    acceptable=False,
)
