"""A vehicle's two starting batteries: the halves of 24 V under a bridge, or twins side by side. When they join again.

A half that welded alone is emptier than the other. Under a 28 V alternator the full one then takes the surplus: it
gases, while the empty one stays empty.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Figure, Source, Tag, sourced
from kitlist.physics.battery.gas import hydrogen_l

BRIDGE_BACK_V = Figure("rested volts apart at which the halves of 24 V go back under their bridge", 0.05, "V", PRACTICE)
BRIDGE_CAMP_V = Figure("rested volts apart at which the halves of 24 V still drive to camp", 0.10, "V", PRACTICE)
TWIN_BACK_V = Figure("rested volts apart at which twin batteries go back side by side", 0.2, "V", PRACTICE)
ALTERNATOR_24_V = Figure("volts of a 24 V alternator", 28.2, "V", PRACTICE)
TAKES_CHARGE_V = Figure("volts of the emptier half while it takes charge", 13.2, "V", PRACTICE)
VOLTS_OF_UPPER_HALF = Figure(
    "rested volts of a battery a full charge, by the upper half of the table",
    0.82,
    "V",
    Source(Tag.DERIVED, "BCI open-circuit table, 0.5 to 1"),
)
LENDS_WARM_C = Figure("one of twin batteries is lent only from", 0.0, "°C", PRACTICE)


_LEVEL = 1e-9


class Rejoin(StrEnum):
    """What may be done with two halves read with the same meter after rest."""

    BACK = "put them back"
    CAMP_ONLY = "to camp only, and charge each alone today"
    CHARGE_FIRST = "never under the alternator: charge each alone first"


@sourced(BRIDGE_BACK_V.source, BRIDGE_CAMP_V.source)
def rejoin_halves(*, apart_v: float) -> Rejoin:
    """Whether the two halves of a 24 V pair may go back under their bridge, by rested volts apart on one meter.

    >>> rejoin_halves(apart_v=0.05).name, rejoin_halves(apart_v=0.1).name, rejoin_halves(apart_v=0.11).name
    ('BACK', 'CAMP_ONLY', 'CHARGE_FIRST')
    """
    if not 0.0 <= apart_v <= 15.0:
        raise OutOfRange(f"{apart_v:g} V apart is outside 0 to 15 V")
    if apart_v <= BRIDGE_BACK_V.value + _LEVEL:
        return Rejoin.BACK
    return Rejoin.CAMP_ONLY if apart_v <= BRIDGE_CAMP_V.value + _LEVEL else Rejoin.CHARGE_FIRST


@sourced(TWIN_BACK_V.source)
def rejoin_twins(*, apart_v: float) -> bool:
    """Whether twin 12 V batteries may go back side by side: rested volts 0.2 V apart or less.

    >>> rejoin_twins(apart_v=0.2), rejoin_twins(apart_v=0.21)
    (True, False)
    """
    if not 0.0 <= apart_v <= 15.0:
        raise OutOfRange(f"{apart_v:g} V apart is outside 0 to 15 V")
    return apart_v <= TWIN_BACK_V.value + _LEVEL


@sourced(LENDS_WARM_C.source)
def twin_may_go(*, starts_alone: bool | None, coldest_c: float | None) -> bool:
    """Whether one of twin batteries may weld while the other starts: only if it has been seen to, and not in frost.

    >>> twin_may_go(starts_alone=True, coldest_c=4.0), twin_may_go(starts_alone=None, coldest_c=4.0)
    (True, False)
    """
    return starts_alone is True and coldest_c is not None and coldest_c >= LENDS_WARM_C.value


@dataclass(frozen=True, slots=True)
class UnequalHalves:
    """Two halves after one alone gave charge: volts apart, what the fuller sees under the alternator, gas it makes."""

    apart_v: float
    fuller_sees_v: float
    hydrogen_litre: float


@sourced(
    ALTERNATOR_24_V.source, VOLTS_OF_UPPER_HALF.source, Source(Tag.DERIVED, "28.2 V less what the emptier half holds")
)
def unequal_halves(*, given_ah: float, capacity_ah: float) -> UnequalHalves:
    """What follows when one half of `capacity_ah` has given `given_ah` more than the other and is bridged again.

    The alternator's 28.2 V less 13.2 V of the half that still takes charge leave the full one 15 V; the surplus
    ampere-hours make hydrogen there.

    >>> apart = unequal_halves(given_ah=4.1, capacity_ah=70.0)
    >>> round(apart.apart_v, 3), apart.fuller_sees_v
    (0.048, 15.0)
    """
    if not 0.0 <= given_ah <= capacity_ah <= 400.0:
        raise OutOfRange(f"{given_ah:g} Ah of {capacity_ah:g} Ah is outside 0 to its capacity, 400 Ah at most")
    return UnequalHalves(
        apart_v=VOLTS_OF_UPPER_HALF.value * given_ah / capacity_ah,
        fuller_sees_v=ALTERNATOR_24_V.value - TAKES_CHARGE_V.value,
        hydrogen_litre=hydrogen_l(surplus_ah=given_ah),
    )
