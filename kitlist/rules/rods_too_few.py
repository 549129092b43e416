"""rods-too-few: fewer rods of the right kind than the repairs take."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packet that is chosen for the repairs and is too small for them."""
    wanted: dict[str, list[int]] = {}
    for outlook in case.outlook.repairs:
        if outlook.best is not None and outlook.best.needs is not None:
            wanted.setdefault(outlook.best.rod.rod.name, []).append(outlook.best.needs.rods.to_pack)
    days = case.trip.days_from_help
    far = days is not None and days > case.limits.far_days
    ratio = case.limits.far_rods_ratio if far else 1
    for rod in case.outlook.rods:
        asked = wanted.get(rod.rod.name, [])
        needed = ceil(sum(asked) * ratio)
        if rod.rod.count < needed:
            alone = ceil(max(asked) * ratio)
            together = f"the {len(asked)} repairs together take {needed}, the hardest of them {alone}"
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name}: {rod.rod.count} of {rod.words}, "
                f"{together if len(asked) > 1 else f'the repair takes {needed}'}"
                f"{', counting how far help is' if far else ''}",
                remedy=f"Pack {needed - rod.rod.count} more of the same packet.",
                measured=rod.rod.count,
                required=needed,
                unit="rods",
            )


def _packed(count: int) -> Example:
    """So many rods for one repair that takes four, as many as one charge surely burns."""
    one = example.with_repair(weld_length_mm=250)
    return replace(one, kit=replace(one.kit, rods=(example.rod("thick rods", count=count),)))


RULE = Rule(
    name="rods-too-few",
    title="Too few rods for the repairs",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=("A tenth of the rods is lost to sticking and restrikes, and a joint that is half welded carries nothing."),
    remedy="Rods for all the repairs on the list and a tenth more; half as many again when far from help.",
    sources=(
        PRACTICE,
        Source(Tag.DERIVED, "weld metal from the joint, deposit of a rod, ±20 %"),
    ),
    check=check,
    mark="short",
    good=lambda: _packed(4),
    bad=lambda: _packed(3),
    numbers=("far_days", "far_rods_ratio"),
)
