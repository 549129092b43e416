"""The arc in closed form: where bank and arc meet, how long an arc can be held, how nervous it is.

    u(I, L) = Uf + gL L + m I + (C + D L) / I

At L = 3 mm this is the conventional load line of IEC 60974-1, 20 + 0.04 I, plus 54.5 / I. Real short arcs on rutile
and basic rods sit 1 to 3 V under that line, which is inside the figures' range.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from math import inf, sqrt

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import sourced
from kitlist.base.span import Span
from kitlist.base.terms import Covering
from kitlist.physics import figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """One arc: its length in mm and the five constants of its volts."""

    length_mm: float = figures.ARC_LENGTH_MM.value
    foot_v: float = figures.ARC_FOOT_V.value
    slope_v_per_mm: float = figures.ARC_SLOPE_V_PER_MM.value
    rise_ohm: float = figures.ARC_RISE_OHM.value
    c_w: float = figures.ARC_C_W.value
    d_w_per_mm: float = figures.ARC_D_W_PER_MM.value

    @property
    def level_v(self) -> float:
        """Arc volts before current counts, Uf + gL L, V."""
        return self.foot_v + self.slope_v_per_mm * self.length_mm

    @property
    def power_w(self) -> float:
        """The low-current term C + D L, W."""
        return self.c_w + self.d_w_per_mm * self.length_mm


@sourced(figures.CELLULOSIC_V.source)
def arc_for(covering: Covering | None = None, *, length_mm: float = figures.ARC_LENGTH_MM.value) -> Arc:
    """The arc of a covering family at an arc length in mm; cellulosic burns 3 to 4 V higher.

    >>> arc_for(Covering.CELLULOSIC).foot_v
    20.5
    """
    extra_v = figures.CELLULOSIC_V.value if covering is Covering.CELLULOSIC else 0.0
    return Arc(length_mm=length_mm, foot_v=figures.ARC_FOOT_V.value + extra_v)


@sourced(figures.ARC_FOOT_V.source)
def arc_volts(arc: Arc, *, current_a: float) -> float:
    """Volts across holder and work at a current in A; 1 to 1000 A.

    >>> round(arc_volts(Arc(), current_a=110.0), 1)
    24.9
    """
    if not 1.0 <= current_a <= 1000.0:
        raise OutOfRange(f"{current_a:g} A is outside the arc model, 1 to 1000 A")
    return arc.level_v + arc.rise_ohm * current_a + arc.power_w / current_a


def solve(*, ocv_v: float, loop_ohm: float, level_v: float, power_w: float) -> float:
    """The arc current from plain numbers, A; 0.0 where there is no arc. `loop_ohm` includes the arc's rise.

    The stable root of E - R' I = level + K / I; it vanishes at once with the operating point, the arc and the
    Kaufmann stability limit.

    >>> round(solve(ocv_v=36.75, loop_ohm=0.065, level_v=20.0, power_w=54.5), 1)
    254.4
    """
    spare_v = ocv_v - level_v
    if spare_v <= 0.0:
        return 0.0
    root = spare_v * spare_v - 4.0 * loop_ohm * power_w
    return (spare_v + sqrt(root)) / (2.0 * loop_ohm) if root >= 0.0 else 0.0


@sourced(figures.ARC_FOOT_V.source)
def arc_through(*, source_v: float, source_ohm: float, current_a: float, arc: Arc | None = None) -> Arc:
    """The same arc with its foot volts moved so that the bank meets it at `current_a`, A.

    To make a rod-by-rod reckoning start at the middle of the band, or at what a bead showed.

    >>> moved = arc_through(source_v=36.75, source_ohm=0.025, current_a=200.0)
    >>> round(operating_point(source_v=36.75, source_ohm=0.025, arc=moved).current_a, 6)
    200.0
    """
    arc = arc or Arc()
    foot_v = arc.foot_v + source_v - source_ohm * current_a - arc_volts(arc, current_a=current_a)
    return replace(arc, foot_v=foot_v)


class Held(StrEnum):
    """How easily an arc is held."""

    NO_ARC = "no arc"
    POOR = "poor"
    FAIR = "fair"
    GOOD = "good"


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where bank and arc meet. Current 0 means no arc.

    `longest_mm` is the longest arc that can be held; `stuck_a` the current of a rod that sticks.
    """

    current_a: float
    arc_v: float
    longest_mm: float
    held: Held
    stuck_a: float

    @property
    def burns(self) -> bool:
        """Whether there is an arc at all."""
        return self.current_a > 0.0


@sourced(figures.ARC_FOOT_V.source, figures.HELD_POOR.source)
def operating_point(
    *, source_v: float, source_ohm: float, ocv_v: float | None = None, arc: Arc | None = None
) -> OperatingPoint:
    """Bank and leads against an arc.

    `source_v` is the sum of rested volts less activation, V; `source_ohm` all of bank, leads and joints, ohm; `ocv_v`
    the sum of rested volts, for the stuck rod (else `source_v`). Straight source line, arc as in the module's head.
    Over 0 to 5 ohm and to 80 V.

    >>> point = operating_point(source_v=36.75, source_ohm=0.025, ocv_v=37.95)
    >>> round(point.current_a), round(point.stuck_a), point.held.value
    (254, 1518, 'good')
    """
    arc = arc or Arc()
    if not 0.0 < source_ohm <= 5.0:
        raise OutOfRange(f"source resistance {source_ohm:g} ohm is outside 0 to 5 ohm")
    if not 0.0 <= source_v <= 80.0:
        raise OutOfRange(f"{source_v:g} V is outside 0 to 80 V")
    if arc.power_w < 0.0 or arc.rise_ohm < 0.0 or arc.slope_v_per_mm < 0.0:
        raise OutOfRange("an arc has no figure under 0")
    loop_ohm = source_ohm + arc.rise_ohm
    stuck_a = (source_v if ocv_v is None else ocv_v) / source_ohm
    current_a = solve(ocv_v=source_v, loop_ohm=loop_ohm, level_v=arc.level_v, power_w=arc.power_w)
    longest_mm = longest_arc(source_v=source_v, source_ohm=source_ohm, arc=arc)
    if current_a == 0.0:
        return OperatingPoint(0.0, 0.0, longest_mm, Held.NO_ARC, stuck_a)
    held = how_held(longest_mm=longest_mm, length_mm=arc.length_mm)
    return OperatingPoint(current_a, source_v - source_ohm * current_a, longest_mm, held, stuck_a)


@sourced(figures.ARC_FOOT_V.source)
def longest_arc(*, source_v: float, source_ohm: float, arc: Arc | None = None) -> float:
    """The longest arc the bank holds, mm; 0 where it holds none at any length.

    The smaller root L of gL² L² - (2 gL a + 4 R' D) L + (a² - 4 R' C) = 0, a = E - Uf.

    >>> round(longest_arc(source_v=36.75, source_ohm=0.025), 1)
    12.6
    """
    arc = arc or Arc()
    return longest_of(
        spare_v=source_v - arc.foot_v,
        loop_ohm=source_ohm + arc.rise_ohm,
        slope_v_per_mm=arc.slope_v_per_mm,
        c_w=arc.c_w,
        d_w_per_mm=arc.d_w_per_mm,
    )


def longest_of(*, spare_v: float, loop_ohm: float, slope_v_per_mm: float, c_w: float, d_w_per_mm: float) -> float:
    """`longest_arc` from plain numbers: `spare_v` is E less the arc's foot, `loop_ohm` includes the arc's rise, mm.

    >>> round(longest_of(spare_v=19.75, loop_ohm=0.065, slope_v_per_mm=1.0, c_w=9.44, d_w_per_mm=15.02), 1)
    12.6
    """
    last = spare_v * spare_v - 4.0 * loop_ohm * c_w
    if spare_v <= 0.0 or last < 0.0:
        return 0.0
    square = slope_v_per_mm**2
    middle = 2.0 * slope_v_per_mm * spare_v + 4.0 * loop_ohm * d_w_per_mm
    if middle == 0.0:  # neither volts nor watts grow with the length: nothing ends the arc
        return inf
    # Twice the last over the larger sum: the smaller root without loss of digits.
    return 2.0 * last / (middle + sqrt(middle * middle - 4.0 * square * last))


@sourced(figures.ARC_LENGTH_MM.source)
def lengths_held(*, longest_mm: float) -> tuple[float, float]:
    """The arc lengths that a hand keeps to on a bank that holds `longest_mm` at the most, mm; (0, 0) where none.

    Who welds on two batteries holds 1 to 2 mm because nothing longer burns; three let the hand wander over all that
    is usual. Nobody holds an arc under 1 mm, nor closer than three tenths to where it goes out.

    >>> lengths_held(longest_mm=3.2), lengths_held(longest_mm=10.0), lengths_held(longest_mm=1.2)
    ((1.0, 2.24), (1.5, 5.0), (0.0, 0.0))
    """
    high = round(_HELD_OF_LONGEST * longest_mm, 12) if longest_mm < _ALL_FROM_MM else _USUAL_MM.high
    if high < _SHORTEST_MM:
        return 0.0, 0.0
    return min(_USUAL_MM.low, max(_SHORTEST_MM, _SHORT_OF_LONGEST * longest_mm)), high


_SHORTEST_MM, _SHORT_OF_LONGEST, _HELD_OF_LONGEST = 1.0, 0.2, 0.7
"""Common practice; chosen so that no bank is held differently for a millivolt more, nor gives less for being better."""
_USUAL_MM = Span.of(figures.ARC_LENGTH_MM)
_ALL_FROM_MM = _USUAL_MM.high / _HELD_OF_LONGEST  # a bank that holds this is held over all that is usual


@sourced(figures.HELD_POOR.source, figures.HELD_FAIR.source)
def how_held(*, longest_mm: float, length_mm: float) -> Held:
    """How easily an arc of `length_mm` is held when `longest_mm` is the longest: under 1 none, 1.5 poor, 2.5 fair.

    >>> how_held(longest_mm=6.0, length_mm=3.0).value
    'fair'
    """
    ratio = longest_mm / length_mm if length_mm > 0.0 else float("inf")
    if ratio < 1.0:
        return Held.NO_ARC
    if ratio < figures.HELD_POOR.value:
        return Held.POOR
    return Held.FAIR if ratio <= figures.HELD_FAIR.value else Held.GOOD


@dataclass(frozen=True, slots=True)
class BallastNeeded:
    """A resistance to add for a wanted current, ohm, and the heat it makes, W. Zero or less: none is needed."""

    add_ohm: float
    heat_w: float


@sourced(figures.ARC_FOOT_V.source)
def ballast_for(*, source_v: float, source_ohm: float, target_a: float, arc: Arc | None = None) -> BallastNeeded:
    """Ballast that brings a bank down to a current: R = (E - u(I)) / I - R_source, ohm, and I² R, W.

    Bare steel or stainless strip on bare earth, with its heat and a touch warning; never an insulated lead.

    >>> ballast = ballast_for(source_v=36.75, source_ohm=0.025, target_a=120.0)
    >>> round(ballast.add_ohm * 1000), round(ballast.heat_w)
    (71, 1019)
    """
    arc = arc or Arc()
    add_ohm = (source_v - arc_volts(arc, current_a=target_a)) / target_a - source_ohm
    return BallastNeeded(add_ohm, max(0.0, add_ohm) * target_a**2)
