"""repair-never: a repair on the trip's list that no weld may be trusted with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair whose part is never welded."""
    for outlook in case.outlook.repairs:
        if outlook.part is not None and outlook.repair_class is RepairClass.NEVER:
            yield Gap(
                subject=outlook.repair.name,
                what=f"{outlook.repair.name} must not be welded. {outlook.part.rule}",
                remedy="Take it off the list; carry the spare part, or plan to be fetched.",
                command=f"kitlist trip edit {quoted(case.trip.name)} repairs={_others(case, outlook.repair.name)}",
            )


def _others(case: Case, name: str) -> str:
    others = [repair for repair in case.trip.repairs if repair != name]
    return f'"{",".join(others)}"' if others else "none"


RULE = Rule(
    name="repair-never",
    title="A repair that must never be welded",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Wheels, brakes, tanks and pressure vessels kill when a weld on them lets go, or while it is made.",
    remedy="Spares, not welds.",
    sources=(
        Source(Tag.READ, "Michigan R 408.17235: wheels"),
        Source(Tag.READ, "Ontario alert on welding containers"),
        PRACTICE,
    ),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(part="wheel"),
    acceptable=False,
)
