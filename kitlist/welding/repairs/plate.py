"""Which rod diameter suits a steel thickness, and how big a fillet one pass lays."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import ceil

from kitlist.base.errors import OutOfRange
from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE, Source, Tag, row_source, sourced, table
from kitlist.base.terms import Joint, Position
from kitlist.welding.rods.currents import MACHINERYS, nominal_size_mm

FLOOR_MM = 2.0
"""Thinnest steel for a bank of batteries. Common practice."""
ROOT_RODS_MM = (2.5, 3.2)
"""Rods for the root of any groove. Common practice."""
THICKEST_MM = 25.0
"""The table of rod by plate is not carried beyond this: a trackside repair is not that thick."""


class Size(StrEnum):
    """How a rod's diameter sits with a steel thickness."""

    RIGHT = "right"
    STRETCH = "only just"
    TOO_THICK = "too thick"
    TOO_THIN = "too thin"
    STEEL_TOO_THIN = "steel too thin"


@dataclass(frozen=True, slots=True)
class SizeFit:
    """The judgement and why, with the diameters that would be right."""

    size: Size
    why: str
    source: Source


@sourced(MACHINERYS, PRACTICE)
def fit_diameter(
    *, rod_mm: float, thickness_mm: float, joint: Joint = Joint.FILLET, position: Position = Position.FLAT
) -> SizeFit:
    """How a rod's diameter sits with the thinnest part of a joint, 1 to 25 mm.

    A thickness on the border of two rows of the table takes both. The root of a V takes 2.5 or 3.2 mm whatever the
    plate. A rod thicker than the plate is never right, only just. Under 2 mm a battery bank is too hot for any rod.

    >>> fit_diameter(rod_mm=3.2, thickness_mm=6.0).size.value, fit_diameter(rod_mm=4.0, thickness_mm=3.0).size.value
    ('right', 'too thick')
    """
    size_mm = nominal_size_mm(rod_mm)
    rows = [
        row
        for row in table("rod_for_plate")
        if float(row["plate_from_mm"]) <= thickness_mm <= float(row["plate_to_mm"])
    ]
    if not rows:
        raise OutOfRange(f"steel of {thickness_mm:g} mm is outside the table of rod by plate, 1 to {THICKEST_MM:g} mm")
    low_mm = min(float(row["rod_from_mm"]) for row in rows)
    high_mm = max(float(row["rod_to_mm"]) for row in rows)
    source = row_source(rows[-1])
    if joint is Joint.SINGLE_V:
        low_mm = min(low_mm, ROOT_RODS_MM[0])
    right = f"{low_mm:g} mm" if low_mm == high_mm else f"{low_mm:g} to {high_mm:g} mm"
    steel = f"{with_unit(thickness_mm, 'mm')} steel"
    if thickness_mm < FLOOR_MM:
        why = f"{steel} burns through on batteries, {FLOOR_MM:g} mm is the floor: bolt or strap it"
        return SizeFit(Size.STEEL_TOO_THIN, why, PRACTICE)
    if size_mm < low_mm:
        why = f"{rod_mm:g} mm is thin for {steel}: shallow, many passes; {right} is usual"
        return SizeFit(Size.TOO_THIN, why, source)
    if size_mm <= high_mm and size_mm > thickness_mm:
        why = f"{rod_mm:g} mm is thicker than the {steel}: only at the low end, with a quick hand"
        return SizeFit(Size.STRETCH, why, PRACTICE)
    if size_mm <= high_mm:
        root = " (root of the V)" if joint is Joint.SINGLE_V and size_mm in ROOT_RODS_MM else ""
        return SizeFit(Size.RIGHT, f"{rod_mm:g} mm suits {steel}{root}", source)
    flat = position not in (Position.VERTICAL, Position.VERTICAL_DOWN, Position.OVERHEAD)
    stretch = [row for row in rows if row["stretch_rod_mm"] and float(row["stretch_rod_mm"]) == size_mm]
    if stretch and flat and joint is not Joint.SINGLE_V:
        why = f"{rod_mm:g} mm is big for {steel}: {stretch[-1]['stretch_words']}; {right} is usual"
        return SizeFit(Size.STRETCH, why, PRACTICE)
    why = f"{rod_mm:g} mm is too thick for {steel}: it burns through or lies on top; {right} is usual"
    return SizeFit(Size.TOO_THICK, why, source)


def plate_for_rod(*, rod_mm: float) -> tuple[float, float]:
    """Thinnest and thickest steel for which a rod's diameter is the usual one, mm, by the table of rod by plate.

    A diameter that is usual for none (5 mm) has the steel for which it is only just right.

    >>> plate_for_rod(rod_mm=3.2)
    (3.0, 8.0)
    """
    size_mm = nominal_size_mm(rod_mm)
    rows = [row for row in table("rod_for_plate") if float(row["rod_from_mm"]) <= size_mm <= float(row["rod_to_mm"])]
    if not rows:
        rows = [row for row in table("rod_for_plate") if row["stretch_rod_mm"] == f"{size_mm:.1f}"]
    if not rows:
        raise OutOfRange(f"a rod of {rod_mm:g} mm is in no row of the table of rod by plate")
    low_mm = max(FLOOR_MM, min(float(row["plate_from_mm"]) for row in rows))
    return low_mm, max(float(row["plate_to_mm"]) for row in rows)


@sourced(PRACTICE)
def single_pass_leg_mm(rod_mm: float) -> tuple[float, float]:
    """Least and greatest fillet leg that one pass of this rod lays, mm; 2.0 to 4.0 mm rods.

    >>> single_pass_leg_mm(3.2)
    (4.0, 5.0)
    """
    size_mm = nominal_size_mm(rod_mm)
    for row in table("fillet_legs"):
        if float(row["rod_mm"]) == size_mm:
            return float(row["leg_from_mm"]), float(row["leg_to_mm"])
    raise OutOfRange(f"no single-pass leg is known for a rod of {rod_mm:g} mm; held: 2 to 4 mm")


_HOT_PLATE_MM = ((2.0, 2.0), (2.5, 2.5), (3.2, 4.0), (4.0, 6.0))
"""Rod and the steel that it is right for at the top of its range, mm. Common practice."""


@sourced(PRACTICE, Source(Tag.MEMORY, "cooling of a weld with heat input to the power 4/3, Jackson"))
def steel_when_hot(*, rod_mm: float, likely_a: float, top_a: float) -> float:
    """The thinnest steel for a rod whose likely current is over its top, mm up to half a millimetre.

    t = t0 (I / top)^(4/3); the rod's own at or under its top.

    >>> steel_when_hot(rod_mm=3.2, likely_a=195.0, top_a=130.0)
    7.0
    """
    size_mm = nominal_size_mm(rod_mm)
    least_mm = next((plate for rod, plate in _HOT_PLATE_MM if size_mm <= rod + 0.05), _HOT_PLATE_MM[-1][1])
    ratio = max(1.0, likely_a / top_a)
    thick_mm: float = least_mm * ratio ** (4 / 3)
    return ceil(2 * thick_mm - 1e-9) / 2
