"""One bank weighed: fit, rods, warnings, links and lifting, in the order by which banks are ranked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, sqrt
from typing import NamedTuple

from kitlist.base.span import Span
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.demand import Demand, PackedRod, links_needed
from kitlist.outlook.options.fleet import Kind
from kitlist.physics import figures
from kitlist.physics.bank.quickband import (
    ArcMoments,
    BatteryMoments,
    battery_moments,
    ends,
    longest_mean,
    middle_and_spread,
    middle_current,
)
from kitlist.physics.bank.verdict import Fit, fit_of, is_short_arc, rank_of

_ACTIVATION = Span.of(figures.ACTIVATION_V)
_ACTIVATION_V = (_ACTIVATION.low + _ACTIVATION.high) / 2
_ACTIVATION_VARIANCE = _ACTIVATION.width**2 / 12
_LOAD_STOP_V = figures.LOAD_STOP_V.value
DOUBT_RATIO = 0.05
"""How far the quick current may be off: 2 % at its middle and 4 % at its ends against the sampled band, over banks of
two and three. Nothing is out for its current that would be in within this: what is then expected of it decides.
"""


class Key(NamedTuple):
    """What banks are ranked by, least first.

    `worth` is minus the rods to the reserve, no more than are packed, each mismatch costing a tenth of them.
    """

    takes_every_starter: int
    fit_rank: float
    worth: float
    warnings: int
    links: int
    mass_kg: float


def worth_of(rods: int, warnings: int) -> float:
    """Minus the rods, a tenth off for each mismatch: the less, the better a bank."""
    return -rods * (1.0 - figures.MISMATCH_COST.value * warnings)


class KindFacts:
    """One kind of battery, worked out once."""

    def __init__(self, kind: Kind, temp_c: Span) -> None:
        like = kind.like
        self.kind = kind
        self.moments: BatteryMoments = battery_moments(like.as_bank_battery(), temp_c=temp_c)
        capacity_ah = like.capacity_ah or 0.0
        self.spare_ah = (like.charge.best - like.reserve_ratio) * capacity_ah
        self.spare_all_ah = (like.charge.best - max(like.reserve_ratio, like.last_starter_ratio)) * capacity_ah
        self.capacity_ah = capacity_ah
        self.ohm_25 = like.resistance.now_ohm.best if like.resistance else 0.0
        self.full_v = like.full_v
        self.soc = like.soc_ratio.best if like.soc_ratio else None
        self.mass_kg = like.mass_kg or 0.0


class _Range:
    """Least and most of one property over a string; merged for a pair of strings."""

    __slots__ = ("high", "low")

    def __init__(self, values: Sequence[float | None]) -> None:
        known = [value for value in values if value is not None]
        self.low = min(known, default=float("inf"))
        self.high = max(known, default=float("-inf"))

    def merged(self, other: _Range) -> tuple[float, float]:
        low = self.low if self.low < other.low else other.low
        high = self.high if self.high > other.high else other.high
        return low, high


class SeriesString:
    """Batteries in series, by kind, with every sum that a bank needs of them."""

    __slots__ = (
        "ages", "arcs", "capacities", "chemistries", "code", "emf_v", "emf_variance", "fit_bounds", "full_v", "indexes",
        "kinds", "mass_kg", "ocv_v", "ohm", "ohm_shared", "ohm_variance", "ohms", "size", "socs", "spare_ah",
        "spare_all_ah",
        "starters", "warnings",
    )  # fmt: skip

    def __init__(self, indexes: tuple[int, ...], facts: Sequence[KindFacts], code: int, link_ohm: float) -> None:
        kinds = [facts[index] for index in indexes]
        likes = [kind.kind.like for kind in kinds]
        n = len(indexes)
        self.indexes, self.kinds, self.code, self.size = indexes, kinds, code, n
        self.ocv_v = sum(kind.moments.ocv_v for kind in kinds)
        self.full_v = sum(kind.full_v for kind in kinds)
        self.emf_v = self.ocv_v - n * _ACTIVATION_V
        self.emf_variance = sum(kind.moments.ocv_variance for kind in kinds) + n * n * _ACTIVATION_VARIANCE
        self.ohm = sum(kind.moments.ohm for kind in kinds) + (n - 1) * link_ohm
        self.ohm_variance = sum(kind.moments.ohm_variance for kind in kinds)
        self.ohm_shared = sum(kind.moments.ohm_shared for kind in kinds)
        self.spare_ah = min(kind.spare_ah for kind in kinds)
        self.spare_all_ah = min(kind.spare_all_ah for kind in kinds)
        self.starters = sum(1 for like in likes if like.starts_engine)
        self.mass_kg = sum(kind.mass_kg for kind in kinds)
        self.chemistries = frozenset(like.chemistry for like in likes)
        self.capacities = _Range([kind.capacity_ah for kind in kinds])
        self.socs = _Range([kind.soc for kind in kinds])
        self.ohms = _Range([kind.ohm_25 for kind in kinds])
        self.ages = _Range([like.age_years for like in likes])
        self.warnings = count_mismatches(self, self)
        self.arcs: list[tuple[float, float]] = []
        self.fit_bounds: tuple[int, ...] = ()


def count_mismatches(one: SeriesString, other: SeriesString) -> int:
    """How many of the sentences of `fleet.mismatches` a bank of these strings draws."""
    count = int(len(one.chemistries | other.chemistries) > 1)
    low, high = one.capacities.merged(other.capacities)
    count += high - low > figures.MATCH_CAPACITY.value * high
    low, high = one.socs.merged(other.socs)
    count += high - low > figures.MATCH_CHARGE.value + 1e-9
    low, high = one.ohms.merged(other.ohms)
    count += high - low > figures.MATCH_RESISTANCE.value * low
    low, high = one.ages.merged(other.ages)
    return count + (high - low > figures.MATCH_AGE_YEARS.value)


@dataclass(frozen=True, slots=True)
class Weighed:
    """A bank that may be used: its key, the rod it suits best, and what was reckoned on the way."""

    key: Key
    fit: Fit
    rod: int
    rods: int
    low_a: float
    middle_a: float
    high_a: float
    shares: tuple[float, ...]


class Scales:
    """Weighs banks for one demand."""

    def __init__(self, demand: Demand, starters: int) -> None:
        self.demand, self.starters = demand, starters
        self.gap_v = figures.PARALLEL_GAP_V.value

    def settle(self, string: SeriesString) -> None:
        """The middle current and its spread of a string on its own, for every arc of the demand."""
        lead = self.demand.lead
        variance = string.ohm_variance + string.ohm_shared**2 + lead.variance
        string.arcs = [
            middle_and_spread(
                emf_v=string.emf_v,
                emf_variance=string.emf_variance,
                ohm=string.ohm + lead.ohm,
                ohm_variance=variance,
                arc=arc,
            )
            for arc, _ in self.demand.coverings
        ]

    def _takes_every_starter(self, strings: Sequence[SeriesString]) -> bool:
        return self.starters > 0 and sum(string.starters for string in strings) >= self.starters

    def weigh(self, strings: tuple[SeriesString, ...]) -> Weighed | Lost:
        """Weigh one string alone, or two in parallel; their `settle` must have run."""
        demand = self.demand
        links = links_needed(in_series=strings[0].size, strings=len(strings))
        if demand.links is not None and links > demand.links:
            return Lost.LINKS
        if demand.most_v is not None and max(string.full_v for string in strings) > demand.most_v:
            return Lost.WET
        if len(strings) == 2 and len(strings[0].chemistries | strings[1].chemistries) > 1:
            return Lost.MIXED  # a full AGM stands 0.15 V over a full flooded one: they never come level
        if len(strings) == 2 and abs(strings[0].ocv_v - strings[1].ocv_v) > self.gap_v:
            return Lost.APART
        takes_all = self._takes_every_starter(strings)
        spares = [string.spare_all_ah if takes_all else string.spare_ah for string in strings]
        if sum(spares) < demand.least_rods * demand.least_charge_ah - 1e-9:
            return Lost.RODS
        best: tuple[float, int, int, Weighed] | None = None
        lost = Lost.NO_ARC
        warnings = strings[0].warnings if len(strings) == 1 else count_mismatches(*strings)
        mass_kg = sum(string.mass_kg for string in strings)
        for place, (arc, indexes) in enumerate(demand.coverings):
            emf_v, ohm = self._source(strings)
            middle, spread = self._middle(strings, place, emf_v, ohm, arc)
            if middle == 0.0:
                continue
            shares = self._shares(strings, middle)
            if min(shares) <= 0.0 or self._sags(strings, shares, middle):
                lost = Lost.LOAD_VOLTS
                continue
            low, high = ends(middle, spread)
            short = is_short_arc(longest_mean(emf_v=emf_v, ohm=ohm, arc=arc))
            for index in indexes:
                rod = demand.rods[index]
                fit, nearest = self._fits(rod, low, middle, high)
                rods = _rods(spares, shares, rod.charge_ah.best)
                if nearest.rank > demand.worst_fit.rank:
                    lost = Lost.FIT
                elif rods < demand.least_rods:
                    lost = Lost.RODS
                else:
                    rank, counted = rank_of(fit, short_arc=short), rod.counted(rods)
                    if best is None or (rank, -counted, index) < best[:3]:
                        key = Key(int(takes_all), rank, worth_of(counted, warnings), warnings, links, mass_kg)
                        found = Weighed(key, fit, index, rods, low, middle, high, tuple(shares))
                        best = (rank, -counted, index, found)
        return best[3] if best else lost

    def _fits(self, rod: PackedRod, low: float, middle: float, high: float) -> tuple[Fit, Fit]:
        """How the quick current fits a rod, and the best that it may in truth where that would leave the bank out."""

        def at(off: float) -> Fit:
            return fit_of(
                low_a=low * off,
                middle_a=middle * off,
                high_a=high * off,
                range_low_a=rod.range_low_a,
                range_high_a=rod.range_high_a,
                hot_limit_ratio=self.demand.hot_limit_ratio,
            )

        quick = at(1.0)
        if quick.rank <= self.demand.worst_fit.rank:
            return quick, quick
        return quick, min(at(1.0 - DOUBT_RATIO), at(1.0 + DOUBT_RATIO), quick, key=lambda fit: fit.rank)

    def _source(self, strings: tuple[SeriesString, ...]) -> tuple[float, float]:
        """Volts less activation and ohms of the bank with its leads."""
        if len(strings) == 1:
            return strings[0].emf_v, strings[0].ohm + self.demand.lead.ohm
        (one, other), tie = strings, self.demand.link_ohm
        r1, r2 = one.ohm + tie, other.ohm + tie
        emf_v = (one.emf_v * r2 + other.emf_v * r1) / (r1 + r2)
        return emf_v, r1 * r2 / (r1 + r2) + self.demand.lead.ohm

    def _middle(
        self, strings: tuple[SeriesString, ...], place: int, emf_v: float, ohm: float, arc: ArcMoments
    ) -> tuple[float, float]:
        """Middle current and relative spread; of a pair the spread is the larger of its strings' (cautious)."""
        if len(strings) == 1:
            return strings[0].arcs[place]
        one, other = strings
        return middle_current(emf_v=emf_v, ohm=ohm, arc=arc), max(one.arcs[place][1], other.arcs[place][1])

    def _shares(self, strings: tuple[SeriesString, ...], middle: float) -> list[float]:
        """Each string's part of the current."""
        if len(strings) == 1:
            return [1.0]
        (one, other), tie = strings, self.demand.link_ohm
        r1, r2 = one.ohm + tie, other.ohm + tie
        first = ((one.emf_v - other.emf_v) / middle + r2) / (r1 + r2)
        return [first, 1.0 - first]

    def _sags(self, strings: tuple[SeriesString, ...], shares: Sequence[float], middle: float) -> bool:
        """Whether any battery surely falls under 9.6 V at its own current."""
        for string, share in zip(strings, shares, strict=True):
            own_a = share * middle * (1.0 - DOUBT_RATIO)
            for kind in string.kinds:
                if kind.moments.ocv_v - _ACTIVATION_V - own_a * kind.moments.inner_ohm < _LOAD_STOP_V:
                    return True
        return False

    def can_burn(self, *, emf_v: float, ohm: float) -> bool:
        """Whether any arc burns on this source behind the demand's leads; more volts or fewer ohms only help."""
        lead_ohm = self.demand.lead.ohm
        return any(middle_current(emf_v=emf_v, ohm=ohm + lead_ohm, arc=arc) > 0.0 for arc, _ in self.demand.coverings)

    def least_current(self, ohm_most: float) -> float:
        """No stable arc burns under sqrt(K / R'); the least of that over the arcs, at the largest source, A.

        K is that of the shortest arc that anybody holds, 1 mm.
        """
        loop = ohm_most + self.demand.link_ohm + self.demand.lead.ohm
        return min(
            sqrt((arc.c_w[0] + arc.d_w_per_mm[0]) / (loop + arc.rise_ohm[0])) for arc, _ in self.demand.coverings
        )

    def bound_fits(self, string: SeriesString, spread_most: Sequence[float], ohm_most: float) -> tuple[int, ...]:
        """The best fit rank that any pair with this string can reach, for each rod of the demand.

        The least current of a pair is with the worst partner: 0.2 V lower, and of the largest resistance. That holds
        where I r1 >= 0.2 V, as more volts or fewer ohms of a partner then only raise the volts at I. So a least middle
        over a rod's top stays over it, and its 10 % value at the widest spread, `spread_most` by arc, likewise.
        """
        bounds = [0] * len(self.demand.rods)
        lead_ohm, tie = self.demand.lead.ohm, self.demand.link_ohm
        r1, r2 = string.ohm + tie, ohm_most + tie
        emf_v = string.emf_v - self.gap_v * r1 / (r1 + r2)
        pair_ohm = r1 * r2 / (r1 + r2)
        for place, (arc, indexes) in enumerate(self.demand.coverings):
            least = middle_current(emf_v=emf_v, ohm=pair_ohm + lead_ohm, arc=arc)
            low, _ = ends(least, spread_most[place])
            for index in indexes:
                top = self.demand.rods[index].range_high_a
                least_a, low_a = least * (1.0 - DOUBT_RATIO), low * (1.0 - DOUBT_RATIO)
                if least * r1 < self.gap_v or least_a <= top:
                    continue
                if low_a > self.demand.hot_limit_ratio * top:
                    bounds[index] = Fit.TOO_HOT.rank
                else:
                    bounds[index] = (Fit.HOT if least_a > figures.WARM_LIMIT.value * top else Fit.WARM).rank
        return tuple(bounds)


def _rods(spares: Sequence[float], shares: Sequence[float], charge_ah: float) -> int:
    return max(0, min(floor(spare / (charge_ah * share) + 1e-9) for spare, share in zip(spares, shares, strict=True)))
