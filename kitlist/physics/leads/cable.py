"""Resistance of a lead: conductor by area and metal, its temperature, and every joint that the current crosses."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import exp, log

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import Source, Tag, sourced, table
from kitlist.base.span import Span
from kitlist.base.terms import Conductor, Fitting
from kitlist.physics import figures

_STANDARD_C = 20.0
_SAME_JOINT = {
    Fitting.LUG_M6: "lug",
    Fitting.LUG_M8: "lug",
    Fitting.LUG_M10: "lug",
}


@cache
def _class5_points(column: str) -> tuple[tuple[float, float], ...]:
    return tuple((float(row["area_mm2"]), float(row[column])) for row in table("conductor_resistance"))


class MetalUse(StrEnum):
    """What a conductor's metal is asked for."""

    CURRENT = "the current that flows through it, and the heat that it has at the least"
    HEAT = "what it may carry, and how hot it may get"


def taken_as(conductor: Conductor, use: MetalUse) -> Conductor:
    """The metal to reckon with; of one that nobody named the careful one for the use.

    For the current copper: less resistance, so more current on eyes, steel, switch and batteries, and less of a
    measured drop that the conductor explains away. For heat copper-clad aluminium: it gets hotter and carries less.

    >>> [taken_as(Conductor.UNKNOWN, use).value for use in MetalUse]
    ['copper', 'copper-clad']
    """
    if conductor is not Conductor.UNKNOWN:
        return conductor
    return Conductor.COPPER if use is MetalUse.CURRENT else Conductor.COPPER_CLAD


@sourced(Source(Tag.SECOND_HAND, "IEC 60228, class 5, largest at 20 °C"))
def ohm_per_m(*, area_mm2: float, conductor: Conductor = Conductor.COPPER) -> float:
    """Largest DC resistance of a flexible conductor at 20 °C, ohm a metre.

    The table's areas exactly; between them (an AWG size, say) interpolated on the logarithms of area and resistance,
    which keeps the product of the two between that of its neighbours. Tinned copper has its own column; aluminium and
    copper-clad aluminium are copper times a factor; a conductor nobody named is copper here (`taken_as`).
    1.5 to 150 mm², as entry takes them.

    >>> round(ohm_per_m(area_mm2=25.0) * 1000, 3)
    0.78
    """
    column = "class5_tinned_mohm_per_m" if conductor is Conductor.TINNED_COPPER else "class5_mohm_per_m"
    points = _class5_points(column)
    if not points[0][0] <= area_mm2 <= points[-1][0]:
        raise OutOfRange(f"{area_mm2:g} mm² is outside the conductor table, {points[0][0]:g} to {points[-1][0]:g} mm²")
    return _log_between(points, area_mm2) / 1000 * conductor_factor(conductor).best


def _log_between(points: tuple[tuple[float, float], ...], area_mm2: float) -> float:
    below = max(point for point in points if point[0] <= area_mm2)
    above = min(point for point in points if point[0] >= area_mm2)
    if below == above:
        return below[1]
    share = log(area_mm2 / below[0]) / log(above[0] / below[0])
    return below[1] * exp(share * log(above[1] / below[1]))


def conductor_factor(conductor: Conductor) -> Span:
    """Resistance against copper of the same area, ratio; of a metal nobody named that of copper (`taken_as`).

    >>> conductor_factor(Conductor.COPPER_CLAD).best
    1.6
    """
    clad = Span.of(figures.COPPER_CLAD_FACTOR)
    return {
        Conductor.COPPER: Span.exactly(1.0),
        Conductor.TINNED_COPPER: Span.exactly(1.0),
        Conductor.ALUMINIUM: Span.exactly(figures.ALUMINIUM_FACTOR.value),
        Conductor.COPPER_CLAD: clad,
    }[taken_as(conductor, MetalUse.CURRENT)]


@sourced(figures.COPPER_TEMP.source)
def warmed(*, ohm_at_20c: float, temp_c: float) -> float:
    """Resistance at another temperature, ohm: R20 (1 + 0.00393 (T - 20)). Valid -40 to 200 °C, copper and aluminium.

    >>> round(warmed(ohm_at_20c=0.78, temp_c=85.0), 3)
    0.979
    """
    if not -40.0 <= temp_c <= 200.0:
        raise OutOfRange(f"a lead at {temp_c:g} °C is outside -40 to 200 °C")
    return ohm_at_20c * (1 + figures.COPPER_TEMP.value * (temp_c - _STANDARD_C))


@sourced(Source(Tag.PRACTICE, "contact resistances; a measured drop in mV at a known current replaces them"))
def joint(fitting: Fitting) -> Span:
    """Resistance of one joint, ohm: good, default and poor. A bare end is no joint: refused.

    >>> joint(Fitting.SPRING_CLAMP).best
    0.001
    """
    name = _SAME_JOINT.get(fitting, str(fitting))
    for row in table("joints"):
        if row["joint"] == name:
            good, default, poor = (float(row[f"{key}_mohm"]) / 1000 for key in ("good", "default", "poor"))
            return Span(good, default, poor)
    raise BadData(f"{fitting} is no joint that can carry a welding current", hint="fit a lug or a clamp to the end")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadRun:
    """A lead as the current sees it: total conductor length, area, metal, and the fittings that it crosses.

    `joints` names each joint once. `measured_ohm` is end to end with its joints and replaces all else. For the way out
    and back count both leads.
    """

    length_m: float
    area_mm2: float
    conductor: Conductor = Conductor.COPPER
    joints: tuple[Fitting, ...] = ()
    measured_ohm: float | None = None


def lead_resistance(lead: LeadRun, *, temp_c: float = 40.0) -> Span:
    """Resistance of a lead with its joints at a conductor temperature, ohm: low, best, high.

    Low and high hold length ± 10 %, a true area of 0.75 to 1 of the stated, and joints from good to poor.

    >>> round(lead_resistance(LeadRun(length_m=8.0, area_mm2=25.0), temp_c=40.0).best * 1000, 2)
    6.73
    """
    if lead.measured_ohm is not None:
        return Span.around(lead.measured_ohm, give_or_take=0.05 * lead.measured_ohm)
    if not 0.0 <= lead.length_m <= 120.0:
        raise OutOfRange(f"a lead of {lead.length_m:g} m in all is outside 0 to 120 m")
    joints = [joint(fitting) for fitting in lead.joints]
    best = warmed(ohm_at_20c=lead.length_m * ohm_per_m(area_mm2=lead.area_mm2, conductor=lead.conductor), temp_c=temp_c)
    factor = conductor_factor(lead.conductor)
    length, area = Span.of(figures.LEAD_LENGTH), Span.of(figures.LEAD_AREA)
    return Span(
        best * length.low / area.high * factor.low / factor.best + sum(span.low for span in joints),
        best + sum(span.best for span in joints),
        best * length.high / area.low * factor.high / factor.best + sum(span.high for span in joints),
    )
