"""rods-of-two-polarities: packed rods that no single polarity suits."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import RodStorage
from kitlist.kit import Rod
from kitlist.outlook.hardware import allowed_polarities
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the packed rods leave no polarity that all of them allow."""
    rods = [rod for rod in case.outlook.rods if rod.designation is not None and rod.designation.polarities]
    if not allowed_polarities(rods):
        needs = "; ".join(
            f"{r.words}: {' or '.join(p.words for p in r.designation.polarities)}" for r in rods if r.designation
        )
        yield Gap(
            subject="rods",
            what=f"The packed rods need different polarities: {needs}",
            remedy="Leave one kind at home: one polarity a card, one way to wire it in the dark.",
        )


def _basic(count: int) -> Rod:
    """A sealed packet that runs with the holder on + alone."""
    return example.rod("plus", designation="E7018", storage=RodStorage.SEALED, opened_on=None, count=count)


RULE = Rule(
    name="rods-of-two-polarities",
    title="Rods of two polarities",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="The card shows one polarity. A rod on the wrong pole spatters, sticks and does not melt in.",
    remedy="Pack rods that all run with HOLDER TO +, or all with HOLDER TO −.",
    sources=(Source(Tag.MEMORY, "AWS A5.1, AWS A3.0"),),
    check=check,
    good=lambda: example.with_kit(rods=(example.rod("thick rods", count=4), _basic(2))),
    bad=lambda: example.with_kit(rods=(_basic(3), example.rod("minus", designation="E6012", count=3))),
)
