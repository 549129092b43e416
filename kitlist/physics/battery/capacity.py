"""What a battery gives at other rates than its label's: Peukert, reserve capacity, and the two-well kinetic model."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Figure, Source, Tag, sourced
from kitlist.base.terms import Chemistry
from kitlist.physics import figures

_RESERVE = Source(Tag.MEMORY, "IEC 60095-1, EN 50342-1")
_FLOODED_RC, _SEALED_RC = (1.1828, 0.7732), (1.1201, 1.1339)


def peukert_exponent(chemistry: Chemistry) -> Figure:
    """The Peukert exponent of a chemistry, with its range; not known: the flooded one, which counts least.

    >>> peukert_exponent(Chemistry.AGM).value
    1.12
    """
    return {Chemistry.AGM: figures.PEUKERT_SEALED, Chemistry.GEL: figures.PEUKERT_GEL}.get(
        chemistry, figures.PEUKERT_FLOODED
    )


@sourced(Source(Tag.MEMORY, "Peukert's law, standard form"))
def continuous_burn_h(*, capacity_ah: float, current_a: float, exponent: float, rated_h: float = 20.0) -> float:
    """Hours of one continuous burn to 10.5 V from full: t = H (C / (I H))^k, C the capacity at the H hour rate.

    For one burn without a pause only; with pauses it counts 23 to 46 % too few rods. Exponent 1 to 1.6. From 25 A data
    to 100-200 A take it as ± 25 %.

    >>> round(100 * continuous_burn_h(capacity_ah=100.0, current_a=100.0, exponent=1.1))
    74
    """
    if not 1.0 <= exponent <= 1.6:
        raise OutOfRange(f"Peukert exponent {exponent:g} is outside 1 to 1.6")
    if capacity_ah <= 0.0 or current_a <= 0.0 or rated_h <= 0.0:
        raise OutOfRange("capacity, current and rated hours must be over 0")
    hours: float = rated_h * (capacity_ah / (current_a * rated_h)) ** exponent
    return hours


def _reserve_constants(chemistry: Chemistry) -> tuple[float, float]:
    return _SEALED_RC if chemistry in (Chemistry.AGM, Chemistry.GEL) else _FLOODED_RC


@sourced(_RESERVE)
def reserve_minutes(*, capacity_ah: float, chemistry: Chemistry) -> float:
    """Reserve capacity, minutes at 25 A to 10.5 V, from the 20 h capacity: beta C20^alpha. 20 to 250 Ah.

    >>> round(reserve_minutes(capacity_ah=70.0, chemistry=Chemistry.FLOODED), 1)
    117.7
    """
    if not 20.0 <= capacity_ah <= 250.0:
        raise OutOfRange(f"capacity {capacity_ah:g} Ah is outside 20 to 250 Ah")
    alpha, beta = _reserve_constants(chemistry)
    minutes: float = beta * capacity_ah**alpha
    return minutes


@sourced(_RESERVE)
def capacity_from_reserve(*, minutes: float, chemistry: Chemistry) -> float:
    """The 20 h capacity, Ah, from reserve capacity in minutes. 30 to 700 minutes.

    >>> round(capacity_from_reserve(minutes=117.7, chemistry=Chemistry.FLOODED))
    70
    """
    if not 25.0 <= minutes <= 700.0:
        raise OutOfRange(f"reserve capacity {minutes:g} min is outside 25 to 700 min")
    alpha, beta = _reserve_constants(chemistry)
    capacity_ah: float = (minutes / beta) ** (1.0 / alpha)
    return capacity_ah


@dataclass(frozen=True, slots=True)
class Wells:
    """Charge of a battery in two wells, Ah: all of it, and how far the one at hand stands off its even share."""

    total_ah: float
    off_even_ah: float = 0.0

    def at_hand_ah(self, share_ratio: float = figures.KINETIC_C.value) -> float:
        """The charge that can be drawn at once, Ah."""
        return share_ratio * self.total_ah + self.off_even_ah


@sourced(Source(Tag.FITTED, "kinetic battery model of Manwell and McGowan; c and k' fitted to PyBaMM lead_acid.Full"))
def draw(
    wells: Wells,
    *,
    current_a: float,
    hours: float,
    share_ratio: float = figures.KINETIC_C.value,
    rate_per_h: float = figures.KINETIC_K_PER_H.value,
) -> Wells:
    """The wells after a constant current for a time, exactly: closed step of the kinetic battery model.

    Of the charge q a share c is at hand (q1); the rest comes forward at k'. With y = q1 - c q:
    y' = -(1 - c) I - k' y. A pause is a current of 0; a negative current charges.

    >>> after = draw(Wells(70.0), current_a=100.0, hours=0.1)
    >>> round(after.total_ah, 6), round(after.at_hand_ah(), 2)
    (60.0, 12.97)
    """
    if hours < 0.0:
        raise OutOfRange(f"{hours:g} h: time does not run back")
    left = exp(-rate_per_h * hours)
    settled_ah = -(1.0 - share_ratio) * current_a / rate_per_h
    return Wells(wells.total_ah - current_a * hours, settled_ah + (wells.off_even_ah - settled_ah) * left)
