"""Shaping the current: the few best ways to have a rod in range for each repair, each with what it costs.

Tried on the kit itself by the same computation as everything else: the trip's bank and other banks of its batteries,
two or three; rods that are not packed; strips that are packed, and a usual one; longer leads. One thing at a time
beside the choice of the bank. What is live and hot comes last, what costs nothing first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import IntEnum
from functools import cache, cached_property, partial
from itertools import combinations, islice

from kitlist.base.terms import Conductor, Fitting, LeadUse, RodCondition, RodStorage
from kitlist.kit import Ballast, Kit, Lead, Rod, Trip
from kitlist.outlook import Expected, Outlook, batteries_out, expect
from kitlist.outlook.ballasts import strips_for
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.offerable import lost_by
from kitlist.outlook.repairs import Cell, repair_outlooks
from kitlist.physics.arc.arc import arc_for, ballast_for
from kitlist.physics.bank.network import thevenin
from kitlist.physics.bank.verdict import is_short_arc
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.suitability import Suits

_OTHER_RODS = (("E6013", 2.5, 300.0), ("E6013", 3.2, 350.0), ("E6013", 4.0, 350.0))
_PACKET = 20
_MORE_LEAD_M, _MORE_LEAD_MM2 = 10.0, 25.0
_MORE_LEAD = Lead(
    name="more lead",
    use=LeadUse.EXTENSION,
    end_a=Fitting.PLUG,
    end_b=Fitting.PLUG,
    area_mm2=_MORE_LEAD_MM2,
    length_m=_MORE_LEAD_M,
    conductor=Conductor.COPPER,
)
_FEW = 3
_FIT = (Suits.RIGHT, Suits.LOW_END)


class ShapingCost(IntEnum):
    """What a way asks of the crew, least first."""

    CHOOSE = 0
    BUY_RODS = 1
    BRING_LEAD = 2
    BRING_STRIP = 3
    BUY_STRIP = 4

    @property
    def words(self) -> str:
        """In a word or two."""
        return {
            ShapingCost.CHOOSE: "choose",
            ShapingCost.BUY_RODS: "buy",
            ShapingCost.BRING_LEAD: "bring",
            ShapingCost.BRING_STRIP: "use a packed strip",
            ShapingCost.BUY_STRIP: "buy and cut",
        }[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapedWay:
    """One way to have a rod in range for a repair: the bank, what is added, the rod and the current it then has."""

    repair: str
    bank: tuple[str, ...]
    other_bank: bool
    added: str
    cost: ShapingCost
    rod: str
    low_a: float
    middle_a: float
    high_a: float
    longest_mm: float | None

    @property
    def as_it_is(self) -> bool:
        """Whether nothing is changed at all."""
        return self.cost is ShapingCost.CHOOSE and not self.other_bank

    @property
    def short_arc(self) -> bool:
        """Whether only a short arc is held so."""
        return self.longest_mm is not None and is_short_arc(self.longest_mm)

    @property
    def words(self) -> str:
        """In one line: what is done, what it costs, and what comes of it."""
        doing = [f"link {' → '.join(self.bank)}"] if self.other_bank else []
        doing += [self.added] if self.added else []
        arc = f", short arc only, up to {self.longest_mm:g} mm" if self.short_arc else ""
        return (
            f"{' and '.join(doing) or 'as it is'} ({self.cost.words}): {self.rod} in range, "
            f"{self.low_a:.0f} to {self.high_a:.0f} A, likely {self.middle_a:.0f}{arc}"
        )


@dataclass(frozen=True, slots=True)
class _Try:
    kit: Kit
    trip: Trip
    added: str
    cost: ShapingCost


@dataclass(frozen=True, slots=True)
class _Found:
    """A way, and whether it gives a rod at all: asked of the few that are shown, for it takes longest."""

    way: ShapedWay
    gives: Callable[[], bool]


def ways_in_range(
    kit: Kit, trip: Trip, *, on: date, offered: Sequence[tuple[str, ...]] = (), bought: bool = True
) -> dict[str, tuple[ShapedWay, ...]]:
    """For each repair of the trip that may be welded, the few best ways to have a rod in range; the best first.

    `offered` are other banks, plain series, that the planner found. Nothing that may not be linked is tried, and no
    other bank is a way that the packed leads do not join up, or that gives none of the rod. A repair
    for which a packed rod is in range on the trip's bank as it is has no ways: it needs none. Not `bought`, only what
    the crew owns is tried.
    """
    return Shaping(kit, trip, on=on, offered=offered).ways(bought=bought)


class Shaping:
    """The ways of one trip, as `ways_in_range`: what the crew owns is tried once, what is to buy only where asked."""

    def __init__(self, kit: Kit, trip: Trip, *, on: date, offered: Sequence[tuple[str, ...]] = ()) -> None:
        self._kit, self._trip, self._on, self._offered = kit, trip, on, offered
        self._batteries = batteries_out(kit, trip, on=on)

    def ways(self, *, bought: bool) -> dict[str, tuple[ShapedWay, ...]]:
        """By repair, the best first; `bought`, with what is not owned yet."""
        names = dict.fromkeys(one.way.repair for one in self._found(bought=bought))
        return {name: ways for name in names if (ways := self.ways_of(name, bought=bought))}

    def ways_of(self, repair: str, *, bought: bool) -> tuple[ShapedWay, ...]:
        """Those of one repair."""
        found = [one for one in self._found(bought=bought) if one.way.repair == repair]
        return () if any(one.way.as_it_is for one in found) else _best(found)

    def _found(self, *, bought: bool) -> tuple[_Found, ...]:
        return (*self._owned, *self._bought) if bought else self._owned

    @cached_property
    def _owned(self) -> tuple[_Found, ...]:
        """Each bank itself; the trip's own with longer leads and with the strips that are packed."""
        found: list[_Found] = []
        for trip, own in self._banked():
            found += self._tried(_Try(self._kit, trip, "", ShapingCost.CHOOSE), own=own)
            for one in _with_own(self._kit, trip) if own else ():
                found += self._tried(one, own=own)
        return tuple(found)

    @cached_property
    def _bought(self) -> tuple[_Found, ...]:
        """Each bank with rods that are not packed; the trip's own with a strip."""
        packed = {(rod.designation.casefold(), rod.diameter_mm) for rod in self._kit.rods if rod.count}
        others = tuple(_packet(*other) for other in _OTHER_RODS if (other[0].casefold(), other[1]) not in packed)
        found: list[_Found] = []
        for trip, own in self._banked():
            if others:
                with_them = replace(self._kit, rods=others)
                found += self._tried(_Try(with_them, trip, "", ShapingCost.BUY_RODS), own=own)
            if own and trip.ballast is None:
                seen = expect(self._kit, trip, self._batteries, on=self._on, counted=False)
                for one in _bought_strip(self._kit, trip, seen):
                    found += self._tried(one, own=own)
        return tuple(found)

    def _banked(self) -> Iterator[tuple[Trip, bool]]:
        """The trip with each bank, and whether it is its own."""
        for bank in _banks(self._trip, self._offered):
            own = bank == self._trip.bank
            yield self._trip if own else replace(self._trip, bank=bank, bank_strings=1), own

    def _tried(self, one: _Try, *, own: bool) -> Iterator[_Found]:
        """The repairs for which a rod is in range then."""
        seen = _outlook(one, self._batteries, on=self._on)
        if seen is None:
            return

        @cache
        def gives(rod: Rod) -> bool:
            return own or _gives(one, seen, rod, self._batteries, on=self._on)

        for repair in seen.repairs:
            cells = [cell for cell in repair.cells if cell.fit.suits in _FIT]
            best = min(cells, key=lambda cell: cell.fit.suits.rank, default=None)
            if best is not None and repair.repair_class is not RepairClass.NEVER:
                way = _way(one, seen, repair.repair.name, best, own=own)
                yield _Found(way, partial(gives, best.rod.rod))


def _banks(trip: Trip, offered: Sequence[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    """The trip's bank, the pairs in it, and the banks on offer; each once."""
    pairs = combinations(trip.bank, 2) if len(trip.bank) == 3 else ()
    seen: set[frozenset[str]] = set()
    for bank in (trip.bank, *pairs, *offered):
        if bank and frozenset(bank) not in seen:
            seen.add(frozenset(bank))
            yield tuple(bank)


def _with_own(kit: Kit, trip: Trip) -> Iterator[_Try]:
    """Longer leads, and each strip that is packed where none is in the bank."""
    words = f"{_MORE_LEAD_M:g} m more of {_MORE_LEAD_MM2:g} mm² lead, laid out straight"
    yield _Try(replace(kit, leads=(*kit.leads, _MORE_LEAD)), trip, words, ShapingCost.BRING_LEAD)
    for strip in kit.ballasts if trip.ballast is None else ():
        if strip.count:
            named = replace(trip, ballast=strip.name)
            yield _Try(kit, named, f"{strip.name} as ballast", ShapingCost.BRING_STRIP)


def _packet(designation: str, mm: float, length_mm: float) -> Rod:
    """A dry packet that is not packed yet."""
    return Rod(
        name=f"{mm:g} mm {designation}",
        designation=designation,
        diameter_mm=mm,
        length_mm=length_mm,
        count=_PACKET,
        condition=RodCondition.DRY,
        storage=RodStorage.SEALED,
    )


def _bought_strip(kit: Kit, trip: Trip, seen: Expected) -> Iterator[_Try]:
    """The shortest usual strip that brings the bank to the middle of a packed rod's range, for each packed kind."""
    if seen.bank is None or seen.bank.rig is None:
        return
    source = thevenin(seen.bank.rig.network())
    for rod in seen.rods:
        if rod.range is None or rod.designation is None:
            continue
        target_a = (rod.range.low_a + rod.range.high_a) / 2
        arc = arc_for(rod.designation.covering)
        ohm = ballast_for(source_v=source.emf_v, source_ohm=source.ohm, target_a=target_a, arc=arc).add_ohm
        best = next(strips_for(ohm=ohm, current_a=target_a), None) if 0.0 < ohm < 1.0 else None
        if best is not None:
            strip = Ballast(
                name="a strip",
                metal=best.strip.metal,
                width_mm=best.strip.width_mm,
                thickness_mm=best.strip.thickness_mm,
                length_m=round(best.length_m, 1),
            )
            with_it = replace(kit, ballasts=(*kit.ballasts, strip), rods=(rod.rod,))
            yield _Try(with_it, replace(trip, ballast=strip.name), f"ballast, {best.words}", ShapingCost.BUY_STRIP)


def _outlook(one: _Try, batteries: Mapping[str, BatteryOutlook], *, on: date) -> Outlook | None:
    """What is to be expected then; None where the bank may not be linked, or its current is not known."""
    seen = expect(one.kit, one.trip, batteries, on=on, counted=False)
    if seen.bank is None or seen.bank.bars or seen.bank.rig is None:
        return None
    outlook = Outlook(
        batteries=seen.batteries, bank=seen.bank, rods=seen.rods, hot_limit_ratio=one.kit.limits.hot_limit_ratio
    )
    return replace(outlook, repairs=repair_outlooks(one.kit, one.trip, outlook))


def _gives(one: _Try, seen: Outlook, rod: Rod, batteries: Mapping[str, BatteryOutlook], *, on: date) -> bool:
    """Whether the bank gives a rod of a packet, asked of the one that says whether a bank serves at all."""
    found = expect(replace(one.kit, rods=(rod,)), one.trip, batteries, on=on)
    return lost_by(one.kit, one.trip, found, polarity=said_polarity(seen.rods)) is None


def _way(one: _Try, seen: Outlook, repair: str, cell: Cell, *, own: bool) -> ShapedWay:
    band = cell.rod.band
    return ShapedWay(
        repair=repair,
        bank=one.trip.bank,
        other_bank=not own,
        added=f"pack {cell.rod.words}" if one.cost is ShapingCost.BUY_RODS else one.added,
        cost=one.cost,
        rod=cell.rod.words,
        low_a=band.low_a if band else 0.0,
        middle_a=band.middle_a if band else 0.0,
        high_a=band.high_a if band else 0.0,
        longest_mm=seen.bank.holds_mm if seen.bank else None,
    )


def _best(found: Sequence[_Found]) -> tuple[ShapedWay, ...]:
    """The few best that give a rod: strips last, a bank that holds its arc before others, then the least cost."""

    def order(one: _Found) -> tuple[object, ...]:
        way = one.way
        strip = way.cost in (ShapingCost.BRING_STRIP, ShapingCost.BUY_STRIP)  # live and hot: never the first cure
        return strip, way.short_arc, way.cost, way.other_bank, len(way.bank)

    return tuple(islice((one.way for one in sorted(found, key=order) if one.gives()), _FEW))
