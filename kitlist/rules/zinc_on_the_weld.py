"""zinc-on-the-weld: a repair on galvanised or plated steel; the zinc goes before the arc does."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import Steel
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.steel import zinc_named


def zinced(case: Case) -> list[str]:
    """The repairs on the list, of those that may be welded, that are under zinc or are called so."""
    return [
        outlook.repair.name
        for outlook in case.outlook.repairs
        if outlook.repair_class is not RepairClass.NEVER
        and (outlook.repair.steel is Steel.GALVANISED or zinc_named(f"{outlook.repair.name} {outlook.repair.part}"))
    ]


def check(case: Case) -> Iterator[Gap]:
    """A note for each such repair; whether the masks are good enough mask-missing says."""
    for name in zinced(case):
        yield Gap(
            subject=name,
            what=f"{name} is under zinc: its fume gives metal fume fever hours later",
            remedy="Grind to bare steel 50 mm each side of the weld, both faces; upwind, in a P2, FFP2 or better mask.",
        )


RULE = Rule(
    name="zinc-on-the-weld",
    title="Zinc on the steel to be welded",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why=(
        "Zinc boils off ahead of the weld: fever the same night, pores in the weld. Welders' limit for zinc oxide is "
        "5 mg/m³ over a shift."
    ),
    remedy="Zinc off 50 mm each side, 25 mm at the very least, both faces; upwind; a P2, FFP2 or better mask.",
    sources=(
        Source(Tag.SECOND_HAND, "AWS Safety Fact Sheet 25: zinc oxide 5 mg/m³ over 8 h, fever hours later"),
        PRACTICE,
    ),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(steel=Steel.GALVANISED),
)
