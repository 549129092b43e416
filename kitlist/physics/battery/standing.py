"""A battery that stands: charge carried forward to a later day, and the temperature at which it freezes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from kitlist.base.errors import OutOfRange
from kitlist.base.measures import counted
from kitlist.base.sources import Source, Tag, sourced, table
from kitlist.base.span import Span, between
from kitlist.base.terms import Chemistry
from kitlist.physics import figures
from kitlist.physics.battery.charge import Charge, rested_volts

_MONTH_DAYS = 30.0
_LONGEST_DAYS = 365.0


class Standing(StrEnum):
    """How the battery stood since it was read."""

    DISCONNECTED = "disconnected"
    CONNECTED = "connected"
    DRIVEN = "driven"


def monthly_loss(*, chemistry: Chemistry, temp_c: float = 20.0) -> Span:
    """Share of the charge lost in a month by self-discharge, ratio; doubles every 10 K.

    An unknown chemistry takes the bounds of all. Valid -40 to 50 °C.

    >>> monthly_loss(chemistry=Chemistry.CALCIUM, temp_c=30.0).best
    0.06
    """
    if not -40.0 <= temp_c <= 50.0:
        raise OutOfRange(f"{temp_c:g} °C is outside the range of the self-discharge model, -40 to 50 °C")
    rows = [row for row in table("chemistry_limits") if chemistry in (row["chemistry"], Chemistry.UNKNOWN)]
    if not rows:
        raise OutOfRange(f"no self-discharge figure for {chemistry}")
    factor: float = 2.0 ** ((temp_c - 20.0) / figures.SELF_DISCHARGE_DOUBLING_K.value)
    return Span(
        factor * min(float(row["monthly_loss_low_ratio"]) for row in rows),
        factor * max(float(row["monthly_loss_ratio"]) for row in rows),
        min(0.99, factor * max(float(row["monthly_loss_high_ratio"]) for row in rows)),
    )


@dataclass(frozen=True, slots=True)
class Loss:
    """What standing does to a charge: the share of it that is left, and what a vehicle's drain took, of full."""

    left_ratio: Span
    drained_ratio: Span

    def after(self, soc_ratio: Span) -> Span:
        """A charge after standing, low to high; under 0 where it would be flat."""
        left, drained = self.left_ratio, self.drained_ratio
        return Span(
            soc_ratio.low * left.low - drained.high,
            soc_ratio.best * left.best - drained.best,
            soc_ratio.high * left.high - drained.low,
        )


NO_LOSS = Loss(Span.exactly(1.0), Span.exactly(0.0))


def standing_loss(
    *, days: float, chemistry: Chemistry, standing: Standing, mean_temp_c: float, capacity_ah: float | None
) -> Loss:
    """What so many days of standing take. Stored, SoC (1 - r)^months; left connected, the drain's Ah of C20 as well.

    >>> kept = {"chemistry": Chemistry.AGM, "standing": Standing.CONNECTED, "mean_temp_c": 20.0}
    >>> loss = standing_loss(days=10, capacity_ah=80.0, **kept)
    >>> round(loss.left_ratio.best, 3), round(loss.drained_ratio.best, 3)
    (0.99, 0.09)
    """
    rate = monthly_loss(chemistry=chemistry, temp_c=mean_temp_c)
    months = days / _MONTH_DAYS
    left = Span(*((1 - loss) ** months for loss in (rate.high, rate.best, rate.low)))
    drained = Span.exactly(0.0)
    if standing is Standing.CONNECTED and capacity_ah is not None:
        drained = Span.of(figures.PARASITIC_A).times(24 * days / capacity_ah)
    return Loss(left, drained)


@sourced(
    Source(Tag.PRACTICE, "self-discharge doubles every 10 °C; TM 9-6140-200-14 §4-8 gives 2.1-2.3"),
    figures.PARASITIC_A.source,
)
def carry_forward(
    charge: Charge,
    *,
    days: float,
    chemistry: Chemistry,
    standing: Standing,
    mean_temp_c: float = 20.0,
    capacity_ah: float | None = None,
) -> Charge:
    """The charge `days` later. Stored disconnected it loses by itself: SoC (1 - r)^months.

    Left connected it also feeds the vehicle's standing drain (30 mA, 20 to 50), which needs the 20 h capacity in Ah.
    Driven since: read again. Over a year: read again. The result is *not known* where it cannot be told.

    >>> from kitlist.physics.battery.charge import state_of_charge
    >>> full = state_of_charge(chemistry=Chemistry.CALCIUM, rested_v=12.85, rested_h=24, temp_c=25)
    >>> kept = {"chemistry": Chemistry.CALCIUM, "standing": Standing.DISCONNECTED}
    >>> later = carry_forward(full, days=90, mean_temp_c=30, **kept)
    >>> round(later.soc_ratio.best, 3)
    0.831
    """
    if days < 0:
        raise OutOfRange(f"{days:g} days: a reading is carried forward, not back")
    if charge.soc_ratio is None or days == 0:
        return charge
    reason = ""
    if standing is Standing.DRIVEN:
        reason = "driven or charged since it was read: read it again"
    elif days > _LONGEST_DAYS:
        reason = f"its reading is {days:.0f} days old by then: over a year tells nothing, read it again"
    elif standing is Standing.CONNECTED and capacity_ah is None:
        reason = "left connected, and its capacity is not known: read it again"
    if reason:
        return Charge(None, reason)
    loss = standing_loss(
        days=days, chemistry=chemistry, standing=standing, mean_temp_c=mean_temp_c, capacity_ah=capacity_ah
    )
    left = loss.after(charge.soc_ratio)
    if left.best <= 0.0:
        return Charge(None, f"likely flat after {counted(round(days), 'day')}: charge it and read it again")
    now = Span(max(0.0, left.low), left.best, left.high)
    return replace(
        charge,
        soc_ratio=now,
        ocv_25_v=_volts_later(charge, now, chemistry),
        notes=(*charge.notes, f"carried forward {counted(round(days), 'day')}"),
    )


def _volts_later(charge: Charge, now: Span, chemistry: Chemistry) -> Span | None:
    """The rested volts of the reading, less what the loss of charge takes off the table; None without a table."""
    was, volts = charge.soc_ratio, charge.ocv_25_v
    if was is None or volts is None or chemistry is Chemistry.UNKNOWN:
        return None
    falls = [
        rested_volts(soc_ratio=before, chemistry=chemistry) - rested_volts(soc_ratio=after, chemistry=chemistry)
        for before, after in ((was.low, now.low), (was.best, now.best), (was.high, now.high))
    ]
    return Span(volts.low - max(falls), volts.best - falls[1], volts.high - min(falls))


@sourced(Source(Tag.READ, "TM 5-4210-230-14&P-1, Table 2"))
def freezing_point(*, soc_ratio: float) -> float:
    """Temperature at which the acid of a lead-acid battery freezes, °C, at a state of charge from 0 to 1.

    >>> freezing_point(soc_ratio=0.25)
    -15.0
    """
    points = [(float(row["soc_ratio"]), float(row["freezes_c"])) for row in table("freezing")]
    return between(points, soc_ratio, what="state of charge", unit="of full")


def may_freeze(*, soc_ratio: Span | None, coldest_c: float) -> bool | None:
    """Whether the acid may freeze at the coldest expected temperature; None where the charge is not known.

    Taken at the low bound of the charge; an unknown charge is safe only above the freezing point of a flat battery.

    >>> may_freeze(soc_ratio=Span(0.1, 0.3, 0.4), coldest_c=-12.0)
    True
    """
    if coldest_c > freezing_point(soc_ratio=0.0):
        return False
    if soc_ratio is None:
        return None
    return coldest_c <= freezing_point(soc_ratio=soc_ratio.low)
