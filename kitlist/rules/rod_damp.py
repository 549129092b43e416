"""rod-damp: a packet that is damp, wet or spoiled."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.terms import RodCondition
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.no_usable_rod import none_usable
from kitlist.welding.rods.storage import ANNEX, D1_1, Fitness

SPOILED = (RodCondition.DAMP, RodCondition.WET, RodCondition.DAMAGED)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed rod that was found damp, wet or damaged."""
    if none_usable(case):
        return  # no-usable-rod says what to do
    for rod in case.outlook.rods:
        if rod.packet is not None and rod.rod.condition in SPOILED:
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name} ({rod.words}): {rod.packet.fitness}. {rod.packet.why}",
                remedy=rod.packet.remedy,
                doing=Doing.BAKE if rod.packet.fitness in (Fitness.DRY, Fitness.BAKE) else None,
            )


RULE = Rule(
    name="rod-damp",
    title="Damp or spoiled rods",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Damp coverings give porous, cracking welds that look whole.",
    remedy="By covering: rutile is dried, basic is baked once, cellulosic never; wet rods are scrap.",
    sources=(D1_1, ANNEX),
    check=check,
    mark="damp",
    good=example.whole,
    bad=lambda: example.with_kit(
        rods=(*example.whole().kit.rods, example.rod("old rods", count=1, condition=RodCondition.DAMP))
    ),
)
