"""How long a charge takes as it turns out 8 times in 10, beside its limits.

Everything fast at once and everything slow at once hold all outcomes, and next to none comes near them. So what is not
known runs over its range (uniform; the rate at which a battery takes charge log-uniform) at the points of the lattice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from kitlist.base.sources import sourced
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics import figures, lattice
from kitlist.physics.battery.recharge import (
    COLD_TAKES,
    TAKES_FLOODED,
    Feed,
    acceptance_per_h,
    charge_volts,
    current_into_battery,
    engine_parts,
    hours_to,
    left_at,
    recharge_h,
    takes_per_h,
)

_TAKES, _VOLTS, _BACK, _GIVES, _LOAD, _CHARGE = range(1, 7)  # which column of the lattice each unknown runs over


EDGE = 0.075
"""What is left out at each end. A tenth would be 8 in 10 if the ranges were; they are practice's, and no standard
settles the most that a battery takes. With a little less left out the band holds 75 to 90 % of charges wherever that
most lies, from 0.60 to 0.70 of what is missing an hour at 0 °C (tests/outside/test_coverage.py)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargeTime:
    """Hours of one charge: 8 times in 10 from `low_h` to `high_h`, half the time up to `likely_h`, always from
    `shortest_h` to `longest_h`. Infinite where the source gives nothing.
    """

    shortest_h: float
    low_h: float
    likely_h: float
    high_h: float
    longest_h: float

    @classmethod
    def none(cls) -> ChargeTime:
        """Nothing to put back."""
        return cls(shortest_h=0.0, low_h=0.0, likely_h=0.0, high_h=0.0, longest_h=0.0)


@sourced(TAKES_FLOODED.source, COLD_TAKES.source, figures.CHARGE_RETURN.source)
def charge_time(
    *,
    feed: Feed,
    rating: float,
    soc_ratio: Span,
    to_soc_ratio: float,
    capacity_ah: float,
    chemistry: Chemistry = Chemistry.FLOODED,
    temp_c: float = 25.0,
    charge_v: float | None = None,
    batteries_at_once: int = 1,
) -> ChargeTime:
    """Hours to bring one battery from one charge to another: likely, 8 times in 10, and their limits (`recharge_h`).

    `rating` as `current_into_battery` has it; `batteries_at_once` share what the source gives.

    >>> back = charge_time(feed=Feed.IDLE, rating=100.0, soc_ratio=Span.exactly(0.5), to_soc_ratio=0.588,
    ...                    capacity_ah=70.0)
    >>> [round(60 * hours) for hours in (back.low_h, back.likely_h, back.high_h, back.longest_h)]
    [13, 22, 40, 92]
    """
    current_a = current_into_battery(feed, rating=rating, capacity_ah=capacity_ah, chemistry=chemistry)
    limits = recharge_h(
        soc_ratio=soc_ratio,
        to_soc_ratio=to_soc_ratio,
        capacity_ah=capacity_ah,
        current_a=current_a.times(1 / batteries_at_once),
        chemistry=chemistry,
        temp_c=temp_c,
        charge_v=charge_v,
    )
    rates, backs = _takes(chemistry, temp_c, charge_v)
    left_ah = left_at(to_soc_ratio, capacity_ah=capacity_ah)
    ranked = sorted(
        hours_to(
            missing_ah=(1.0 - soc_ratio.at(q)) * capacity_ah,
            left_ah=left_ah,
            source_a=amps / batteries_at_once,
            per_h=per_h,
            back=back,
        )
        for q, amps, per_h, back in zip(
            lattice.column(_CHARGE), _gives(feed, rating, current_a), rates, backs, strict=True
        )
    )
    return ChargeTime(
        shortest_h=limits.low,
        low_h=_of(ranked, EDGE),
        likely_h=_of(ranked, 0.5),
        high_h=_of(ranked, 1 - EDGE),
        longest_h=limits.high,
    )


@lru_cache(maxsize=16)  # a trip's batteries are of a few kinds, at one temperature
def _takes(chemistry: Chemistry, temp_c: float, charge_v: float | None) -> tuple[list[float], list[float]]:
    """The rate at which a battery takes charge, 1/h, and the ampere-hours for one back, at every point."""
    takes, volts, back = Span.of(takes_per_h(chemistry)), charge_volts(chemistry, charge_v), figures.CHARGE_RETURN
    rates = [
        acceptance_per_h(takes.low * (takes.high / takes.low) ** q, temp_c=temp_c, volts_v=volts.at(p))
        for q, p in zip(lattice.column(_TAKES), lattice.column(_VOLTS), strict=True)
    ]
    return rates, [Span.of(back).at(q) for q in lattice.column(_BACK)]


@lru_cache(maxsize=32)  # a few sources, each asked for every battery
def _gives(feed: Feed, rating: float, current_a: Span) -> Sequence[float]:
    """The current of the source at every point, A: of an engine its share and the vehicle's load each on its own."""
    gives = lattice.column(_GIVES)
    if feed not in (Feed.IDLE, Feed.FAST_IDLE):
        return [current_a.at(q) for q in gives]
    share, load_a = engine_parts(feed)
    return [max(0.0, share.at(q) * rating - load_a.at(p)) for q, p in zip(gives, lattice.column(_LOAD), strict=True)]


def _of(ranked: Sequence[float], share: float) -> float:
    """The one that this share of them does not go over: no mean of two, one of which may have no end."""
    return ranked[int(share * len(ranked))]
