"""no-rod-for-bank: every packed rod is too thin or too thick for the bank's current."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.outlook import RodOutlook
from kitlist.outlook.cures import rod_in_range
from kitlist.physics.bank.verdict import Fit
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed rod that is usable and can be judged is in range, or hot at the worst."""
    judged = [rod for rod in case.outlook.rods if rod.usable and rod.fit is not None]
    if not judged or any(rod.welds for rod in judged):
        return  # where no packet is usable no-usable-rod says what to do
    if all(rod.fit is Fit.NO_ARC for rod in judged):
        return  # arc-out-of-reach says what to do
    cure = rod_in_range(case.kit, case.trip, on=case.on)
    yield Gap(
        subject="rods",
        what=f"No packed rod suits this bank: {'; '.join(_words(rod) for rod in judged)}",
        remedy=f"Pack {cure} for this bank, {' → '.join(case.trip.bank)}."
        if cure
        else "Pack thicker rods for thicker steel, or choose fewer or smaller batteries; bare steel strip on bare "
        "earth as ballast, never an insulated lead."
        if any(rod.fit is Fit.TOO_HOT for rod in judged)
        else "Pack thinner rods, or link one more battery where that is allowed.",
    )


def _words(rod: RodOutlook) -> str:
    if rod.band is None or rod.range is None:
        return f"{rod.words} not known"
    return (
        f"{rod.words} {rod.fit} ({rod.band.low_a:.0f} to {rod.band.high_a:.0f} A, "
        f"its range {rod.range.low_a:.0f} to {rod.range.high_a:.0f})"
    )


RULE = Rule(
    name="no-rod-for-bank",
    title="No rod for this bank",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Too hot burns through the steel and the rod's covering; too cold sticks. Three batteries run hot for 2.5 and "
    "3.2 mm rods.",
    remedy="Match rod, steel and bank at home.",
    sources=(PRACTICE,),
    check=check,
    numbers=("hot_limit_ratio",),
    good=example.whole,
    bad=lambda: example.with_kit(rods=(example.rod("thin rods", diameter_mm=2.0, length_mm=300),)),
)
