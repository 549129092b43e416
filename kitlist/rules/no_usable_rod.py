"""no-usable-rod: rods are packed, and none of them may be welded with as it is."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import RodCondition
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.welding.rods.storage import ANNEX, D1_1, Fitness


def none_usable(case: Case) -> bool:
    """Whether rods are packed and none is usable: then this rule speaks of every packet, and the milder ones do not."""
    packed = case.outlook.rods
    return bool(packed) and not any(rod.usable and rod.range is not None for rod in packed)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packet where all are wet, spoiled, too long open, still to be dried, or not known."""
    if not none_usable(case):
        return
    for rod in case.outlook.rods:
        packet = rod.packet
        known = packet is not None and rod.range is not None
        yield Gap(
            subject=rod.rod.name,
            what=f"No packed rod may be welded with as it is; {rod.rod.name} ({rod.words}): "
            + (f"{packet.fitness}. {packet.why}" if packet and known else f"not known: {rod.not_known[0]}"),
            remedy=packet.remedy if packet and known else "Read the packet again, or pack another.",
            doing=Doing.BAKE if packet and known and packet.fitness in (Fitness.DRY, Fitness.BAKE) else None,
            known=known,
        )


RULE = Rule(
    name="no-usable-rod",
    title="No rod that may be welded with",
    severity=Severity.STOP,
    doing=Doing.GET,
    mark="not usable",
    why="A wet or spoiled covering gives a weld that looks whole and breaks; without a rod there is no kit.",
    remedy="One dry, known packet at the least.",
    sources=(D1_1, ANNEX, PRACTICE),
    check=check,
    good=example.whole,
    bad=lambda: example.with_kit(rods=(example.rod("thick rods", condition=RodCondition.WET),)),
)
