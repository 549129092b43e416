"""The current as a band, 10-50-90 %, over everything that is not known; and which unknowns matter most.

Each unknown runs over its range (uniform; joints log-uniform) at the points of a fixed lattice, so two runs agree to
the last digit. What the model does not know is shared by all batteries; what nobody read is each battery's own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from math import exp, log
from operator import add

from kitlist.base.sources import sourced
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Covering
from kitlist.physics import figures, lattice
from kitlist.physics.arc.arc import lengths_held, longest_of, solve
from kitlist.physics.arc.learned import Learned
from kitlist.physics.bank.rig import BankBattery, Rig
from kitlist.physics.bank.unknowns import Taken, Unknown, Weight, weigh
from kitlist.physics.battery.charge import ocv_points

_STANDARD_C = 25.0
_CALCIUM_OVER_FLOODED_V = 0.15
_SHOWN = 2
_LEAST_OHM = 1e-4
_FEWEST = lattice.POINTS // 10  # points with an arc: of fewer no band is made

Column = list[float]


@dataclass(frozen=True)
class Band:
    """Current in A at 10, 50 and 90 % while an arc burns; `no_arc_ratio` is the share without one, and not mixed in.

    Under a tenth of the circumstances with an arc, all three are 0. `of` is what it is of.
    """

    low_a: float
    middle_a: float
    high_a: float
    no_arc_ratio: float
    of: tuple[Rig, Covering | None, Learned | None] | None = field(default=None, repr=False, compare=False)

    @cached_property  # drawn once more: only the comparison of banks asks, of one band, and it is as dear as the band
    def weights(self) -> tuple[Weight, ...]:
        """What matters to the current, from the unknown that matters most."""
        return () if self.of is None else weigh(*_currents(*self.of))

    @property
    def matter_most(self) -> tuple[Unknown, ...]:
        """The two unknowns that matter most and that an owner can narrow, each with its `measure`."""
        return tuple(weight.unknown for weight in self.weights[:_SHOWN])


class _Draw:
    """Hands out lattice columns one by one and remembers which unknown each stands for."""

    def __init__(self) -> None:
        self.taken: list[Taken] = []

    def uniform(self, unknown: Unknown, span: Span) -> Column:
        if span.high == span.low:
            return [span.low] * lattice.POINTS
        return _even(self._next(unknown), span.low, span.high)

    def log_uniform(self, unknown: Unknown, span: Span) -> Column:
        if span.high == span.low or span.low <= 0.0:
            return self.uniform(unknown, span)
        return _even_in_logs(self._next(unknown), span.low, span.high)

    def _next(self, unknown: Unknown) -> int:
        dimension = len(self.taken) + 1
        self.taken.append((unknown, lattice.column(dimension)))
        return dimension


@lru_cache(maxsize=96)  # a few banks' worth: the banks that are weighed differ in few of their ranges
def _even(dimension: int, low: float, high: float) -> Column:
    width = high - low
    return [low + width * q for q in lattice.column(dimension)]


@lru_cache(maxsize=96)
def _even_in_logs(dimension: int, low: float, high: float) -> Column:
    base, ratio = log(low), log(high / low)
    return [exp(base + ratio * q) for q in lattice.column(dimension)]


@sourced(figures.CRANK_VOLTS.source, figures.ARC_FOOT_V.source, figures.ACTIVATION_V.source)
def current_band(rig: Rig, *, covering: Covering | None = None, learned: Learned | None = None) -> Band:
    """The 10-50-90 % band of the arc current of a rig, A.

    `learned` is what a practice bead taught (`bead.learn`): it replaces batteries, leads or arc as far as it goes.
    Straight source line; strings of one bank within 0.2 V, so that none is charged by another under the arc.

    >>> from kitlist.physics.bank.examples import in_series
    >>> band = current_band(in_series(3))
    >>> band.low_a < band.middle_a < band.high_a, band.no_arc_ratio
    (True, 0.0)
    """
    currents, _ = _currents(rig, covering, learned)
    return replace(_summary(currents), of=(rig, covering, learned))


def _currents(rig: Rig, covering: Covering | None, learned: Learned | None) -> tuple[Column, list[Taken]]:
    """The current at every point, and the columns that it was drawn from."""
    draw = _Draw()
    bead = _Bead(learned, draw) if learned is not None else None
    per_ohm = _conductor(rig, draw)
    emf_v, ohm = _source(rig, draw, bead, per_ohm)
    external_ohm = _external(rig, draw, bead, per_ohm)
    source_ohm = [r + x for r, x in zip(ohm, external_ohm, strict=True)]
    return _meet(emf_v, source_ohm, external_ohm, draw, covering, bead), draw.taken


class _Bead:
    """A bead's readings at every point; one clamp-meter error serves all that was read at once."""

    def __init__(self, learned: Learned, draw: _Draw) -> None:
        self.learned = learned
        self.current_a = draw.uniform(Unknown.MODEL, learned.current_a)
        self.drop_v = draw.uniform(Unknown.MODEL, learned.drop_v) if learned.drop_v else None
        self.lead_drop_v = draw.uniform(Unknown.LEADS, learned.lead_drop_v) if learned.lead_drop_v else None
        self.arc_v = draw.uniform(Unknown.ARC, learned.arc_v) if learned.arc_v else None

    def ohm_each(self, activation_v: Column) -> Column | None:
        """Resistance of one battery with its joints; the volts at the bead's own current stay as measured."""
        if self.drop_v is None:
            return None
        n, scale = self.learned.in_series, self.learned.scale_ratio * self.learned.in_parallel
        return [
            max(_LEAST_OHM, (drop / n - va) / amps * scale)
            for drop, va, amps in zip(self.drop_v, activation_v, self.current_a, strict=True)
        ]

    def external_ohm(self) -> Column | None:
        """Leads, holder and work clamp."""
        if self.lead_drop_v is None:
            return None
        return [max(0.0, drop / amps) for drop, amps in zip(self.lead_drop_v, self.current_a, strict=True)]

    def level_v(self, rise_ohm: Column, power_w: Column, external_ohm: Column) -> Column | None:
        """Arc volts before current counts, at the arc length of the bead."""
        if self.arc_v is None:
            return None
        leads = [0.0] * lattice.POINTS if self.learned.at_holder else external_ohm
        return [
            v - (r + m) * amps - k / amps
            for v, r, m, k, amps in zip(self.arc_v, leads, rise_ohm, power_w, self.current_a, strict=True)
        ]


def _conductor(rig: Rig, draw: _Draw) -> Column:
    """What a conductor of these leads really has for each ohm by table at 20 °C, at every point."""
    length = draw.uniform(Unknown.LEADS, Span.of(figures.LEAD_LENGTH))
    area = draw.uniform(Unknown.LEADS, Span.of(figures.LEAD_AREA))
    temp_c = draw.uniform(Unknown.LEADS, rig.leads.temp_c)
    metal = draw.uniform(Unknown.LEADS, rig.leads.factor)
    rise = figures.COPPER_TEMP.value
    return [x / a * f * (1.0 + rise * (t - 20.0)) for x, a, f, t in zip(length, area, metal, temp_c, strict=True)]


def _source(rig: Rig, draw: _Draw, bead: _Bead | None, per_ohm: Column) -> tuple[Column, Column]:
    """Volts less activation, and resistance, of the bank at every point."""
    temp_c = draw.uniform(Unknown.TEMPERATURE, rig.temp_c)
    activation_v = draw.uniform(Unknown.MODEL, Span.of(figures.ACTIVATION_V))
    battery = _Shared(rig, draw, temp_c, activation_v, bead)
    groups = [[battery.branch(member) for member in group] for group in rig.groups]
    learned = bead is not None and bead.drop_v is not None
    links = [0.0 if learned else rig.link_ohm_20c * x for x in per_ohm]
    return _in_parallel([_with(links, _in_series(group)) for group in groups])


def _with(links_ohm: Column, branch: tuple[Column, Column]) -> tuple[Column, Column]:
    """A branch behind its link leads; a bead's own source resistance already holds them."""
    return branch[0], [r + x for r, x in zip(branch[1], links_ohm, strict=True)]


class _Shared:
    """What all batteries of the rig have in common at each point, and the branch of one battery on top of it."""

    def __init__(self, rig: Rig, draw: _Draw, temp_c: Column, activation_v: Column, bead: _Bead | None) -> None:
        self.draw, self.temp_c, self.activation_v = draw, temp_c, activation_v
        self.rating: Column = []
        self.learned_ohm = bead.ohm_each(activation_v) if bead is not None else None
        if self.learned_ohm is not None:
            return
        cold = draw.uniform(Unknown.MODEL, Span.of(figures.COLD_SLOPE))
        slow = draw.uniform(Unknown.MODEL, Span.of(figures.SLOW_SHARE))
        self.flat = draw.uniform(Unknown.MODEL, Span.of(figures.FLAT_RISE))
        self.state = [exp(-b * (t - _STANDARD_C)) * (1.0 + s) for b, t, s in zip(cold, temp_c, slow, strict=True)]
        if any(battery.rated for battery in rig.batteries):
            self.rating = draw.uniform(Unknown.RESISTANCE, Span(0.0, 0.5, 1.0))

    def branch(self, battery: BankBattery) -> tuple[Column, Column]:
        """Volts less activation and ohms of one battery with its two post joints, at every point."""
        draw = self.draw
        soc = draw.uniform(Unknown.CHARGE, battery.soc_ratio)
        rested_v = self._rested(battery, soc)
        slope = figures.OCV_SLOPE.value
        emf_v = [
            v + slope * (t - _STANDARD_C) - va
            for v, t, va in zip(rested_v, self.temp_c, self.activation_v, strict=True)
        ]
        if self.learned_ohm is not None:
            return emf_v, self.learned_ohm
        new = battery.resistance.new_ohm
        width = new.high - new.low
        base = [new.low + width * q for q in self.rating] if battery.rated else draw.uniform(Unknown.RESISTANCE, new)
        age = draw.uniform(Unknown.RESISTANCE, battery.resistance.age_ratio)
        first = draw.log_uniform(Unknown.POSTS, battery.post_joint_ohm)
        second = draw.log_uniform(Unknown.POSTS, battery.post_joint_ohm)
        ohm = [
            b * a * s * (1.0 + g * (1.0 - q)) + j + k
            for b, a, s, g, q, j, k in zip(base, age, self.state, self.flat, soc, first, second, strict=True)
        ]
        return emf_v, ohm

    def _rested(self, battery: BankBattery, soc: Column) -> Column:
        """Rested volts at 25 °C: as read, else by the table with what surface charge may add."""
        if battery.ocv_25_v is not None:
            return self.draw.uniform(Unknown.CHARGE, battery.ocv_25_v)
        surface = Span.of(figures.SURFACE_V)
        if battery.chemistry is Chemistry.UNKNOWN:
            surface = Span(surface.low, surface.best, surface.high + _CALCIUM_OVER_FLOODED_V)
        offset = self.draw.uniform(Unknown.CHARGE, surface)
        volts = _table_reader(battery.table_chemistry)
        return [volts(q) + x for q, x in zip(soc, offset, strict=True)]


def _table_reader(chemistry: Chemistry) -> Callable[[float], float]:
    """The OCV table at even steps of a quarter, read without search."""
    volts = [v for _, v in ocv_points(chemistry)]
    steps = len(volts) - 1

    def read(soc: float) -> float:
        place = min(int(soc * steps), steps - 1)
        return volts[place] + (volts[place + 1] - volts[place]) * (soc * steps - place)

    return read


def _in_series(branches: Sequence[tuple[Column, Column]]) -> tuple[Column, Column]:
    if len(branches) == 1:
        return branches[0]
    return _summed([emf for emf, _ in branches]), _summed([ohm for _, ohm in branches])


def _summed(columns: Sequence[Column]) -> Column:
    """One column after the other added on, as the pocket page adds them: to the last digit on every Python."""
    total = columns[0]
    for column in columns[1:]:
        total = list(map(add, total, column))
    return total


def _in_parallel(branches: Sequence[tuple[Column, Column]]) -> tuple[Column, Column]:
    if len(branches) == 1:
        return branches[0]
    conductance = _summed([[1.0 / r for r in ohm] for _, ohm in branches])
    shorted_a = [0.0] * lattice.POINTS
    for emf, ohm in branches:
        shorted_a = [i + e / r for i, e, r in zip(shorted_a, emf, ohm, strict=True)]
    return [i / g for i, g in zip(shorted_a, conductance, strict=True)], [1.0 / g for g in conductance]


def _external(rig: Rig, draw: _Draw, bead: _Bead | None, per_ohm: Column) -> Column:
    """Leads, holder and work clamp at every point, ohm."""
    leads = rig.leads
    ballast = leads.ballast_ohm
    read = bead.external_ohm() if bead is not None else None
    if read is None and leads.measured_ohm is not None:
        read = draw.uniform(Unknown.LEADS, leads.measured_ohm)
    if read is not None:
        return [x + ballast for x in read] if ballast else read
    ends = draw.log_uniform(Unknown.ENDS, leads.end_joints_ohm)
    more = draw.log_uniform(Unknown.LEADS, leads.more_joints_ohm or Span.exactly(0.0))
    nominal = leads.conductor_ohm_20c
    return [nominal * x + e + m + ballast for x, e, m in zip(per_ohm, ends, more, strict=True)]


def _meet(
    emf_v: Column,
    source_ohm: Column,
    external_ohm: Column,
    draw: _Draw,
    covering: Covering | None,
    bead: _Bead | None,
) -> Column:
    """The arc current at every point, A; 0 where there is none.

    The hand follows the bank: each point's arc is held within what that point's own bank lets be held, so a bank that
    holds 3 mm is not judged by an arc of 5. How hard it is held is another verdict than the current while it burns.
    """
    hand = draw.uniform(Unknown.HAND, Span(0.0, 0.5, 1.0))
    slope = draw.uniform(Unknown.HAND, Span.of(figures.ARC_SLOPE_V_PER_MM))
    rise = draw.uniform(Unknown.ARC, Span.of(figures.ARC_RISE_OHM))
    c_w = draw.uniform(Unknown.ARC, Span.of(figures.ARC_C_W))
    d_w = draw.uniform(Unknown.ARC, Span.of(figures.ARC_D_W_PER_MM))
    usual = Span.of(figures.ARC_LENGTH_MM)
    least_mm, wide_mm = usual.low, usual.width
    read = None
    if bead is not None:
        as_usual = [c + d * (least_mm + wide_mm * q) for c, d, q in zip(c_w, d_w, hand, strict=True)]
        read = bead.level_v(rise, as_usual, external_ohm)
    if read is not None:
        wander = draw.uniform(Unknown.HAND, Span.of(figures.HAND_MM))
        foot = [u - g * usual.best for u, g in zip(read, slope, strict=True)]
    else:
        base = draw.uniform(Unknown.ARC, Span.of(figures.ARC_FOOT_V))
        extra = Span.of(figures.CELLULOSIC_V) if covering is Covering.CELLULOSIC else Span.exactly(0.0)
        foot = [f + u for f, u in zip(base, draw.uniform(Unknown.ARC, extra), strict=True)]
        wander = None
    currents = []
    for place, (e, r, f, g, c, d, m) in enumerate(zip(emf_v, source_ohm, foot, slope, c_w, d_w, rise, strict=True)):
        loop = r + m
        low, high = lengths_held(
            longest_mm=longest_of(spare_v=e - f, loop_ohm=loop, slope_v_per_mm=g, c_w=c, d_w_per_mm=d)
        )
        if high == 0.0:
            currents.append(0.0)
            continue
        length = low + (high - low) * hand[place]
        # After a bead the arc's volts are known as that hand held it; from bead to bead it wanders within the range.
        over_mm = length if wander is None else usual.best + wander[place] * (high - low) / wide_mm
        level, power = f + g * over_mm, c + d * length
        currents.append(solve(ocv_v=e, loop_ohm=loop, level_v=level, power_w=power))
    return currents


def _summary(currents: Column) -> Band:
    ranked = sorted(current for current in currents if current > 0.0)
    count = len(ranked)
    no_arc = 1.0 - count / len(currents)
    if count < _FEWEST:
        return Band(0.0, 0.0, 0.0, no_arc)

    def quantile(share: float) -> float:
        place = share * count - 0.5
        below = int(place)
        return ranked[below] + (ranked[below + 1] - ranked[below]) * (place - below)

    return Band(quantile(0.1), quantile(0.5), quantile(0.9), no_arc)
