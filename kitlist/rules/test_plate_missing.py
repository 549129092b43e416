"""test-plate-missing: no scrap as thick as the repairs, for a bead before the real one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed, missing, tools
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap where no scrap plate is packed, or none within the limit of a repair's thickness."""
    plates = tools(case.kit, ToolKind.SCRAP_PLATE)
    within_mm = case.limits.test_plate_within_mm
    if not plates:
        yield missing("scrap plate for a test bead", "Pack an off-cut as thick as each repair.")
        return
    known = [plate.thickness_mm for plate in plates if plate.thickness_mm is not None]
    thick = {
        o.repair.thickness_mm
        for o in case.outlook.repairs
        if o.repair.thickness_mm is not None and o.repair_class is not RepairClass.NEVER
    }
    lacking = sorted(mm for mm in thick if all(abs(mm - plate) > within_mm for plate in known))
    if lacking:
        yield Gap(
            subject=plates[0].name,
            what=f"No scrap within {within_mm:g} mm of {listed([f'{mm:g} mm' for mm in lacking])}"
            f"{'' if known else '; the thickness of what is packed is not known'}",
            remedy="Pack an off-cut of each thickness: current, arc length and rod are tried on it first.",
            measured=len(lacking),
            required=0,
            unit="thicknesses without scrap",
            known=bool(known),
        )


def _plate(thickness_mm: float) -> Example:
    example_ = example.with_repair()
    tools_ = tuple(
        replace(tool, thickness_mm=thickness_mm) if tool.what is ToolKind.SCRAP_PLATE else tool
        for tool in example_.kit.tools
    )
    return replace(example_, kit=replace(example_.kit, tools=tools_))


RULE = Rule(
    name="test-plate-missing",
    title="No plate for the test bead",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why=("The first bead from a bank is always wrong. It belongs on scrap of the same thickness, not on the hanger."),
    remedy="A test bead on scrap, looked at and hammered, before the real one.",
    sources=(PRACTICE,),
    check=check,
    asks_for=(ToolKind.SCRAP_PLATE,),
    good=lambda: _plate(7),
    bad=lambda: _plate(6.9),
    numbers=("test_plate_within_mm",),
)
