"""rod-not-tested: rods without an exposure limit that nobody has tried."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import noted
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.rod_damp import SPOILED
from kitlist.welding.rods.storage import Fitness


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packet that is not known to be dry, basic ones apart, or whose note speaks of damage."""
    for rod in case.outlook.rods:
        packet, designation = rod.packet, rod.designation
        if packet is None or designation is None or rod.rod.condition in SPOILED:
            continue
        if noted("rod damage", rod.rod.note) and packet.fitness is Fitness.GOOD:
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name} ({rod.words}): its note says '{rod.rod.note}', and it is written down as "
                f"{rod.rod.condition}",
                remedy="Bend and tap one: a covering that cracks, flakes or sounds dull is scrap"
                + (", and low-hydrogen rods that may be damp are baked once. " if designation.low_hydrogen else ". ")
                + "Then put its condition or its note right.",
                command=f"kitlist rod edit {quoted(rod.rod.name)} condition=WORD note=WORDS",
                known=False,
            )
        elif packet.fitness is not Fitness.GOOD and not designation.low_hydrogen:
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name} ({rod.words}): {packet.fitness}. {packet.why}",
                remedy=packet.remedy,
                known=False,
            )


RULE = Rule(
    name="rod-not-tested",
    title="Rods that nobody has tried",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="Rods from an open carton are damp until somebody has tapped, bent and struck one.",
    remedy="Try one of each packet before the trip, and keep them in a dry tube.",
    sources=(PRACTICE,),
    check=check,
    mark="not tested",
    mark_not_known="not tested",
    good=example.whole,
    bad=lambda: example.with_kit(
        rods=(example.rod("thick rods", storage=RodStorage.CARTON, condition=RodCondition.UNKNOWN),)
    ),
)
