"""arc-out-of-reach: a bank with too few volts to hold an arc with any rod that is packed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.outlook import RodOutlook
from kitlist.physics.bank.verdict import Fit
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where every packed rod that can be judged finds no arc on the bank."""
    judged, bank = _judged(case), case.outlook.bank
    if bank is None or bank.rested_v is None or not out_of_reach(case):
        return
    share = min(rod.band.no_arc_ratio for rod in judged if rod.band is not None)
    yield Gap(
        subject="bank",
        what=f"{bank.rested_v:.1f} V at rest cannot hold an arc: none in {share * 100:.0f} % of likely circumstances",
        remedy="Link one more battery in series where that is allowed, else weld nothing.",
        measured=round(share * 100),
        required=50,
        unit="% without an arc, at the most",
    )


def out_of_reach(case: Case) -> bool:
    """Whether every packed rod that can be judged finds no arc on the bank."""
    judged = _judged(case)
    return bool(judged) and all(rod.fit is Fit.NO_ARC for rod in judged)


def _judged(case: Case) -> list[RodOutlook]:
    return [rod for rod in case.outlook.rods if rod.fit is not None and rod.band is not None]


def _bad() -> Example:
    whole = example.whole()
    return replace(whole, trip=replace(whole.trip, bank=("north-second",)))


RULE = Rule(
    name="arc-out-of-reach",
    title="No arc from this bank",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="An arc takes 20 to 25 V however strong the battery. One battery never holds one; two hold it only when it "
    "is very short and the leads are thick.",
    remedy="Three in series.",
    sources=(Source(Tag.SECOND_HAND, "IEC 60974-1, conventional load voltage 20 + 0.04 I"), PRACTICE),
    check=check,
    good=example.whole,
    bad=_bad,
)
