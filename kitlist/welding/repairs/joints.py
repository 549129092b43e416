"""Weld metal that a joint takes: section, mass per metre, passes. Geometry, with the cap that a hand-run bead has."""

from __future__ import annotations

import math
from dataclasses import dataclass

from kitlist.base.errors import OutOfRange
from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE, Figure, Source, Tag, sourced
from kitlist.base.terms import Joint
from kitlist.welding.repairs.plate import single_pass_leg_mm
from kitlist.welding.rods.consumption import STEEL_G_MM3

GEOMETRY = Source(Tag.DERIVED, "geometry of the joint")
CONVEXITY = Figure("metal over the flat fillet", 0.10, "of section", PRACTICE, 0.0, 0.20)
CAP = Figure("height of a cap", 1.0, "mm", PRACTICE, 0.5, 2.0)
OVERLAP_MM = 2.0
"""A cap is this much wider than the opening, both edges together. Common practice."""
_LEGS_MM = (1.0, 25.0)
_PLATES_MM = (1.0, 25.0)


@dataclass(frozen=True, slots=True)
class WeldMetal:
    """What one run of joint takes: section in mm2 and mass in g for each metre; a plug: for each plug."""

    joint: Joint
    section_mm2: float
    each_g: float
    words: str
    edges: int = 1

    def mass_g(self, *, length_mm: float = 0.0, count: int = 1) -> float:
        """Weld metal, g: for so many mm of joint, or for so many plugs.

        >>> round(fillet(leg_mm=5.0, convexity_ratio=0.0).mass_g(length_mm=200.0), 1)
        19.6
        """
        if self.joint is Joint.PLUG:
            return self.each_g * count
        return self.each_g * length_mm / 1000 * count


def _within(value: float, limits: tuple[float, float], *, what: str) -> None:
    if not limits[0] <= value <= limits[1]:
        raise OutOfRange(f"{what} of {value:g} mm is outside {limits[0]:g} to {limits[1]:g} mm")


def _seam(joint: Joint, section_mm2: float, words: str, edges: int = 1) -> WeldMetal:
    return WeldMetal(joint, section_mm2, section_mm2 * 1000 * STEEL_G_MM3, words, edges)


@sourced(GEOMETRY)
def throat_mm(leg_mm: float) -> float:
    """Throat of an equal-leg fillet, mm: leg over the root of two.

    >>> round(throat_mm(5.0), 2)
    3.54
    """
    return leg_mm / math.sqrt(2)


@sourced(GEOMETRY, PRACTICE)
def fillet(
    *, leg_mm: float | None = None, throat_mm: float | None = None, convexity_ratio: float = CONVEXITY.value
) -> WeldMetal:
    """An equal-leg fillet by leg OR throat (1 to 25 mm leg): z²/2 = a², plus the convexity of a hand-run bead.

    >>> w = fillet(leg_mm=5.0, convexity_ratio=0.0)
    >>> w.section_mm2, round(w.each_g)
    (12.5, 98)
    """
    if (leg_mm is None) == (throat_mm is None):
        raise OutOfRange("a fillet is given by its leg or by its throat, one of the two")
    leg = leg_mm if leg_mm is not None else (throat_mm or 0.0) * math.sqrt(2)
    _within(leg, _LEGS_MM, what="a fillet leg")
    return _seam(Joint.FILLET, leg**2 / 2 * (1 + convexity_ratio), f"{leg:.1f} mm leg fillet")


@sourced(GEOMETRY, PRACTICE)
def lap(*, thickness_mm: float, sides: int = 1, convexity_ratio: float = CONVEXITY.value) -> WeldMetal:
    """A lap: on each welded edge a fillet whose leg is the upper plate, 1 to 25 mm.

    >>> round(lap(thickness_mm=4.0, sides=2, convexity_ratio=0.0).section_mm2, 1)
    16.0
    """
    if sides not in (1, 2):
        raise OutOfRange(f"a lap welded on {sides} edges: 1 or 2")
    one = fillet(leg_mm=thickness_mm, convexity_ratio=convexity_ratio)
    words = f"{with_unit(thickness_mm, 'mm')} lap, {sides} edge{'s' * (sides - 1)}"
    return _seam(Joint.LAP, one.section_mm2 * sides, words, sides)


@sourced(GEOMETRY, PRACTICE)
def square_butt(
    *, thickness_mm: float, gap_mm: float | None = None, sides: int = 1, cap_mm: float = CAP.value
) -> WeldMetal:
    """A square butt, 1 to 8 mm: gap times plate, and a cap (two thirds of width times height) on each welded side.

    `gap_mm` None: half the plate, at most 3 mm (common practice). One side only to 3 mm, thicker from both.

    >>> round(square_butt(thickness_mm=3.0, gap_mm=1.5).section_mm2, 1)
    6.8
    """
    _within(thickness_mm, (1.0, 8.0), what="a square butt in plate")
    if sides not in (1, 2):
        raise OutOfRange(f"a butt welded from {sides} sides: 1 or 2")
    gap = min(thickness_mm / 2, 3.0) if gap_mm is None else gap_mm
    _within(gap, (0.0, 6.0), what="a gap")
    section = gap * thickness_mm + sides * _cap_mm2(gap, cap_mm)
    return _seam(Joint.SQUARE_BUTT, section, f"{with_unit(thickness_mm, 'mm')} square butt, {with_unit(gap, 'mm')} gap")


@sourced(GEOMETRY, PRACTICE)
def single_v(
    *,
    thickness_mm: float,
    angle_deg: float = 60.0,
    gap_mm: float = 0.0,
    root_face_mm: float = 0.0,
    cap_mm: float = CAP.value,
) -> WeldMetal:
    """A single V, 3 to 25 mm, 40 to 90 degrees in all: gap times plate, the V above the root face, and the cap.

    >>> round(single_v(thickness_mm=6.0, cap_mm=0.0).section_mm2, 2)
    20.78
    """
    _within(thickness_mm, (3.0, _PLATES_MM[1]), what="a V in plate")
    if not 40 <= angle_deg <= 90:
        raise OutOfRange(f"a V of {angle_deg:g} degrees: 40 to 90")
    _within(gap_mm, (0.0, 6.0), what="a gap")
    if not 0 <= root_face_mm < thickness_mm:
        raise OutOfRange(f"a root face of {root_face_mm:g} mm: 0 to less than the plate's {thickness_mm:g} mm")
    depth = thickness_mm - root_face_mm
    half_width = depth * math.tan(math.radians(angle_deg / 2))
    section = gap_mm * thickness_mm + depth * half_width + _cap_mm2(gap_mm + 2 * half_width, cap_mm)
    return _seam(Joint.SINGLE_V, section, f"{with_unit(thickness_mm, 'mm')} V, {angle_deg:g} degrees")


def _cap_mm2(opening_mm: float, cap_mm: float) -> float:
    """A cap as a parabola over the opening and its overlap."""
    return 2 / 3 * (opening_mm + OVERLAP_MM) * cap_mm if cap_mm else 0.0


@sourced(GEOMETRY, PRACTICE)
def plug(*, hole_mm: float, thickness_mm: float, convexity_ratio: float = CONVEXITY.value) -> WeldMetal:
    """One plug weld: a round hole of 6 to 40 mm through a plate of 1 to 25 mm, filled, with a little crown.

    >>> round(plug(hole_mm=12.0, thickness_mm=4.0, convexity_ratio=0.0).each_g, 2)
    3.55
    """
    _within(hole_mm, (6.0, 40.0), what="a plug hole")
    _within(thickness_mm, _PLATES_MM, what="plate")
    section = math.pi / 4 * hole_mm**2
    each_g = section * thickness_mm * (1 + convexity_ratio) * STEEL_G_MM3
    return WeldMetal(
        Joint.PLUG, section, each_g, f"{with_unit(hole_mm, 'mm')} plug through {with_unit(thickness_mm, 'mm')}"
    )


@sourced(PRACTICE)
def passes(metal: WeldMetal, *, rod_mm: float) -> int:
    """Passes to lay a joint's section: no pass more than the biggest fillet that the rod lays in one.

    The limit is taken without convexity against a section with it, so a full single-pass leg counts as one pass up to
    the convexity of common practice (10 %). A plug is one pass round and round, counted as one.

    >>> passes(fillet(leg_mm=5.0), rod_mm=3.2), passes(fillet(leg_mm=8.0), rod_mm=3.2)
    (1, 3)
    """
    if metal.joint is Joint.PLUG:
        return 1
    _, most_mm = single_pass_leg_mm(rod_mm)
    most_mm2 = most_mm**2 / 2 * (1 + CONVEXITY.value)
    return metal.edges * math.ceil(metal.section_mm2 / metal.edges / most_mm2 - 1e-9)


@sourced(PRACTICE)
def usual_leg_mm(thickness_mm: float) -> float:
    """The fillet leg that a plate of 2 to 25 mm usually gets, mm: the thinner plate's thickness, at most 8.

    >>> usual_leg_mm(4.0)
    4.0
    """
    _within(thickness_mm, (1.0, 25.0), what="plate")
    return min(max(thickness_mm, 2.0), 8.0)
