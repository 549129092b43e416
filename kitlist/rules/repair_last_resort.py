"""repair-last-resort: a repair on the list that gets a vehicle home at walking pace at best."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair of the last-resort class."""
    for outlook in case.outlook.repairs:
        if outlook.part is not None and outlook.repair_class is RepairClass.LAST_RESORT:
            yield Gap(
                subject=outlook.repair.name,
                what=f"{outlook.repair.name} is a last resort: {outlook.part.rule}",
                remedy="Carry the spare part if there is room; else splint it full length, walking pace, scrap it.",
            )


RULE = Rule(
    name="repair-last-resort",
    title="A repair that only limps home",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why=("Steering and suspension parts are hard steel: a weld draws their temper, and they break without a sign."),
    remedy="Carry the part. A weld on it is never a repair.",
    sources=(
        Source(Tag.READ, "US Army subcourse OD1651 p. 13, 16"),
        PRACTICE,
    ),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(part="tie rod", allowed_by="Ada, who builds axles"),
)
