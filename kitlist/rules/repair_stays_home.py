"""repair-stays-home: a repair on the list of a vehicle that does not go."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.kit import Vehicle
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.repair_never import without_command


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair whose vehicle is not on this trip."""
    for outlook in case.outlook.repairs:
        repair = outlook.repair
        if repair.vehicle is not None and repair.vehicle not in case.trip.vehicles:
            yield Gap(
                subject=repair.name,
                what=f"{repair.name} is a repair of {repair.vehicle}, and {repair.vehicle} does not go",
                remedy="Take it off this trip's list, or take the vehicle along.",
                command=without_command(case, repair.name),
            )


def _of(vehicle: str) -> Example:
    found = example.with_repair(vehicle=vehicle)
    return replace(found, kit=replace(found.kit, vehicles=(*found.kit.vehicles, Vehicle(name="East"))))


RULE = Rule(
    name="repair-stays-home",
    title="A repair of a vehicle that stays at home",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="Rods and steel are counted for a repair that cannot come up, and not for the vehicles that go.",
    remedy="The list holds the repairs of the vehicles that go.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: _of("South"),
    bad=lambda: _of("East"),
)
