"""Charging before a trip: which batteries, how long, and when the reading that counts can be taken. Each alone."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import Source, Tag, sourced
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics import figures

_STORE_AT = 0.75
_READING_REST_H = 6.0


class ChargeNeed(StrEnum):
    """Whether a battery is to be charged before the trip."""

    NO = "full enough"
    YES = "charge it"
    NOT_KNOWN = "read it first, or charge it"
    NEVER = "not to be charged"


@sourced(Source(Tag.READ, "TM 5-3820-256-24-4: a stored battery is recharged at 12.45 V, 75 %"))
def charge_need(
    *, soc_ratio: Span | None, wanted_ratio: float, chemistry: Chemistry, fit_to_charge: bool = True
) -> ChargeNeed:
    """Whether a battery needs charging to leave with `wanted_ratio`, by its low bound; a battery at 75 % or less does.

    Not fit (cracked, leaking, swollen, frozen, shorted) is never charged; nor is lithium, which needs its own charger.

    >>> charge_need(soc_ratio=Span(0.7, 0.8, 0.9), wanted_ratio=0.75, chemistry=Chemistry.AGM).value
    'charge it'
    """
    if not 0.0 <= wanted_ratio <= 1.0:
        raise OutOfRange(f"wanted charge {wanted_ratio:g} is outside 0 to 1")
    if not fit_to_charge or chemistry is Chemistry.LITHIUM:
        return ChargeNeed.NEVER
    if soc_ratio is None:
        return ChargeNeed.NOT_KNOWN
    return ChargeNeed.YES if soc_ratio.low < wanted_ratio or soc_ratio.best <= _STORE_AT else ChargeNeed.NO


@dataclass(frozen=True, slots=True)
class ChargeTime:
    """Hours on the charger, hours of rest before the reading that counts, and the current used, A."""

    charging_h: Span
    rest_h: float
    current_a: float

    @property
    def before_departure_h(self) -> float:
        """Start at least this long before leaving, so that charge, rest and a reading fit in, h."""
        return self.charging_h.high + self.rest_h


@sourced(figures.CHARGE_RETURN.source, Source(Tag.PRACTICE, "rest of 6 h or more before a reading"))
def charge_time(*, soc_ratio: Span, capacity_ah: float, charger_a: float) -> ChargeTime:
    """Hours to full from a charger of `charger_a`: the missing ampere-hours and their losses, then the falling end.

    The current is held to a fifth of the 20 h capacity. One battery alone, never a string. 1 to 400 Ah, 0.5 to 100 A.

    >>> time = charge_time(soc_ratio=Span.exactly(0.5), capacity_ah=70.0, charger_a=10.0)
    >>> round(time.charging_h.best, 1), time.rest_h
    (8.0, 6.0)
    """
    if not 1.0 <= capacity_ah <= 400.0:
        raise OutOfRange(f"capacity {capacity_ah:g} Ah is outside 1 to 400 Ah")
    if not 0.5 <= charger_a <= 100.0:
        raise OutOfRange(f"a charger of {charger_a:g} A is outside 0.5 to 100 A")
    if not 0.0 <= soc_ratio.low <= soc_ratio.high <= 1.0:
        raise BadData(f"state of charge {soc_ratio.low:g} to {soc_ratio.high:g} is outside 0 to 1")
    current_a = min(charger_a, figures.CHARGE_RATE_PER_H.value * capacity_ah)
    back, taper = Span.of(figures.CHARGE_RETURN), Span.of(figures.CHARGE_TAPER_H)

    def hours(soc: float, factor: float, end_h: float) -> float:
        return (1.0 - soc) * capacity_ah * factor / current_a + end_h

    charging = Span(
        hours(soc_ratio.high, back.low, taper.low),
        hours(soc_ratio.best, back.best, taper.best),
        hours(soc_ratio.low, back.high, taper.high),
    )
    return ChargeTime(charging, _READING_REST_H, current_a)
