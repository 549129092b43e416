"""The current band to first order: means and variances instead of samples, for ranking thousands of banks.

Every unknown enters with its mean and variance; the current's spread is the root of the summed squares of slope times
standard deviation, and the band is log-normal about the middle. Within a few percent of `band` where an arc burns.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from math import exp, log, sqrt

from kitlist.base.sources import Figure, Source, Tag, sourced
from kitlist.base.span import Span
from kitlist.base.terms import Covering
from kitlist.physics import figures
from kitlist.physics.arc.arc import lengths_held, longest_of, solve
from kitlist.physics.bank.rig import BankBattery, Leads
from kitlist.physics.battery.charge import rested_volts

_STANDARD_C = 25.0
_TEN_PERCENT = 1.2815515655446004
"""Standard normal deviate of the 90 % point."""


def _mean(span: Span) -> float:
    return (span.low + span.high) / 2


def _variance(span: Span) -> float:
    return (span.high - span.low) ** 2 / 12


def _log_mean(span: Span) -> float:
    """Mean of a log-uniform quantity."""
    if span.low <= 0.0 or span.high == span.low:
        return _mean(span)
    return (span.high - span.low) / log(span.high / span.low)


def _log_variance(span: Span) -> float:
    if span.low <= 0.0 or span.high == span.low:
        return _variance(span)
    square = (span.high**2 - span.low**2) / (2 * log(span.high / span.low))
    return float(square - _log_mean(span) ** 2)


@cache
def _moments(figure: Figure) -> tuple[float, float]:
    """Mean and variance of a figure over its range."""
    span = Span.of(figure)
    return _mean(span), _variance(span)


@dataclass(frozen=True, slots=True)
class BatteryMoments:
    """One battery to first order: rested volts, resistance with its joints, and their variances.

    `ohm_shared` is the standard deviation that all batteries share (the model's own unknowns), `ohm_variance` and
    `ocv_variance` are the battery's own. `inner_ohm` leaves the post joints out.
    """

    ocv_v: float
    ocv_variance: float
    ohm: float
    inner_ohm: float
    ohm_variance: float
    ohm_shared: float


@sourced(figures.CRANK_VOLTS.source)
def battery_moments(battery: BankBattery, *, temp_c: Span) -> BatteryMoments:
    """Means and variances of one battery over its unknowns, V, ohm.

    >>> from kitlist.physics.bank.examples import sound_battery
    >>> moments = battery_moments(sound_battery(), temp_c=Span(-5, 15, 35))
    >>> 0.005 < moments.ohm < 0.015
    True
    """
    mean_c, variance_c = _mean(temp_c), _variance(temp_c)
    soc, soc_variance = _mean(battery.soc_ratio), _variance(battery.soc_ratio)
    if battery.ocv_25_v is not None:
        ocv_25, ocv_variance = _mean(battery.ocv_25_v), _variance(battery.ocv_25_v)
    else:
        surface_v, surface_variance = _moments(figures.SURFACE_V)
        chemistry = battery.table_chemistry
        ocv_25 = rested_volts(soc_ratio=soc, chemistry=chemistry) + surface_v
        low, high = (
            rested_volts(soc_ratio=s, chemistry=chemistry) for s in (battery.soc_ratio.low, battery.soc_ratio.high)
        )
        ocv_variance = (high - low) ** 2 / 12 + surface_variance
    beta, beta_variance = _moments(figures.COLD_SLOPE)
    flat, flat_variance = _moments(figures.FLAT_RISE)
    slow, slow_variance = _moments(figures.SLOW_SHARE)
    new, new_variance = _mean(battery.resistance.new_ohm), _variance(battery.resistance.new_ohm)
    age, age_variance = _mean(battery.resistance.age_ratio), _variance(battery.resistance.age_ratio)
    cold = exp(-beta * (mean_c - _STANDARD_C)) * (1 + beta**2 * variance_c / 2)
    rise = 1 + flat * (1 - soc)
    inner = new * age * cold * rise * (1 + slow)
    shared = beta**2 * variance_c + (mean_c - _STANDARD_C) ** 2 * beta_variance
    shared += (1 - soc) ** 2 * flat_variance / rise**2 + slow_variance / (1 + slow) ** 2
    own = age_variance / age**2 + flat**2 * soc_variance / rise**2
    if battery.rated:
        shared += new_variance / new**2
    else:
        own += new_variance / new**2
    joint = battery.post_joint_ohm
    return BatteryMoments(
        ocv_25 + figures.OCV_SLOPE.value * (mean_c - _STANDARD_C),
        ocv_variance,
        inner + 2 * _log_mean(joint),
        inner,
        own * inner**2 + 2 * _log_variance(joint),
        sqrt(shared) * inner,
    )


@dataclass(frozen=True, slots=True)
class LeadMoments:
    """Leads from bank to rod and work, ohm and variance, and the share of a link's nominal ohms that it really has."""

    ohm: float
    variance: float
    conductor_ratio: float


def lead_moments(leads: Leads) -> LeadMoments:
    """Means of the leads over their unknowns, ohm; ballast included.

    >>> lead_moments(Leads(conductor_ohm_20c=0.0039)).ohm > 0.0039
    True
    """
    length, length_variance = _moments(figures.LEAD_LENGTH)
    area = Span.of(figures.LEAD_AREA)
    per_area = log(area.high / area.low) / (area.high - area.low)
    per_area_variance = 1 / (area.high * area.low) - per_area**2
    warm = 1 + figures.COPPER_TEMP.value * (_mean(leads.temp_c) - 20.0)
    ratio = length * per_area * warm * _mean(leads.factor)
    if leads.measured_ohm is not None:
        return LeadMoments(_mean(leads.measured_ohm) + leads.ballast_ohm, _variance(leads.measured_ohm), ratio)
    relative = length_variance / length**2 + per_area_variance / per_area**2
    relative += _variance(leads.factor) / _mean(leads.factor) ** 2
    more = leads.more_joints_ohm or Span.exactly(0.0)
    conductor = leads.conductor_ohm_20c * ratio
    return LeadMoments(
        conductor + _log_mean(leads.end_joints_ohm) + _log_mean(more) + leads.ballast_ohm,
        conductor**2 * relative + _log_variance(leads.end_joints_ohm) + _log_variance(more),
        ratio,
    )


@dataclass(frozen=True, slots=True)
class ArcMoments:
    """The arc to first order: mean and variance of each of its figures; how long it is held follows from the bank."""

    foot_v: tuple[float, float]
    slope_v_per_mm: tuple[float, float]
    c_w: tuple[float, float]
    d_w_per_mm: tuple[float, float]
    rise_ohm: tuple[float, float]


@cache
def arc_moments(covering: Covering | None = None) -> ArcMoments:
    """Means and variances of the arc of a covering family.

    >>> round(arc_moments().foot_v[0], 1)
    17.0
    """
    foot, foot_variance = _moments(figures.ARC_FOOT_V)
    extra, extra_variance = _moments(figures.CELLULOSIC_V) if covering is Covering.CELLULOSIC else (0.0, 0.0)
    return ArcMoments(
        (foot + extra, foot_variance + extra_variance),
        _moments(figures.ARC_SLOPE_V_PER_MM),
        _moments(figures.ARC_C_W),
        _moments(figures.ARC_D_W_PER_MM),
        _moments(figures.ARC_RISE_OHM),
    )


def held_current(
    emf_v: float, ohm: float, foot_v: float, slope: float, c_w: float, d_w: float, rise: float, place: float = 0.5
) -> float:
    """The arc current from plain numbers, A, at a `place` from 0 to 1 within the lengths that are held; 0 for none.

    More volts or fewer ohms never give less.

    >>> round(held_current(36.75, 0.025, 17.0, 1.0, 9.44, 15.02, 0.04))
    250
    """
    loop = ohm + rise
    longest = longest_of(spare_v=emf_v - foot_v, loop_ohm=loop, slope_v_per_mm=slope, c_w=c_w, d_w_per_mm=d_w)
    low, high = lengths_held(longest_mm=longest)
    if high == 0.0:
        return 0.0
    length = low + (high - low) * place
    return solve(ocv_v=emf_v, loop_ohm=loop, level_v=foot_v + slope * length, power_w=c_w + d_w * length)


def middle_current(*, emf_v: float, ohm: float, arc: ArcMoments) -> float:
    """The arc current of the means, A; 0 where they hold no arc.

    >>> 200 < middle_current(emf_v=36.75, ohm=0.025, arc=arc_moments()) < 260
    True
    """
    return held_current(
        emf_v, ohm, arc.foot_v[0], arc.slope_v_per_mm[0], arc.c_w[0], arc.d_w_per_mm[0], arc.rise_ohm[0]
    )


def longest_mean(*, emf_v: float, ohm: float, arc: ArcMoments) -> float:
    """The longest arc of the means, mm.

    >>> 9 < longest_mean(emf_v=36.75, ohm=0.03, arc=arc_moments()) < 13
    True
    """
    return longest_of(
        spare_v=emf_v - arc.foot_v[0],
        loop_ohm=ohm + arc.rise_ohm[0],
        slope_v_per_mm=arc.slope_v_per_mm[0],
        c_w=arc.c_w[0],
        d_w_per_mm=arc.d_w_per_mm[0],
    )


_PLACE_VARIANCE = 1.0 / 12.0


@sourced(Source(Tag.DERIVED, "propagation of variances, each figure a standard deviation either way"))
@lru_cache(maxsize=8192)  # one look for banks asks again and again about strings that no change has touched
def middle_and_spread(
    *, emf_v: float, emf_variance: float, ohm: float, ohm_variance: float, arc: ArcMoments
) -> tuple[float, float]:
    """Middle current, A, and its relative standard deviation; (0, 0) where the middle has no arc.

    `emf_v` and `ohm` are of the whole circuit, activation taken off, leads counted. The current is solved anew for each
    figure moved, not taken by its slope at the middle: where the arc is short the hand follows the bank, and the slope
    at the middle says too much. A side without an arc counts as far as the other.

    >>> source = {"emf_v": 36.7, "emf_variance": 0.1, "ohm": 0.035, "ohm_variance": 2e-5}
    >>> middle, spread = middle_and_spread(arc=arc_moments(), **source)
    >>> 150 < middle < 250, 0.1 < spread < 0.3
    (True, True)
    """
    means = (
        (emf_v, emf_variance), (ohm, ohm_variance), arc.foot_v, arc.slope_v_per_mm, arc.c_w, arc.d_w_per_mm,
        arc.rise_ohm, (0.5, _PLACE_VARIANCE),
    )  # fmt: skip
    middles = [mean for mean, _ in means]
    middle = held_current(*middles)
    if middle == 0.0:
        return 0.0, 0.0
    variance = 0.0
    for place, (mean, own) in enumerate(means):
        if own == 0.0:
            continue
        step = min(sqrt(own), 0.9 * mean)
        sides = []
        for value in (mean + step, mean - step):
            middles[place] = value
            if (current := held_current(*middles)) > 0.0:
                sides.append(abs(current - middle))
        middles[place] = mean
        variance += (sum(sides) / len(sides)) ** 2  # the better side always burns
    return middle, min(sqrt(variance) / middle, 1.0)


def ends(middle_a: float, spread_ratio: float) -> tuple[float, float]:
    """The 10 % and 90 % currents of a middle and its relative spread, A.

    >>> low, high = ends(200.0, 0.0)
    >>> low, high
    (200.0, 200.0)
    """
    factor = exp(_TEN_PERCENT * spread_ratio)
    return middle_a / factor, middle_a * factor
