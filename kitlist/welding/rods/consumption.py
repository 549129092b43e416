"""What one rod leaves in the joint, and what it takes from the bank; how many rods a weld needs.

Charge per rod hardly depends on current: it is the melted metal divided by what an ampere-hour melts.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Figure, Source, Tag, row_source, sourced, table
from kitlist.base.span import Span

STEEL_G_MM3 = 7.85e-3
STUB = Figure("stub thrown away", 50.0, "mm", PRACTICE, 50.0, 75.0)
SPOILED = Figure("rods lost to sticking and restrikes", 0.10, "of rods", PRACTICE, 0.0, 0.20)
_FORMULA = Source(Tag.DERIVED, "geometry of the core, ISO 2401 style efficiency, deposit per ampere-hour")
_DIAMETERS_MM = (1.0, 8.0)
_LENGTHS_MM = (150.0, 700.0)
_CURRENTS_A = (10.0, 600.0)


@dataclass(frozen=True, slots=True)
class RodBurn:
    """One rod, burnt to its stub: grams deposited, ampere-hours and seconds taken, each low, best, high."""

    deposit_g: Span
    charge_ah: Span
    burn_s: Span
    rate_kg_per_h: float
    source: Source


@dataclass(frozen=True, slots=True)
class RodsNeeded:
    """Rods for a weld. `melted` is what the joint takes; `to_pack` adds spoiled rods at the worse mass, rounded up."""

    melted: Span
    to_pack: int
    charge_ah: Span


@cache
def _deposits() -> Mapping[str, Mapping[str, str]]:
    return {row["class"]: row for row in table("rod_deposit")}


@sourced(_FORMULA)
def core_mass_g(*, diameter_mm: float, length_mm: float, stub_mm: float = 0.0) -> float:
    """Mass of the steel core less the stub, g. Assumes a solid steel core of 7.85 g/cm3; any covering is left out.

    >>> round(core_mass_g(diameter_mm=3.2, length_mm=350.0, stub_mm=50.0), 1)
    18.9
    """
    if not _DIAMETERS_MM[0] <= diameter_mm <= _DIAMETERS_MM[1]:
        raise OutOfRange(f"a rod of {diameter_mm:g} mm: {_DIAMETERS_MM[0]:g} to {_DIAMETERS_MM[1]:g} mm are covered")
    if not _LENGTHS_MM[0] <= length_mm <= _LENGTHS_MM[1]:
        raise OutOfRange(f"a rod {length_mm:g} mm long: {_LENGTHS_MM[0]:g} to {_LENGTHS_MM[1]:g} mm are covered")
    if not 0 <= stub_mm < length_mm:
        raise OutOfRange(f"a stub of {stub_mm:g} mm: 0 to less than the rod's {length_mm:g} mm")
    return math.pi / 4 * diameter_mm**2 * (length_mm - stub_mm) * STEEL_G_MM3


@sourced(_FORMULA)
def burn(
    table_class: str | None, *, diameter_mm: float, length_mm: float, current_a: float, stub_mm: float = STUB.value
) -> RodBurn:
    """What one rod leaves and takes at a current of 10 to 600 A.

    Deposit is the melted core times the class's efficiency (±10 %, wider where the class is not well known); charge is
    deposit over the class's grams per ampere-hour, and time follows from charge and current (both ±20 % or wider).
    Efficiency is net: spatter is already in it. Stubs on batteries run 50 to 75 mm. Raises OutOfRange for a
    designation with no A5.1 class near.

    >>> one = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    >>> round(one.deposit_g.best, 1), round(one.charge_ah.best, 2), round(one.burn_s.best)
    (17.4, 2.05, 67)
    """
    row = _deposits().get(table_class or "")
    if row is None:
        raise OutOfRange(
            f"deposit and charge of {table_class or 'this designation'} are not known",
            hint="Weigh the stubs of a practice bead, or use a rod whose class is held.",
        )
    if not _CURRENTS_A[0] <= current_a <= _CURRENTS_A[1]:
        raise OutOfRange(f"{current_a:g} A: {_CURRENTS_A[0]:g} to {_CURRENTS_A[1]:g} A are covered")
    core_g = core_mass_g(diameter_mm=diameter_mm, length_mm=length_mm, stub_mm=stub_mm)
    per_ah_g = float(row["deposit_g_per_ah"])
    deposit_g = Span.within(core_g * float(row["efficiency_ratio"]), ratio=float(row["mass_band_ratio"]))
    charge_ah = Span.within(deposit_g.best / per_ah_g, ratio=float(row["charge_band_ratio"]))
    return RodBurn(
        deposit_g, charge_ah, charge_ah.times(3600 / current_a), per_ah_g * current_a / 1000, row_source(row)
    )


@sourced(PRACTICE, _FORMULA)
def rods_needed(weld_metal_g: float, one: RodBurn, *, spoiled_ratio: float = SPOILED.value) -> RodsNeeded:
    """Rods and charge for a mass of weld metal, g.

    `melted` counts whole burnt rods as a fraction (1 m of 4 mm fillet: 4.0 rods of 3.2 × 350 E6013). Charge is
    for the melted rods plus the spoiled ones, as if each spoiled rod were burnt whole: cautious. The uncertainty of
    one rod's charge per gram is carried through; it is not averaged away over many rods.

    >>> one = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    >>> need = rods_needed(69.1, one)
    >>> round(need.melted.best, 1), need.to_pack
    (4.0, 5)
    """
    if weld_metal_g <= 0:
        raise OutOfRange(f"{weld_metal_g:g} g of weld metal: more than 0 was expected")
    if not 0 <= spoiled_ratio < 1:
        raise OutOfRange(f"{spoiled_ratio:g} of rods spoiled: 0 to less than 1")
    melted = Span(
        weld_metal_g / one.deposit_g.high, weld_metal_g / one.deposit_g.best, weld_metal_g / one.deposit_g.low
    )
    struck = melted.best / (1 - spoiled_ratio)
    return RodsNeeded(
        melted,
        math.ceil(melted.high / (1 - spoiled_ratio) - 1e-9),
        one.charge_ah.times(struck),
    )
