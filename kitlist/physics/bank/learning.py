"""What a crew's own welds teach: a prior and readings, each with its spread, joined by their precision.

A resistance and ampere-hours a rod are learned by ratio (in logarithms), the arc's volts as they are.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from math import comb, exp, hypot, log, sqrt

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import PRACTICE, Figure, Source, Tag, sourced
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.charge import rested_volts

_JOINED = Source(Tag.DERIVED, "precision-weighted mean of a prior and readings")
RESISTANCE_PRIOR = Figure("spread of a resistance before it is measured, ln", 0.20, "ratio", PRACTICE)
RESISTANCE_READ = Figure("spread of one measured resistance, ln", 0.124, "ratio", PRACTICE)
ROD_AH_PRIOR = Figure("spread of the ampere-hours a rod before a weld, ln", 0.142, "ratio", PRACTICE)
ROD_AH_HAND = Figure("spread of the ampere-hours a rod from one weld to the next, ln", 0.10, "ratio", PRACTICE)
SOC_READ = Figure("spread of a charge told from volts before less after", 0.025, "of full", PRACTICE)
ARC_V_PRIOR = Figure("spread of the arc's volts before a bead", 1.4, "V", PRACTICE)
ARC_V_READ = Figure("spread of the arc's volts from one bead", 0.6, "V", PRACTICE)
NEXT_WELD = Figure("spread that the next weld adds to what was learned", 0.10, "ratio", PRACTICE)
OUTLIER_Z = Figure("a reading is set aside when so many spreads off the others", 3.0, "ratio", PRACTICE)
OUTLIER_SHARE = Figure("of the readings, the most that are set aside", 0.25, "ratio", PRACTICE)


_Z_80 = 1.2815515655446004
_LEAST_AH = 0.1  # what two readings to a hundredth of a volt cannot tell from nothing
_TOO_SELDOM, _FEWEST_PREDICTED = 0.05, 5


class Learnable(Enum):
    """What own welds narrow: its name, whether it is learned by ratio, and its spread before and of one reading."""

    RESISTANCE_OHM = ("resistance of the bank", True, RESISTANCE_PRIOR.value, RESISTANCE_READ.value)
    ROD_AH = ("ampere-hours a rod", True, ROD_AH_PRIOR.value, ROD_AH_HAND.value)
    ARC_V = ("volts of the arc", False, ARC_V_PRIOR.value, ARC_V_READ.value)

    def __init__(self, words: str, by_ratio: bool, prior_sd: float, reading_sd: float) -> None:
        self.words, self.by_ratio, self.prior_sd, self.reading_sd = words, by_ratio, prior_sd, reading_sd

    def inward(self, value: float) -> float:
        """The value as it is averaged."""
        return log(value) if self.by_ratio else value

    def outward(self, x: float) -> float:
        """The value back from what is averaged."""
        return exp(x) if self.by_ratio else x


@dataclass(frozen=True, slots=True)
class OwnReading:
    """One reading of a learnable in its own unit, its spread (in ln where learned by ratio), and where it is from."""

    value: float
    sd: float
    name: str = ""


@sourced(Source(Tag.DERIVED, "table of rested volts, the same charge in every battery before"))
def ah_from_volts(*, before_v: float, after_v: float, bank: Sequence[tuple[Chemistry, float]]) -> float:
    """Ampere-hours that one string gave, from its rested volts before and after; `bank` has chemistry and Ah of each.

    Every battery is taken to have had the same charge before; volts over those of full ones count as full. The
    temperature is the same both times, and drops out. Refused where they rose, or fell under flat.

    >>> round(ah_from_volts(before_v=37.95, after_v=37.35, bank=[(Chemistry.FLOODED, 70.0)] * 3), 1)
    17.5
    """
    if after_v > before_v:
        raise BadData(f"{after_v:g} V after is over {before_v:g} V before: was it charged between?")

    def volts(soc: float, given_ah: float) -> float:
        charges = ((kind, max(0.0, soc - given_ah / capacity)) for kind, capacity in bank)
        return sum(rested_volts(soc_ratio=charge, chemistry=kind) for kind, charge in charges)

    if not volts(0.0, 0.0) <= after_v:
        raise OutOfRange(f"{after_v:g} V after is under that of {len(bank)} flat batteries")
    soc = _root(lambda x: volts(x, 0.0) - min(before_v, volts(1.0, 0.0)), 0.0, 1.0)
    most_ah = max(capacity for _, capacity in bank)
    return _root(lambda ah: min(after_v, volts(soc, 0.0)) - volts(soc, ah), 0.0, most_ah)


def _root(rising: Callable[[float], float], low: float, high: float) -> float:
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < 0.0 else (low, middle)
    return (low + high) / 2


@sourced(ROD_AH_HAND.source, SOC_READ.source)
def rod_ah_reading(*, used_ah: float, rods: float, capacity_ah: float, name: str = "") -> OwnReading:
    """Ampere-hours a rod from one weld: `used_ah` of a battery of `capacity_ah` over `rods`, with its spread.

    The spread holds the hand, and that a charge told from volts is good to 2.5 points: many rods tell more.

    >>> read = rod_ah_reading(used_ah=9.1, rods=4, capacity_ah=70.0)
    >>> read.value, round(read.sd, 3)
    (2.275, 0.217)
    """
    if not rods > 0.0 or not used_ah >= _LEAST_AH:
        raise BadData(
            f"{rods:g} rods and {used_ah:.2f} Ah teach nothing: at least {_LEAST_AH:g} Ah over one rod or more",
            hint="volts after must be under volts before, both rested",
        )
    if not 1.0 <= capacity_ah <= 400.0 or used_ah > capacity_ah:
        raise OutOfRange(f"{used_ah:g} Ah of a battery of {capacity_ah:g} Ah is outside its 1 to 400 Ah")
    return OwnReading(used_ah / rods, hypot(ROD_AH_HAND.value, SOC_READ.value * capacity_ah / used_ah), name)


@dataclass(frozen=True, slots=True)
class LearnedValue:
    """What prior and readings say together: best and spread as averaged, the 80 % band of the next weld, and the
    readings that were set aside."""

    what: Learnable
    best: float
    sd: float
    next_weld: Span
    used: tuple[OwnReading, ...]
    set_aside: tuple[OwnReading, ...] = ()


@sourced(_JOINED, NEXT_WELD.source, OUTLIER_Z.source)
def learn_from(what: Learnable, *, prior: float, readings: Sequence[OwnReading]) -> LearnedValue:
    """The precision-weighted mean of `prior` and the readings, in the unit of the learnable.

    A reading over three spreads off what prior and the others say is set aside, the worst first and at most a
    quarter of them. The band of the next weld holds 80 %.

    >>> welds = [rod_ah_reading(used_ah=a, rods=n, capacity_ah=70.0) for a, n in ((9.1, 4), (14.0, 6), (18.9, 8))]
    >>> taught = learn_from(Learnable.ROD_AH, prior=2.05, readings=welds)
    >>> round(taught.best, 3), round(taught.next_weld.low, 2), round(taught.next_weld.high, 2)
    (2.245, 1.91, 2.64)
    """
    if what.by_ratio and not prior > 0.0:
        raise OutOfRange(f"{what.words}: {prior:g} before any weld is not over 0")
    if any(not r.sd > 0.0 or (what.by_ratio and not r.value > 0.0) for r in readings):
        raise BadData(f"{what.words}: a reading or its spread is not over 0")
    used, aside = list(readings), list[OwnReading]()
    while len(aside) < int(OUTLIER_SHARE.value * len(readings)):
        furthest = max(used, key=lambda r: _off(what, prior, used, r))
        if _off(what, prior, used, furthest) <= OUTLIER_Z.value:
            break
        used.remove(furthest)
        aside.append(furthest)
    mean, sd = _joined(what, prior, used)
    give = _Z_80 * hypot(sd, NEXT_WELD.value)
    band = Span(what.outward(mean - give), what.outward(mean), what.outward(mean + give))
    return LearnedValue(what, what.outward(mean), sd, band, tuple(used), tuple(aside))


def _joined(what: Learnable, prior: float, readings: Sequence[OwnReading]) -> tuple[float, float]:
    parts = [(what.inward(prior), what.prior_sd**-2), *((what.inward(r.value), r.sd**-2) for r in readings)]
    weight = sum(w for _, w in parts)
    return sum(x * w for x, w in parts) / weight, 1 / sqrt(weight)


def _off(what: Learnable, prior: float, readings: Sequence[OwnReading], one: OwnReading) -> float:
    """How many spreads a reading is off prior and all the others."""
    mean, sd = _joined(what, prior, [r for r in readings if r is not one])
    return abs(what.inward(one.value) - mean) / hypot(sd, one.sd)


@dataclass(frozen=True, slots=True)
class HitRate:
    """Of `of` readings that were predicted before they were made, `inside` lay in the 80 % band."""

    inside: int
    of: int

    @property
    def too_narrow(self) -> bool:
        """Whether so few inside are under one in twenty by chance: the bands are then to be widened.

        >>> [HitRate(k, m).too_narrow for k, m in ((1, 5), (2, 5), (5, 10), (6, 10), (12, 20), (13, 20))]
        [True, False, True, False, True, False]
        """
        if self.of < _FEWEST_PREDICTED:
            return False
        chance = sum(comb(self.of, k) * 0.8**k * 0.2 ** (self.of - k) for k in range(self.inside + 1))
        return chance <= _TOO_SELDOM


@sourced(_JOINED)
def hit_rate(what: Learnable, *, prior: float, readings: Sequence[OwnReading]) -> HitRate:
    """How many readings lay in the band that those before them, and the prior, gave: never one that taught it.

    >>> welds = [rod_ah_reading(used_ah=a, rods=n, capacity_ah=70.0) for a, n in ((9.1, 4), (14.0, 6), (18.9, 8))]
    >>> hit_rate(Learnable.ROD_AH, prior=2.05, readings=welds)
    HitRate(inside=3, of=3)
    """
    inside = 0
    for place, reading in enumerate(readings):
        mean, sd = _joined(what, prior, readings[:place])
        inside += abs(what.inward(reading.value) - mean) <= _Z_80 * hypot(sd, reading.sd)
    return HitRate(inside, len(readings))


@sourced(_JOINED)
def narrows_by(what: Learnable, *, readings: Sequence[OwnReading]) -> float:
    """By what share one more usual reading would narrow what is known: 0.3 is a third less spread.

    >>> round(narrows_by(Learnable.RESISTANCE_OHM, readings=()), 2)
    0.47
    """
    weight = what.prior_sd**-2 + sum(r.sd**-2 for r in readings)
    return 1 - sqrt(weight / (weight + what.reading_sd**-2))
