"""What would give a repair a rod on this trip, each cure tried before it is named: a rod, steel, a bank, a strip."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.kit import Kit, Repair, Rod, Trip
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.repairs import Cell
from kitlist.physics.bank.verdict import Fit
from kitlist.welding.repairs.plate import steel_when_hot
from kitlist.welding.repairs.suitability import Suits

SIZES_MM = (2.0, 2.5, 3.2, 4.0, 5.0)
USUAL = "E6013"
_TRIED = "cure"


@sourced(PRACTICE)
def cures(kit: Kit, trip: Trip, repair: Repair, nearest: Cell, *, on: date) -> tuple[str, ...]:
    """Every single change that leaves this repair with a rod that may be used, in the order of what it asks.

    `nearest` is the packed rod that comes closest. A rod comes before thicker steel, another bank, and last a strip
    that is packed: what takes volts in the circuit makes heat that somebody has to keep away from.
    """
    return tuple(dict.fromkeys(_found(kit, trip, repair, nearest, on)))


def rod_in_range(kit: Kit, trip: Trip, *, on: date) -> str:
    """The usual rod that this bank has in its range, the thickest first, with that range; "" where it has none."""
    for size_mm in sorted(SIZES_MM, reverse=True):
        seen = look_out(replace(kit, rods=(_dry(USUAL, size_mm),), repairs=()), replace(trip, repairs=()), on=on).rods[
            0
        ]
        if seen.fit is Fit.IN_RANGE and seen.range is not None:
            return f"{seen.words} ({seen.range.low_a:.0f} to {seen.range.high_a:.0f} A)"
    return ""


def _dry(designation: str, size_mm: float) -> Rod:
    return Rod(
        name=_TRIED,
        designation=designation,
        diameter_mm=size_mm,
        count=20,
        storage=RodStorage.SEALED,
        condition=RodCondition.DRY,
    )


def _found(kit: Kit, trip: Trip, repair: Repair, nearest: Cell, on: date) -> Iterator[str]:
    yield from _rods(kit, trip, repair, nearest, on)
    yield from _steel(kit, trip, repair, nearest, on)
    yield from _banks(kit, trip, repair, on)
    yield from _strips(kit, trip, repair, on)


def _rods(kit: Kit, trip: Trip, repair: Repair, nearest: Cell, on: date) -> Iterator[str]:
    """The size nearest to the packed one that serves, of the same class, else of the usual one."""
    packed_mm = nearest.rod.rod.diameter_mm
    for designation in dict.fromkeys((nearest.rod.rod.designation, USUAL)):
        for size_mm in sorted(SIZES_MM, key=lambda mm: abs(mm - packed_mm)):
            seen = look_out(replace(kit, rods=(*kit.rods, _dry(designation, size_mm))), trip, on=on)
            best = _best(seen, repair)
            if best is not None and best.rod.rod.name == _TRIED and best.rod.range is not None:
                span = best.rod.range
                yield f"pack {best.rod.words} ({span.low_a:.0f} to {span.high_a:.0f} A)"
                return


def _steel(kit: Kit, trip: Trip, repair: Repair, nearest: Cell, on: date) -> Iterator[str]:
    rod = nearest.rod
    if rod.band is None or rod.range is None or repair.thickness_mm is None:
        return
    if nearest.fit.suits is not Suits.TOO_HOT:
        return  # a rod that is too thick for the steel is not cured by finding other steel
    least_mm = steel_when_hot(rod_mm=rod.rod.diameter_mm, likely_a=rod.band.middle_a, top_a=rod.range.high_a)
    thicker = replace(repair, thickness_mm=least_mm)
    repairs = tuple(thicker if other.name == repair.name else other for other in kit.repairs)
    if least_mm > repair.thickness_mm and _best(look_out(replace(kit, repairs=repairs), trip, on=on), repair):
        yield f"use {rod.words} on steel of {least_mm:g} mm and over alone"


def _banks(kit: Kit, trip: Trip, repair: Repair, on: date) -> Iterator[str]:
    """The bank with one battery less, the last one left out first."""
    if trip.bank_strings > 1 or len(trip.bank) < 3:
        return
    for left_out in reversed(range(len(trip.bank))):
        bank = (*trip.bank[:left_out], *trip.bank[left_out + 1 :])
        best = _best(look_out(kit, replace(trip, bank=bank), on=on), repair)
        if best is not None and best.rod.band is not None:
            yield f"link {' → '.join(bank)} alone for it, about {best.rod.band.middle_a:.0f} A"
            return


def _strips(kit: Kit, trip: Trip, repair: Repair, on: date) -> Iterator[str]:
    if trip.ballast is not None:
        return
    for strip in kit.ballasts:
        best = _best(look_out(kit, replace(trip, ballast=strip.name), on=on), repair) if strip.count else None
        if best is not None and best.rod.band is not None:
            yield f"join in {strip.name}, about {best.rod.band.middle_a:.0f} A, bare earth round it"


def _best(seen: Outlook, repair: Repair) -> Cell | None:
    return next((outlook.best for outlook in seen.repairs if outlook.repair.name == repair.name), None)
