"""A bare metal strip that takes volts: how hot it gets, what it has cold and hot, how long it must be.

Each metre makes heat from the current and loses it to the air and by radiation; only the metal and the section count,
so a strip is judged by its section and cut to length. Cold it has less resistance than hot: the first arc is stronger.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import ceil

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Figure, Source, Tag, sourced
from kitlist.base.span import between
from kitlist.base.terms import BallastMetal

_HANDBOOK = Source(Tag.MEMORY, "handbook resistivities of 304 stainless and of mild steel; 304 at 1127 °C read")
PEAK_MOST_C = Figure("hottest that a ballast strip may get in the third rod", 400.0, "°C", PRACTICE)
COLD_OVER_HOT = Figure("resistance of a ballast strip cold over hot, least", 0.6, "ratio", PRACTICE)
AMBIENT_C = Figure("air round a ballast strip", 30.0, "°C", PRACTICE)
BURN_S = Figure("arc time of one rod, for a ballast strip's heat", 60.0, "s", PRACTICE)
PAUSE_S = Figure("pause between two rods, for a ballast strip's heat", 120.0, "s", PRACTICE)
EDGE_SHARE = Figure("of a strip's surface, what cools it on edge", 0.9, "ratio", PRACTICE)
AIR_W_PER_M2_K = Figure("heat that still air takes", 10.0, "W/(m2 K)", PRACTICE)


_STEFAN_BOLTZMANN = 5.67e-8
_RODS, _STEP_S, _MOST_C = 3, 0.5, 1000.0


@dataclass(frozen=True, slots=True)
class _Metal:
    """(°C, microohm m) points, emissivity, kg/m3 and J/(kg K)."""

    points: tuple[tuple[float, float], ...]
    emits: float
    density: float
    heat_j: float


_METALS = {
    BallastMetal.STAINLESS: _Metal(
        ((20.0, 0.72), (200.0, 0.86), (400.0, 0.98), (600.0, 1.07), (1000.0, 1.20)), 0.6, 7900.0, 530.0
    ),
    BallastMetal.MILD: _Metal(
        ((20.0, 0.142), (100.0, 0.190), (200.0, 0.263), (400.0, 0.458), (600.0, 0.734), (1000.0, 1.16)),
        0.8,
        7850.0,
        600.0,
    ),
}


@sourced(_HANDBOOK)
def resistivity(*, metal: BallastMetal, temp_c: float) -> float:
    """Resistivity, microohm metre, at -40 to 1000 °C; under 20 °C the slope from there on.

    >>> round(resistivity(metal=BallastMetal.STAINLESS, temp_c=300.0), 2)
    0.92
    """
    points = _METALS[metal].points
    if -40.0 <= temp_c < points[0][0]:
        (t0, r0), (t1, r1) = points[:2]
        return r0 + (r1 - r0) * (temp_c - t0) / (t1 - t0)
    return between(points, temp_c, what="strip at", unit="°C")


@dataclass(frozen=True, slots=True)
class Strip:
    """The section of a bare strip: metal, width and thickness in mm, and how much of its surface cools it."""

    metal: BallastMetal
    width_mm: float
    thickness_mm: float
    cooled_ratio: float = EDGE_SHARE.value

    def __post_init__(self) -> None:
        if not 3.0 <= self.width_mm <= 200.0 or not 0.3 <= self.thickness_mm <= 12.0:
            raise OutOfRange(
                f"a strip of {self.width_mm:g} x {self.thickness_mm:g} mm is outside 3 to 200 by 0.3 to 12 mm"
            )

    @property
    def area_m2(self) -> float:
        """Its section, m²."""
        return self.width_mm * self.thickness_mm * 1e-6

    def ohm_per_m(self, *, temp_c: float) -> float:
        """Resistance of a metre at a temperature, ohm."""
        return resistivity(metal=self.metal, temp_c=temp_c) * 1e-6 / self.area_m2

    def warming(self, *, current_a: float, ambient_c: float) -> Callable[[float], float]:
        """K/s by its temperature: what the current makes in a metre less what air and radiation take.

        A function of °C, from -40 to 1000: three rods ask for it some thousand times.
        """
        metal = _METALS[self.metal]
        holds_j = metal.density * metal.heat_j * self.area_m2
        surface_m2 = self.cooled_ratio * 2 * (self.width_mm + self.thickness_mm) / 1000
        makes = current_a**2 * 1e-6 / self.area_m2 / holds_j
        radiates = surface_m2 * metal.emits * _STEFAN_BOLTZMANN / holds_j
        gives = surface_m2 * AIR_W_PER_M2_K.value / holds_j
        ambient_4 = (ambient_c + 273.15) ** 4
        lines = [
            (t1, (r1 - r0) / (t1 - t0), r0 - t0 * (r1 - r0) / (t1 - t0))
            for (t0, r0), (t1, r1) in pairwise(metal.points)
        ]

        def k_per_s(temp_c: float) -> float:
            at_c = min(temp_c, _MOST_C)
            for until_c, rise, foot in lines:
                rho = foot + rise * at_c
                if at_c <= until_c:
                    break
            return makes * rho - radiates * ((temp_c + 273.15) ** 4 - ambient_4) - gives * (temp_c - ambient_c)

        return k_per_s


@dataclass(frozen=True, slots=True)
class BallastHeat:
    """What a strip does under a current: its peak in the third rod and its mean over it, °C; where it would end with
    the arc held on, °C (None: past 1000, it melts or burns through); a metre's resistance cold and hot, ohm."""

    peak_c: float
    mean_c: float
    held_c: float | None
    cold_ohm_per_m: float
    hot_ohm_per_m: float

    @property
    def cold_over_hot(self) -> float:
        """Resistance cold over hot: under 0.6 the first arc of the day is too strong for its rod."""
        return self.cold_ohm_per_m / self.hot_ohm_per_m

    @property
    def fit_for_use(self) -> bool:
        """Whether the strip stays at 400 °C or under, and its resistance within 0.6 of its hot one."""
        return self.peak_c <= PEAK_MOST_C.value and self.cold_over_hot >= COLD_OVER_HOT.value


@sourced(_HANDBOOK, AIR_W_PER_M2_K.source)
def heat_of_strip(
    strip: Strip,
    *,
    current_a: float,
    burn_s: float = BURN_S.value,
    pause_s: float = PAUSE_S.value,
    ambient_c: float = AMBIENT_C.value,
) -> BallastHeat:
    """Temperatures and resistances of a strip over three rods of `burn_s` with `pause_s` between them.

    rho dm, dT/dt = (I² rho(T)/(w t) - share 2 (w + t)(e sigma (T⁴ - Ta⁴) + 10 (T - Ta)))/(D c w t). 1 to 600 A,
    -40 to 60 °C of air. Over 1000 °C in the third rod: OutOfRange, no strip survives that.

    >>> hot = heat_of_strip(Strip(BallastMetal.STAINLESS, 25.0, 1.0), current_a=150.0)
    >>> round(hot.peak_c), round(hot.held_c), round(hot.cold_over_hot, 2)
    (445, 545, 0.78)
    """
    if not 1.0 <= current_a <= 600.0 or not -40.0 <= ambient_c <= 60.0:
        raise OutOfRange(f"{current_a:g} A in air of {ambient_c:g} °C is outside 1 to 600 A and -40 to 60 °C")
    if not 1.0 <= burn_s <= 1000.0 or not 0.0 <= pause_s <= 7200.0:
        raise OutOfRange(f"{burn_s:g} s of arc and {pause_s:g} s of pause are outside 1 to 1000 and 0 to 7200 s")
    return _heat(strip, current_a, burn_s, pause_s, ambient_c)


@cache
def _heat(strip: Strip, current_a: float, burn_s: float, pause_s: float, ambient_c: float) -> BallastHeat:
    temp_c = mean_c = ambient_c
    for rod in range(_RODS):
        if rod:
            temp_c, _ = _ran(strip, temp_c, 0.0, pause_s, ambient_c)
        temp_c, mean_c = _ran(strip, temp_c, current_a, burn_s, ambient_c)
    return BallastHeat(
        peak_c=temp_c,
        mean_c=mean_c,
        held_c=_held_on(strip, current_a, ambient_c),
        cold_ohm_per_m=strip.ohm_per_m(temp_c=ambient_c),
        hot_ohm_per_m=strip.ohm_per_m(temp_c=mean_c),
    )


def _ran(strip: Strip, temp_c: float, current_a: float, seconds: float, ambient_c: float) -> tuple[float, float]:
    """Temperature after `seconds`, and its mean over them, °C; midpoint steps of half a second or less."""
    steps = max(1, ceil(seconds / _STEP_S))
    step_s, total = seconds / steps, 0.0
    k_per_s = strip.warming(current_a=current_a, ambient_c=ambient_c)
    for _ in range(steps):
        before = temp_c
        half_c = temp_c + k_per_s(temp_c) * step_s / 2
        temp_c += step_s * k_per_s(half_c)
        if temp_c > _MOST_C:
            raise OutOfRange(
                f"{current_a:g} A takes a strip of {strip.width_mm:g} x {strip.thickness_mm:g} mm over 1000 °C",
                hint="a wider or thicker strip",
            )
        total += (before + temp_c) / 2
    return temp_c, total / steps


def _held_on(strip: Strip, current_a: float, ambient_c: float) -> float | None:
    """Where the strip would end with the arc held on, °C; None past 1000."""
    low_c, high_c = ambient_c, _MOST_C
    k_per_s = strip.warming(current_a=current_a, ambient_c=ambient_c)
    if k_per_s(high_c) > 0.0:
        return None
    for _ in range(50):
        middle_c = (low_c + high_c) / 2
        warms = k_per_s(middle_c) > 0.0
        low_c, high_c = (middle_c, high_c) if warms else (low_c, middle_c)
    return low_c


@sourced(Source(Tag.DERIVED, "L = R w t / rho at the mean temperature of the third rod"))
def length_for(*, ohm: float, heat: BallastHeat) -> float:
    """Metres of a strip that have `ohm` when hot, its doubled ends not counted.

    >>> hot = heat_of_strip(Strip(BallastMetal.STAINLESS, 30.0, 1.0), current_a=150.0)
    >>> round(length_for(ohm=0.074, heat=hot), 2)
    2.5
    """
    if not 0.0 < ohm <= 1.0:
        raise OutOfRange(f"ballast of {ohm * 1000:g} mΩ is outside 0 to 1000 mΩ")
    return ohm / heat.hot_ohm_per_m
