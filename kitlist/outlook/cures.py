"""The usual rod that a bank has in its range, tried on the kit itself before it is named."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.kit import Kit, Rod, Trip
from kitlist.outlook import look_out
from kitlist.physics.bank.verdict import Fit

SIZES_MM = (5.0, 4.0, 3.2, 2.5, 2.0)  # the thickest first: it lasts longest and suits the thickest steel
USUAL = "E6013"


@sourced(PRACTICE)
def rod_in_range(kit: Kit, trip: Trip, *, on: date) -> str:
    """The thickest usual rod that the trip's bank has in its range, with that range; "" where it has none."""
    bare = replace(trip, repairs=())
    for size_mm in SIZES_MM:
        rod = Rod(
            name="tried",
            designation=USUAL,
            diameter_mm=size_mm,
            count=1,
            storage=RodStorage.SEALED,
            condition=RodCondition.DRY,
        )
        seen = look_out(replace(kit, rods=(rod,), repairs=()), bare, on=on).rods[0]
        if seen.fit is Fit.IN_RANGE and seen.range is not None:
            return f"{seen.words} ({seen.range.low_a:.0f} to {seen.range.high_a:.0f} A)"
    return ""
