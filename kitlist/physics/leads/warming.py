"""What a lead bears: its rating by duty, its warming in one rod, and what a jumper lead may be asked to do."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import exp, log, sqrt

from kitlist.base.errors import OutOfRange
from kitlist.base.measures import with_unit
from kitlist.base.sources import Source, Tag, sourced, table
from kitlist.base.span import between
from kitlist.base.terms import Conductor
from kitlist.physics import figures
from kitlist.physics.leads.cable import MetalUse, taken_as

_ADIABATIC = {"copper": (226.0, 234.5), "aluminium": (148.0, 228.0)}
_CABLE_LIMIT_C = 85.0
_LONGEST_DUTY = 1.0


@sourced(Source(Tag.MEMORY, "IEC 60949, adiabatic; 226 and 234.5 for copper, 148 and 228 for aluminium"))
def rise_per_rod(
    *, current_a: float, burn_s: float, area_mm2: float, start_c: float, conductor: Conductor = Conductor.COPPER
) -> float:
    """Warming of a conductor in one burn with no cooling, K: (Ti + 234.5)(exp(I² t / (226 S)²) - 1).

    An upper bound: over more than about a minute a real lead stays cooler. Copper-clad aluminium and a conductor
    nobody named are taken as aluminium. Current 0 to 3000 A, burn 0 to 600 s; over 250 K is refused as beyond any
    insulation (say "melts").

    >>> round(rise_per_rod(current_a=120.0, burn_s=1.0, area_mm2=25.0, start_c=30.0), 2)
    0.12
    """
    if not 0.0 <= current_a <= 3000.0 or not 0.0 <= burn_s <= 600.0 or area_mm2 <= 0.0:
        raise OutOfRange(
            f"{current_a:g} A for {burn_s:g} s in {area_mm2:g} mm² is outside 0-3000 A, 0-600 s, over 0 mm²"
        )
    k, beta = _adiabatic(conductor)
    exponent = current_a**2 * burn_s / (k * area_mm2) ** 2
    if exponent > 1.0:
        raise OutOfRange(f"{current_a:g} A for {burn_s:g} s melts the insulation of {area_mm2:g} mm²: past the model")
    return (start_c + beta) * (exp(exponent) - 1)


def _adiabatic(conductor: Conductor) -> tuple[float, float]:
    is_copper = taken_as(conductor, MetalUse.HEAT) in (Conductor.COPPER, Conductor.TINNED_COPPER)
    return _ADIABATIC["copper" if is_copper else "aluminium"]


@sourced(Source(Tag.MEMORY, "IEC 60949, adiabatic; 226 and 234.5 for copper, 148 and 228 for aluminium"))
def bears_a2s(*, area_mm2: float, conductor: Conductor, limit_c: float, start_c: float = 30.0) -> float:
    """What takes a conductor to its insulation's limit with no cooling, A² s: the lead that bears least warms first.

    >>> copper = bears_a2s(area_mm2=25.0, conductor=Conductor.COPPER, limit_c=70.0)
    >>> copper > bears_a2s(area_mm2=35.0, conductor=Conductor.ALUMINIUM, limit_c=70.0)
    True
    """
    if area_mm2 <= 0.0 or limit_c <= start_c:
        return 0.0
    k, beta = _adiabatic(conductor)
    return (k * area_mm2) ** 2 * log((limit_c + beta) / (start_c + beta))


def after_pause(*, rise_k: float, pause_s: float, area_mm2: float) -> float:
    """What is left of a warming after a pause, K: exponential cooling with the time constant of `cooling_s`.

    >>> 10 < after_pause(rise_k=60.0, pause_s=180.0, area_mm2=25.0) < 60
    True
    """
    return rise_k * exp(-pause_s / cooling_s(area_mm2=area_mm2))


@sourced(Source(Tag.DERIVED, "time constants that the five-minute ratings of the duty tables imply"))
def cooling_s(*, area_mm2: float) -> float:
    """Thermal time constant of an insulated lead in still air, s.

    From the H01N2-D table: a lead at I amps for a share f of five minutes reaches the temperature of the 100 % rating
    when I²/I100² = (1 - exp(-300/tau)) / (1 - exp(-300 f/tau)); solved at 20 % duty. 10 to 95 mm².

    >>> cooling_s(area_mm2=25.0) > cooling_s(area_mm2=16.0)
    True
    """
    points = _time_constants()
    return between(points, min(max(area_mm2, points[0][0]), points[-1][0]), what="conductor area", unit="mm²")


@cache
def _time_constants() -> tuple[tuple[float, float], ...]:
    areas = sorted({float(row["area_mm2"]) for row in table("cable_duty") if row["basis"] == "N"})
    return tuple((area, _time_constant(area)) for area in areas)


def _time_constant(area_mm2: float) -> float:
    rated = dict(_duty_points("N", area_mm2))
    wanted = (rated[0.2] / rated[1.0]) ** 2
    low, high = 10.0, 20000.0
    for _ in range(60):
        tau = sqrt(low * high)
        reached = (1 - exp(-300 / tau)) / (1 - exp(-60 / tau))
        low, high = (tau, high) if reached < wanted else (low, tau)
    return tau


@cache
def _duty_points(basis: str, area_mm2: float) -> tuple[tuple[float, float], ...]:
    rows = [row for row in table("cable_duty") if row["basis"] == basis and float(row["area_mm2"]) == area_mm2]
    return tuple(sorted((float(row["duty_ratio"]), float(row["current_a"])) for row in rows))


@dataclass(frozen=True, slots=True)
class DutyRating:
    """What a welding cable may carry, A, and the table that governs: H (rubber 85 °C) or N (H01N2-D)."""

    current_a: float
    basis: str


@sourced(
    Source(Tag.MEMORY, "BS 638-4, 85 °C rubber"),
    Source(Tag.MEMORY, "EN 50525-2-81 with HD 516, EN 50565-2, DIN VDE 0298-4 (H01N2-D)"),
)
def duty_rating(
    *,
    area_mm2: float,
    duty_ratio: float,
    ambient_c: float = 30.0,
    insulation_c: float = _CABLE_LIMIT_C,
    conductor: Conductor = Conductor.COPPER,
) -> DutyRating:
    """Current a welding cable bears at a duty over five minutes, A: the lower of two tables.

    Between areas the smaller table area counts; between duties interpolated on logarithms. Corrected for the ambient
    and for insulation under 85 °C by sqrt((limit - ambient) / (85 - table ambient)); aluminium and copper-clad by
    sqrt(1 / resistance factor). 10 mm² up, duty 0.08 to 1, ambient -20 to 60 °C.

    >>> duty_rating(area_mm2=25.0, duty_ratio=0.6, ambient_c=30.0)
    DutyRating(current_a=204.0, basis='N')
    """
    if not 0.08 <= duty_ratio <= _LONGEST_DUTY:
        raise OutOfRange(f"duty {duty_ratio:g} is outside the cable tables, 0.08 to 1 of five minutes")
    if not -20.0 <= ambient_c <= 60.0:
        raise OutOfRange(f"{ambient_c:g} °C around is outside -20 to 60 °C")
    if insulation_c <= ambient_c:
        raise OutOfRange(f"insulation for {insulation_c:g} °C cannot be used at {ambient_c:g} °C")
    found = []
    for basis in ("H", "N"):
        rows = [row for row in table("cable_duty") if row["basis"] == basis]
        areas = [float(row["area_mm2"]) for row in rows if float(row["area_mm2"]) <= area_mm2]
        if not areas:
            continue
        rated_a = _at_duty(_duty_points(basis, max(areas)), duty_ratio)
        if rated_a is not None:
            limit_c = min(insulation_c, _CABLE_LIMIT_C)
            room = (limit_c - ambient_c) / (_CABLE_LIMIT_C - float(rows[0]["ambient_c"]))
            found.append((rated_a * sqrt(max(0.0, room)), basis))
    if not found:
        raise OutOfRange(f"{area_mm2:g} mm² is under the smallest welding cable of the tables, 10 mm²")
    rated_a, basis = min(found)
    return DutyRating(rated_a * _conductor_share(conductor), basis)


def _conductor_share(conductor: Conductor) -> float:
    factor = {
        Conductor.ALUMINIUM: figures.ALUMINIUM_FACTOR.value,
        Conductor.COPPER_CLAD: figures.COPPER_CLAD_FACTOR.value,
    }.get(taken_as(conductor, MetalUse.HEAT), 1.0)
    return sqrt(1 / factor)


def _at_duty(points: tuple[tuple[float, float], ...], duty_ratio: float) -> float | None:
    """Interpolated on logarithms; None under the table's least duty."""
    if duty_ratio < points[0][0]:
        return None
    tabled = dict(points)
    if duty_ratio in tabled:
        return tabled[duty_ratio]
    for (f0, a0), (f1, a1) in pairwise(points):
        if duty_ratio <= f1:
            share = log(duty_ratio / f0) / log(f1 / f0)
            return float(a0 * exp(share * log(a1 / a0)))
    return None


@dataclass(frozen=True, slots=True)
class JumperLimit:
    """Whether a jumper lead may carry the arc: `allowed_a` at 35 % duty (0 refuses), and why."""

    allowed_a: float
    reason: str


@sourced(Source(Tag.PRACTICE, "jumper leads are rated for a crank of seconds, not minutes of arc (DIN 72553)"))
def jumper_limit(*, area_mm2: float, conductor: Conductor, marked: bool = True) -> JumperLimit:
    """The most arc current that a jumper lead may carry at 35 % duty, A.

    25 mm² copper to 120 A, 35 mm² to 150 A; less is refused; copper-clad aluminium that is not marked with its area
    is refused, marked it counts as its area over 1.6.

    >>> jumper_limit(area_mm2=25.0, conductor=Conductor.COPPER).allowed_a
    120.0
    """
    metal = taken_as(conductor, MetalUse.HEAT)
    if metal is Conductor.COPPER_CLAD and not marked:
        return JumperLimit(0.0, "unmarked conductor, likely copper-clad aluminium: it melts in minutes of arc")
    factor = {Conductor.ALUMINIUM: figures.ALUMINIUM_FACTOR.value}.get(conductor, 1.0)
    if metal is Conductor.COPPER_CLAD:
        factor = figures.COPPER_CLAD_FACTOR.value
    as_copper_mm2 = area_mm2 / factor
    rows = [row for row in table("jumper_leads") if float(row["area_mm2"]) <= as_copper_mm2]
    if not rows:
        under = f"{with_unit(area_mm2, 'mm²')} of {conductor} is under the 25 mm² of copper that an arc needs"
        return JumperLimit(0.0, under)
    row = rows[-1]
    return JumperLimit(float(row["arc_current_a"]), f"good for {row['arc_current_a']} A at 35 % duty")
