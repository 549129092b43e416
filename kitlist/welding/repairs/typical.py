"""A break to be ready for, as a job of welding; and the starter list of typical ones (common practice)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Source, row_source, table
from kitlist.base.terms import Joint, Position, Steel
from kitlist.welding.repairs import joints
from kitlist.welding.repairs.joints import WeldMetal
from kitlist.welding.repairs.parts import Part, part


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A repair as welding sees it. None: not known, which is never taken for a pass."""

    part: str
    steel: Steel = Steel.UNKNOWN
    thickness_mm: float | None = None
    joint: Joint = Joint.FILLET
    position: Position = Position.FLAT
    leg_mm: float | None = None
    weld_length_mm: float | None = None
    load_bearing: bool | None = None
    allowed_by: str = ""  # who, that knows it, has said that a part no table knows may be welded


@dataclass(frozen=True, slots=True, kw_only=True)
class TypicalRepair:
    """One row of the starter list: a job with the thicknesses, rods and stock that are usual for it."""

    name: str
    job: Job
    thickness_from_mm: float | None
    thickness_to_mm: float | None
    rod_from_mm: float | None
    rod_to_mm: float | None
    approach: str
    preparation: str
    stock: tuple[str, ...]
    source: Source

    @property
    def part(self) -> Part:
        """The part, with its class and rule."""
        return part(self.job.part)


def _number(text: str) -> float | None:
    return float(text) if text else None


@cache
def typical_repairs() -> tuple[TypicalRepair, ...]:
    """The starter list. Thicknesses are usual, not measured: calipers decide.

    >>> [r.name for r in typical_repairs()][:2]
    ['spring hanger, torn', 'shock mount, torn']
    """
    return tuple(_typical(row) for row in table("repairs", "."))


def _typical(row: Mapping[str, str]) -> TypicalRepair:
    return TypicalRepair(
        name=row["name"],
        job=Job(
            part=row["part"],
            steel=Steel(row["steel"]),
            thickness_mm=_number(row["thickness_mm"]),
            joint=Joint(row["joint"]),
            position=Position(row["position"]),
            leg_mm=_number(row["leg_mm"]),
            weld_length_mm=_number(row["weld_length_mm"]),
            load_bearing=row["load_bearing"] == "1",
        ),
        thickness_from_mm=_number(row["thickness_from_mm"]),
        thickness_to_mm=_number(row["thickness_to_mm"]),
        rod_from_mm=_number(row["rod_from_mm"]),
        rod_to_mm=_number(row["rod_to_mm"]),
        approach=row["approach"],
        preparation=row["preparation"],
        stock=tuple(row["stock"].split("; ")),
        source=row_source(row),
    )


def weld_metal(job: Job) -> WeldMetal:
    """The section that a job's joint takes; `leg_mm` None: the leg that is usual for the thickness.

    A plug is taken as a hole of three times the plate, 10 to 20 mm (common practice). Raises OutOfRange where
    thickness is not known or outside what the joint covers.

    >>> round(weld_metal(Job(part="spring hanger", thickness_mm=5.0)).each_g)
    108
    """
    if job.thickness_mm is None:
        raise OutOfRange("the thickness is not known: measure it with calipers")
    thickness_mm = job.thickness_mm
    match job.joint:
        case Joint.FILLET:
            return joints.fillet(leg_mm=job.leg_mm or joints.usual_leg_mm(thickness_mm))
        case Joint.LAP:
            return joints.lap(thickness_mm=job.leg_mm or thickness_mm)
        case Joint.SQUARE_BUTT:
            return joints.square_butt(thickness_mm=thickness_mm, sides=1 if thickness_mm <= 3 else 2)
        case Joint.SINGLE_V:
            return joints.single_v(thickness_mm=thickness_mm, gap_mm=1.5)
        case Joint.PLUG:
            return joints.plug(hole_mm=min(max(3 * thickness_mm, 10.0), 20.0), thickness_mm=thickness_mm)


def weld_metal_g(job: Job) -> float:
    """Weld metal for a whole job, g: its joint over its weld length (a plug: one plug). Raises OutOfRange if not known.

    >>> round(weld_metal_g(Job(part="spring hanger", thickness_mm=5.0, weld_length_mm=160.0)), 1)
    17.3
    """
    metal = weld_metal(job)
    if job.joint is Joint.PLUG:
        return metal.mass_g()
    if job.weld_length_mm is None:
        raise OutOfRange("the weld length is not known: measure the break")
    return metal.mass_g(length_mm=job.weld_length_mm)
