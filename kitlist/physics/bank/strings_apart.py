"""Two parallel strings whose volts differ: the current between them with no arc, and how long it goes on."""

from __future__ import annotations

from dataclasses import dataclass
from math import asinh, log

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Figure, Source, Tag, sourced
from kitlist.physics import figures

VOLTS_OF_CHARGE = Figure(
    "rested volts of one battery from flat to full, by the steep half of the table",
    0.84,
    "V",
    Source(Tag.DERIVED, "BCI open-circuit table, 0.5 to 0.75"),
)
ACTIVATION_OHM_AH = Figure(
    "activation drop of both batteries at small current, times 20 h capacity",
    0.977,
    "ohm Ah",
    Source(Tag.DERIVED, "2 x 0.33 V x 1.48 h"),
)


@dataclass(frozen=True, slots=True)
class Circulating:
    """Current at first, A; ampere-hours that move until the strings are level; the time constant of it, h."""

    first_a: float
    moves_ah: float
    tau_h: float

    def hours_to(self, share_ratio: float) -> float:
        """Hours until a share of what moves has moved."""
        if not 0.0 <= share_ratio < 1.0:
            raise OutOfRange(f"{share_ratio:g} of the charge is outside 0 to 1")
        return -self.tau_h * log(1.0 - share_ratio)


@sourced(VOLTS_OF_CHARGE.source, ACTIVATION_OHM_AH.source, figures.ACTIVATION_SLOPE_V.source)
def circulating_charge(*, apart_v: float, in_series: int, capacity_ah: float, loop_ohm: float) -> Circulating:
    """What runs between two parallel strings of `in_series` batteries of `capacity_ah`, `apart_v` apart at rest.

    dE = I R + 2 n 0.33 asinh(1.48 I/C20); q = dE/(2 k), k = 0.84 n/C20; tau = (R + 0.977 n/C20)/(2 k). `loop_ohm` is
    the resistance all round, both strings and their ties. Waiting does not level them within a day's work: charge
    each. Unlike chemistries never level, and are refused elsewhere. 0 to 14 V, 1 to 4 in series.

    >>> apart = circulating_charge(apart_v=0.2, in_series=3, capacity_ah=70.0, loop_ohm=0.045)
    >>> round(apart.first_a, 1), round(apart.moves_ah, 1), round(apart.hours_to(0.9), 1)
    (2.3, 2.8, 2.8)
    """
    if not 0.0 <= apart_v <= 14.0 or not 1 <= in_series <= 4:
        raise OutOfRange(f"{apart_v:g} V apart, {in_series} in series is outside 0 to 14 V and 1 to 4")
    if not 1.0 <= capacity_ah <= 400.0 or not 0.0 < loop_ohm <= 5.0:
        raise OutOfRange(f"{capacity_ah:g} Ah round {loop_ohm:g} ohm is outside 1 to 400 Ah and 0 to 5 ohm")
    volts_per_ah = VOLTS_OF_CHARGE.value * in_series / capacity_ah

    def drop(amps: float) -> float:
        activation_v = figures.ACTIVATION_SLOPE_V.value * asinh(figures.ACTIVATION_HOURS.value * amps / capacity_ah)
        return amps * loop_ohm + 2 * in_series * activation_v

    low_a, high_a = 0.0, apart_v / loop_ohm
    for _ in range(80):
        middle_a = (low_a + high_a) / 2
        low_a, high_a = (middle_a, high_a) if drop(middle_a) < apart_v else (low_a, middle_a)
    return Circulating(
        first_a=low_a,
        moves_ah=apart_v / (2 * volts_per_ah),
        tau_h=(loop_ohm + ACTIVATION_OHM_AH.value * in_series / capacity_ah) / (2 * volts_per_ah),
    )
