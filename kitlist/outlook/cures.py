"""What would give a repair, or a bank, a rod: each cure is tried on the kit itself before it is named, with its number.

A rod and thicker steel; other banks, longer leads and strips are `shaping`'s.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.kit import Kit, Repair, Rod, Trip
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.repairs import Cell, repair_outlook
from kitlist.outlook.rods import rod_outlook
from kitlist.outlook.shaping import ShapedWay, ShapingCost
from kitlist.physics.bank.verdict import Fit
from kitlist.welding.repairs.plate import steel_when_hot
from kitlist.welding.repairs.suitability import Suits

SIZES_MM = (5.0, 4.0, 3.2, 2.5, 2.0)  # the thickest first: it lasts longest and suits the thickest steel
USUAL = "E6013"
MOST = 3  # cures that a crew reads in one line; `bank` shows the rest


@sourced(PRACTICE)
def cures(seen: Outlook, trip: Trip, repair: Repair, nearest: Cell, *, ways: tuple[ShapedWay, ...]) -> tuple[str, ...]:
    """Single changes that leave a repair with a rod that may be used, in the order of what they ask; few of them.

    `seen` is the kit as it is, `nearest` the packed rod that comes closest, `ways` what other banks, leads and strips
    give. A strip is last, and one that is not packed is named only where nothing else serves: it is live and hot.
    """
    found = [*_rods(seen, trip, repair, nearest), *_steel(seen, repair, nearest)]
    ways = tuple(_unlike(ways))
    found += [way.words for way in ways if way.cost not in (ShapingCost.BUY_RODS, ShapingCost.BUY_STRIP)]
    if not found:
        found = [way.words for way in ways]
    return tuple(dict.fromkeys(found))[:MOST]


def _unlike(ways: tuple[ShapedWay, ...]) -> Iterator[ShapedWay]:
    """The first of those that differ only in which of several like batteries are linked: three such are no choice."""
    seen: set[tuple[int, str, ShapingCost, str, str]] = set()
    for way in ways:
        key = (len(way.bank), way.added, way.cost, way.rod, f"{way.low_a:.0f} {way.middle_a:.0f} {way.high_a:.0f}")
        if key not in seen:
            seen.add(key)
            yield way


@sourced(PRACTICE)
def rod_in_range(kit: Kit, trip: Trip, *, on: date) -> str:
    """The thickest usual rod that the trip's bank has in its range, with that range; "" where it has none."""
    bare = replace(trip, repairs=())
    for size_mm in SIZES_MM:
        seen = look_out(replace(kit, rods=(_dry(USUAL, size_mm),), repairs=()), bare, on=on).rods[0]
        if seen.fit is Fit.IN_RANGE and seen.range is not None:
            return f"{seen.words} ({seen.range.low_a:.0f} to {seen.range.high_a:.0f} A)"
    return ""


def _rods(seen: Outlook, trip: Trip, repair: Repair, nearest: Cell) -> Iterator[str]:
    """The size nearest to the packed one that serves, of the same class, else of the usual one."""
    packed_mm = nearest.rod.rod.diameter_mm
    for designation in dict.fromkeys((nearest.rod.rod.designation, USUAL)):
        for size_mm in sorted(SIZES_MM, key=lambda mm: abs(mm - packed_mm)):
            hot = seen.hot_limit_ratio
            more = rod_outlook(_dry(designation, size_mm), seen.bank, trip, hot_limit_ratio=hot, counted=False)
            best = repair_outlook(repair, replace(seen, rods=(*seen.rods, more))).best
            if best is not None and best.rod is more and more.range is not None:
                yield f"pack {more.words} ({more.range.low_a:.0f} to {more.range.high_a:.0f} A)"
                return


def _steel(seen: Outlook, repair: Repair, nearest: Cell) -> Iterator[str]:
    """The steel from which on the nearest rod serves; a rod that is too thick for the steel is not cured so."""
    rod = nearest.rod
    if nearest.fit.suits is not Suits.TOO_HOT or rod.likely_a is None or rod.range is None:
        return
    if repair.thickness_mm is None:
        return
    least_mm = steel_when_hot(rod_mm=rod.rod.diameter_mm, likely_a=rod.likely_a, top_a=rod.range.high_a)
    if least_mm > repair.thickness_mm and repair_outlook(replace(repair, thickness_mm=least_mm), seen).best:
        yield f"use {rod.words} on steel of {least_mm:g} mm and over alone"


def _dry(designation: str, size_mm: float) -> Rod:
    return Rod(
        name="tried",
        designation=designation,
        diameter_mm=size_mm,
        count=20,
        storage=RodStorage.SEALED,
        condition=RodCondition.DRY,
    )
