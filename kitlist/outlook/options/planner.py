"""Choosing the bank: of all that travel, the best few banks for the rods packed. Exact, and fast by bounds.

Alike batteries are one kind with a count. Every series string is weighed; pairs of strings in parallel are looked for
in groups by the best fit and the fewest warnings that they can have, most spare charge first, and a group is left as
soon as its bound on rods cannot beat the last of the best few. What is never weighed cannot rank among them.
"""

from __future__ import annotations

from bisect import insort
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement
from math import floor

from kitlist.base.sources import PRACTICE, Source, Tag, sourced
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.demand import Demand, links_needed
from kitlist.outlook.options.fleet import Kind, Refused, Traveller, alike, mismatches, refusal_of
from kitlist.outlook.options.weighing import (
    Key,
    KindFacts,
    Scales,
    SeriesString,
    Weighed,
    count_mismatches,
    worth_of,
)
from kitlist.physics.bank.verdict import Fit

_FIELD_BITS = 6
MOST_KINDS, MOST_KINDS_OF_FOUR = 24, 16
"""Unlike batteries that the search looks at, those with the most to give: more than any convoy carries. Strings of
three grow with the third power of their number and strings of four with the fourth; within these the search is exact.
"""


@dataclass(frozen=True, slots=True)
class Option:
    """A bank that may be used. `strings` are battery names in linking order, one tuple a parallel string.

    Currents are of the quick band (see `quickband`); `rod` is the packed rod that it suits best, `rods` how many of
    them to the reserve; `shares` each string's part of the current; `warnings` are sentences.
    """

    key: Key
    strings: tuple[tuple[str, ...], ...]
    fit: Fit
    rod: str
    rods: int
    low_a: float
    middle_a: float
    high_a: float
    ocv_v: float
    shares: tuple[float, ...]
    warnings: tuple[str, ...]

    @property
    def links(self) -> int:
        """Link leads it needs."""
        return self.key.links

    @property
    def takes_every_starter(self) -> bool:
        """Whether no vehicle keeps its starting battery."""
        return bool(self.key.takes_every_starter)

    @property
    def names(self) -> tuple[str, ...]:
        """Every battery in it."""
        return tuple(name for string in self.strings for name in string)


@dataclass(frozen=True, slots=True)
class Missed:
    """Banks that are out for one reason: how many (a group that its bound ruled out counts once), and the nearest."""

    why: Lost
    count: int
    nearest: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The best few banks, best first; batteries refused; why the others are out. No options is an answer too."""

    options: tuple[Option, ...]
    refused: tuple[Refused, ...]
    missed: tuple[Missed, ...]

    @property
    def feasible(self) -> bool:
        """Whether any bank serves."""
        return bool(self.options)

    @property
    def best(self) -> Option | None:
        """The first choice."""
        return self.options[0] if self.options else None


_Group = tuple[tuple[int, ...], int]
"""Strings that share the best fit of a pair with each rod, and their warnings."""


@dataclass(frozen=True, slots=True)
class _Bound:
    """What no pair of two groups can better: fit, warnings, and rods by charge over `charge_ah`, `most` of them."""

    one: _Group
    other: _Group
    fit_rank: int
    warnings: int
    charge_ah: float
    most: int

    def key(self, spare_ah: float, warnings: int, links: int) -> tuple[float, ...]:
        """The best key that a pair with so much spare charge could have."""
        rods = min(floor(spare_ah / self.charge_ah + 1e-9), self.most)
        return (0, self.fit_rank, worth_of(rods, warnings), warnings, links, 0.0)


class _BankSearch:
    """One search: the kinds, the scales, the best few so far, and what lost."""

    def __init__(self, kinds: Sequence[Kind], demand: Demand, starters: int, few: int) -> None:
        self.demand, self.few = demand, few
        self.facts = [KindFacts(kind, demand.temp_c) for kind in kinds]
        self.scales = Scales(demand, starters)
        self.best: list[tuple[Key, int, tuple[SeriesString, ...], Weighed]] = []
        self.lost: Counter[Lost] = Counter()
        self.nearest: dict[Lost, tuple[float, tuple[SeriesString, ...]]] = {}
        self.order = 0
        guard = sum(1 << (index * _FIELD_BITS + _FIELD_BITS - 1) for index in range(len(kinds)))
        stock = sum(min(len(k.names), 31) << (index * _FIELD_BITS) for index, k in enumerate(kinds))
        self.guard, self.limit = guard, guard + stock

    def run(self) -> None:
        for size in self.demand.in_series:
            strings = list(self._strings(size))
            for string in strings:
                self._try((string,))
            if self.demand.strings == 2:
                self._pairs(size, strings)

    def _strings(self, size: int) -> Iterator[SeriesString]:
        """Every series string, each multiset of kinds once."""
        counts = [len(fact.kind.names) for fact in self.facts]
        places: Sequence[int] = range(len(self.facts))
        if size > 3 and len(places) > MOST_KINDS_OF_FOUR:
            fullest = sorted(places, key=lambda place: -self.facts[place].spare_ah)[:MOST_KINDS_OF_FOUR]
            places = sorted(fullest)
        for indexes in combinations_with_replacement(places, size):
            if any(indexes.count(index) > counts[index] for index in set(indexes)):
                continue
            code = sum(1 << (index * _FIELD_BITS) for index in indexes)
            string = SeriesString(indexes, self.facts, code, self.demand.link_ohm)
            self.scales.settle(string)
            yield string

    def _try(self, strings: tuple[SeriesString, ...]) -> None:
        found = self.scales.weigh(strings)
        if isinstance(found, Lost):
            self.lost[found] += 1
            spare_ah = sum(string.spare_ah for string in strings)
            if found not in self.nearest or spare_ah > self.nearest[found][0]:
                self.nearest[found] = (spare_ah, strings)
            return
        if len(self.best) < self.few or found.key < self.best[-1][0]:
            self.order += 1
            insort(self.best, (found.key, self.order, strings, found), key=lambda entry: entry[:2])
            del self.best[self.few :]

    def _lose_all(self, why: Lost, example: tuple[SeriesString, ...]) -> None:
        """A whole group of banks is out by its bound: counted once, with one of them to show."""
        self.lost[why] += 1
        self.nearest.setdefault(why, (0.0, example))

    def _beaten(self, bound: tuple[float, ...]) -> bool:
        """Whether nothing at or over this bound can still join the best few."""
        return len(self.best) == self.few and tuple(self.best[-1][0]) <= bound

    def _pairs(self, size: int, strings: Sequence[SeriesString]) -> None:
        links = links_needed(in_series=size, strings=2)
        if not strings:
            return
        if self.demand.links is not None and links > self.demand.links:
            self._lose_all(Lost.LINKS, (strings[0], strings[0]))
            return
        highest = max(strings, key=lambda string: string.emf_v)
        least_ohm = (min(string.ohm for string in strings) + self.demand.link_ohm) / 2
        if not self.scales.can_burn(emf_v=highest.emf_v, ohm=least_ohm):
            self._lose_all(Lost.NO_ARC, (highest, highest))
            return
        places = range(len(self.demand.coverings))
        spread_most = [max(string.arcs[place][1] for string in strings) for place in places]
        ohm_most = max(string.ohm for string in strings)
        groups: dict[_Group, list[SeriesString]] = {}
        # Parallel strings are of one chemistry alike: a string that mixes two has no partner.
        alike_within = [string for string in strings if len(string.chemistries) == 1]
        for string in sorted(alike_within, key=lambda string: -string.spare_ah):
            string.fit_bounds = self.scales.bound_fits(string, spread_most, ohm_most)
            groups.setdefault((string.fit_bounds, string.warnings), []).append(string)
        floor_a = self.scales.least_current(ohm_most)
        pairs = [self._bound(one, other) for one, other in combinations_with_replacement(groups, 2)]
        for bound in sorted(pairs, key=lambda bound: (bound.fit_rank, bound.warnings)):
            self._search_groups(groups[bound.one], groups[bound.other], bound, links, floor_a)

    def _bound(self, one: _Group, other: _Group) -> _Bound:
        """The best fit that a pair of these groups can have, with the least thirsty rod that can have it."""
        fits = [max(pair) for pair in zip(one[0], other[0], strict=True)]
        best = min(fits)
        rods = [rod for rod, fit in zip(self.demand.rods, fits, strict=True) if fit == best]
        charge_ah = min(rod.charge_ah.best for rod in rods)
        most = max(rod.counted(10**9) for rod in rods)
        return _Bound(one, other, best, max(one[1], other[1]), charge_ah, most)

    def _search_groups(
        self, ones: list[SeriesString], others: list[SeriesString], bound: _Bound, links: int, floor_a: float
    ) -> None:
        """Pairs of two groups, most spare charge first, until the bounds say that nothing better is left.

        A pair is left out as soon as the most rods it could give are too few, or could not beat the last of the best.
        """
        if bound.fit_rank > self.demand.worst_fit.rank:
            self._lose_all(Lost.FIT, (ones[0], others[0]))
            return
        least_ah = self.demand.least_rods * self.demand.least_charge_ah - 1e-9
        gap_v, guard, tie_ohm = self.scales.gap_v, self.guard, self.demand.link_ohm
        for place, one in enumerate(ones):
            rest = others[place:] if ones is others else others
            first = True
            room, ocv_v, spare_ah = self.limit - one.code, one.ocv_v, one.spare_ah
            for other in rest:
                most_ah = spare_ah + other.spare_ah
                if most_ah < least_ah:
                    if first:
                        self._lose_all(Lost.RODS, (one, other))
                    break
                if self._beaten(bound.key(most_ah, bound.warnings, links)):
                    break
                first = False
                if (room - other.code) & guard != guard or abs(ocv_v - other.ocv_v) > gap_v:
                    continue
                if one.chemistries != other.chemistries:
                    continue
                most_ah = _most_ah(one, other, tie_ohm, floor_a)
                if most_ah < least_ah:
                    self.lost[Lost.RODS] += 1
                elif not self._beaten(bound.key(most_ah, count_mismatches(one, other), links)):
                    self._try((one, other))
            if first:
                return


def _most_ah(one: SeriesString, other: SeriesString, tie_ohm: float, floor_a: float) -> float:
    """The most charge that a pair can give, Ah: each string's spare over the least share of the current it can have.

    A share is (r2 + (E1 - E2)/I)/(r1 + r2); its least is at no current from the voltage where that helps, and at the
    least current of an arc where it hurts.
    """
    r1, r2 = one.ohm + tie_ohm, other.ohm + tie_ohm
    ahead = (one.emf_v - other.emf_v) / floor_a
    first = (r2 + min(ahead, 0.0)) / (r1 + r2)
    second = (r1 - max(ahead, 0.0)) / (r1 + r2)
    if first <= 0.0 or second <= 0.0:
        return one.spare_ah + other.spare_ah
    return min(one.spare_ah / first, other.spare_ah / second)


def _names(
    strings: Sequence[SeriesString], kinds: Sequence[Kind], order: dict[str, int]
) -> tuple[tuple[str, ...], ...]:
    """Battery names for strings of kinds, in the order in which they were given; each name once in a real bank."""
    left = {index: list(kind.names) for index, kind in enumerate(kinds)}
    named = (
        [left[index].pop(0) if left[index] else kinds[index].names[-1] for index in string.indexes]
        for string in strings
    )
    return tuple(tuple(sorted(names, key=order.__getitem__)) for names in named)


@sourced(Source(Tag.DERIVED, "exact search with bounds"), PRACTICE)
def plan_bank(travellers: Sequence[Traveller], demand: Demand, *, few: int = 5) -> Plan:
    """The best `few` banks of the batteries that travel, for the rods packed.

    Ranked by: not taking every starting battery; how the current band sits in a rod's range; rods to the reserve, a
    tenth off for each mismatch; fewest warnings, fewest links, least lifting. Refused batteries come back with the
    reason; a bank that takes every starting battery keeps more of its charge.

    >>> from kitlist.outlook.options.invented import demand, travellers
    >>> plan = plan_bank(travellers(4), demand())
    >>> plan.best.fit.value, len(plan.best.names), plan.best.links
    ('hot', 3, 2)
    """
    refused = tuple(Refused(b.name, why) for b in travellers if (why := refusal_of(b)))
    out = {entry.name for entry in refused}
    usable = [battery for battery in travellers if battery.name not in out]
    kinds = _fullest(alike(usable))
    starters = sum(1 for battery in usable if battery.starts_engine) if demand.starters is None else demand.starters
    search = _BankSearch(kinds, demand, starters, few)
    search.run()
    by_name = {battery.name: battery for battery in usable}
    order = {battery.name: place for place, battery in enumerate(travellers)}
    options = tuple(
        _option(strings, found, _names(strings, kinds, order), by_name, demand) for _, _, strings, found in search.best
    )
    missed = tuple(
        Missed(why, count, _names(search.nearest[why][1], kinds, order)) for why, count in search.lost.most_common()
    )
    return Plan(options, refused, missed)


def _fullest(kinds: tuple[Kind, ...]) -> tuple[Kind, ...]:
    """As many kinds as the search looks at, in the order in which they came: those with the most to give."""
    if len(kinds) <= MOST_KINDS:
        return kinds
    given = {
        id(kind): (kind.like.charge.best - kind.like.reserve_ratio) * (kind.like.capacity_ah or 0.0) for kind in kinds
    }
    kept = sorted(kinds, key=lambda kind: -given[id(kind)])[:MOST_KINDS]
    return tuple(kind for kind in kinds if kind in kept)


def _option(
    strings: tuple[SeriesString, ...],
    found: Weighed,
    names: tuple[tuple[str, ...], ...],
    by_name: dict[str, Traveller],
    demand: Demand,
) -> Option:
    members = [by_name[name] for string in names for name in string]
    warnings = list(mismatches(members))
    if found.key.takes_every_starter:
        kept = max(member.last_starter_ratio for member in members)
        warnings.append(
            f"takes every starting battery: no vehicle can start until it is undone; keep {kept * 100:.0f} % in each"
        )
    ocv_v = max(string.ocv_v for string in strings)
    rod = demand.rods[found.rod].name
    return Option(
        found.key,
        names,
        found.fit,
        rod,
        found.rods,
        found.low_a,
        found.middle_a,
        found.high_a,
        ocv_v,
        found.shares,
        tuple(warnings),
    )
