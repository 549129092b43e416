"""rod-open-too-long: low-hydrogen rods that have been in open air past their limit, or nobody knows how long."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.terms import RodStorage
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.no_usable_rod import none_usable
from kitlist.rules.rod_damp import SPOILED
from kitlist.welding.rods.storage import D1_1, Fitness


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packet of basic rods over its exposure, baked too often, or of unknown exposure."""
    if none_usable(case):
        return  # no-usable-rod says what to do
    for rod in case.outlook.rods:
        packet, designation = rod.packet, rod.designation
        if packet is None or designation is None or not designation.low_hydrogen or rod.rod.condition in SPOILED:
            continue
        if packet.fitness is not Fitness.GOOD:
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name} ({rod.words}): {packet.fitness}. {packet.why}",
                remedy=packet.remedy,
                measured=packet.exposed_h,
                required=packet.limit_h,
                unit="h",
                known=packet.exposed_h is not None,
            )


def _basic(exposed_h: float) -> Example:
    basic = example.rod("basic", designation="E7018", exposed_h=exposed_h, storage=RodStorage.CARTON, count=2)
    return example.with_kit(rods=(example.rod("thick rods", count=2), basic))


RULE = Rule(
    name="rod-open-too-long",
    title="Low-hydrogen rods open too long",
    severity=Severity.FIX,
    doing=Doing.BAKE,
    why="A basic covering drinks moisture from the air; the hydrogen cracks the weld hours after it was made.",
    remedy="Carry them sealed and use them the day they are opened, or leave them at home.",
    sources=(D1_1,),
    check=check,
    mark="stale",
    good=lambda: _basic(2.0),
    bad=lambda: _basic(2.1),
)
