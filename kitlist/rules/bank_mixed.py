"""bank-mixed: unlike batteries in one bank."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from kitlist.base.sources import PRACTICE
from kitlist.outlook import BatteryOutlook
from kitlist.physics import figures
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """One gap that lists how the batteries of the bank are unlike."""
    batteries = [b for b in case.outlook.bank_batteries if not b.refusal]
    unlike = [*_chemistries(batteries), *_sizes(batteries), *_charges(batteries), *_ages(batteries)]
    if unlike:
        yield Gap(
            subject="bank",
            what=f"Unlike batteries in one bank: {'; '.join(unlike)}",
            remedy="Watch the weakest with the voltmeter while welding; afterwards charge each alone.",
        )


def _chemistries(batteries: list[BatteryOutlook]) -> Iterator[str]:
    kinds = sorted({b.battery.chemistry.words for b in batteries} - {"unknown"})
    if len(kinds) > 1:
        yield " and ".join(kinds)


def _sizes(batteries: list[BatteryOutlook]) -> Iterator[str]:
    sizes = [b.battery.c20_ah for b in batteries if b.battery.c20_ah]
    if sizes and min(sizes) < max(sizes) * (1 - figures.MATCH_CAPACITY.value):
        yield f"{min(sizes):g} to {max(sizes):g} Ah, over {figures.MATCH_CAPACITY.value * 100:.0f} % apart"


def _charges(batteries: list[BatteryOutlook]) -> Iterator[str]:
    charges = [b.charge.soc_ratio.best for b in batteries if b.charge.soc_ratio]
    if charges and max(charges) - min(charges) > figures.MATCH_CHARGE.value:
        low, high = min(charges) * 100, max(charges) * 100
        yield f"{low:.0f} to {high:.0f} % charged, over {figures.MATCH_CHARGE.value * 100:.0f} points apart"


def _ages(batteries: list[BatteryOutlook]) -> Iterator[str]:
    since = [b.battery.in_service_since for b in batteries if b.battery.in_service_since]
    apart = max(((b - a).days / 365.25 for a, b in combinations(sorted(since), 2)), default=0.0)
    if apart > figures.MATCH_AGE_YEARS.value:
        yield f"{apart:.1f} years apart in age"


def _smaller(c20_ah: float) -> Example:
    """The whole kit with one battery of another size, and no more rods than that one then gives."""
    one = example.with_battery("north-main", c20_ah=c20_ah)
    return replace(one, kit=replace(one.kit, rods=(example.rod("thick rods", count=5),)))


RULE = Rule(
    name="bank-mixed",
    title="Unlike batteries in one bank",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why="The same current goes through all: the weakest is drained first and may be harmed. For a few rods a mixed "
    "bank is taken as it is, and watched.",
    remedy="Prefer batteries of one kind, size, age and charge.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: _smaller(64),
    bad=lambda: _smaller(63),
)
