"""mask-missing: nothing to keep fume out of the lungs."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.packing import gear, missing
from kitlist.sources import PRACTICE, Source, Tag
from kitlist.terms import (
    GearKind,
)


def check(case: Case) -> Iterator[Gap]:
    """A gap where no mask is packed."""
    if not gear(case.kit, GearKind.MASK):
        yield missing(
            "fume mask", "Pack P2 or FFP3 masks that fit under the helmet; and stay upwind, head out of the plume."
        )


RULE = Rule(
    name="mask-missing",
    title="No fume mask",
    severity=Severity.NOTE,
    why=("Welding fume causes cancer, mild steel's too; zinc off galvanised steel gives a fever the same night."),
    remedy="P2 or FFP3 under the helmet, upwind, paint and zinc ground off first.",
    sources=(
        Source(Tag.READ, "TWI on the HSE alert of 2019"),
        Source(Tag.SECOND_HAND, "AWS Safety Fact Sheet 25: zinc oxide"),
        PRACTICE,
    ),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_gear(GearKind.MASK),
)
