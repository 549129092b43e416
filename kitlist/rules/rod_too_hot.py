"""rod-too-hot: a packed rod that this bank overheats, beside others that suit it."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.outlook import RodOutlook
from kitlist.physics.bank.verdict import Fit
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """One gap that names every packed rod the bank is too hot for, where another rod will do."""
    if not any(rod.fit is not None and rod.fit.welds for rod in case.outlook.rods):
        return  # no-rod-for-bank says what to do
    hot = [rod for rod in case.outlook.rods if rod.fit is Fit.TOO_HOT]
    if hot:
        yield Gap(
            subject=hot[0].rod.name,
            what=f"This bank is too hot for {listed([_words(rod) for rod in hot])}",
            remedy="Keep it for a smaller bank: on this one it overheats and burns through the plate.",
            measured=len(hot),
            required=0,
            unit="kinds of rod too hot",
        )


def _words(rod: RodOutlook) -> str:
    if rod.band is None or rod.range is None:
        return rod.words
    return f"{rod.words} ({rod.band.low_a:.0f} to {rod.band.high_a:.0f} A, {rod.range.high_a:.0f} A at the most)"


RULE = Rule(
    name="rod-too-hot",
    title="A rod too thin for this bank",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why="A rod far over its range burns its covering off ahead of the arc, undercuts, and goes through the plate.",
    remedy="Match each rod to the bank, or keep it off this bank.",
    sources=(PRACTICE,),
    check=check,
    numbers=("hot_limit_ratio",),
    good=example.whole,
    bad=lambda: example.with_kit(
        rods=(*example.whole().kit.rods, example.rod("thin rods", diameter_mm=2.0, length_mm=300))
    ),
)
