"""gloves-missing: bare hands at the arc."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear, missing
from kitlist.welding.rods.skin import EN_12477


def check(case: Case) -> Iterator[Gap]:
    """A gap where no gloves are packed."""
    if not gear(case.kit, GearKind.GLOVES):
        yield missing(
            "welding gloves", "Pack dry leather gauntlets, EN 12477 type A, two pairs if there is room.", unit="pairs"
        )


RULE = Rule(
    name="gloves-missing",
    title="No welding gloves",
    severity=Severity.STOP,
    doing=Doing.GET,
    why=("Ultraviolet, spatter and a rod stub at red heat; and dry leather is what keeps the current out of the hand."),
    remedy="Dry gauntlets, also to change rods.",
    sources=(
        EN_12477,
        Source(Tag.READ, "TC 9-237: sweat and shock"),
    ),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_gear(GearKind.GLOVES),
)
