"""What cold takes from a battery, and the charge that it must keep for that at any temperature of the trip."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from math import ceil, floor

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Source, Tag, sourced, table
from kitlist.base.span import Span, between
from kitlist.physics import figures
from kitlist.physics.battery.cranking import Cranking

WARM_C = 25.0
_NEVER = 2.0  # more than any battery holds: an engine that does not start even on a full one
_LESS, _MORE = 1.4, 0.55
"""How the loss may differ from the table's: 0.65 left at 0 °C at the least; 0.55 of the loss at the most left off."""


@cache
def _points() -> tuple[tuple[float, float], ...]:
    return tuple((float(row["temp_c"]), float(row["capacity_ratio"])) for row in table("cold_capacity"))


def coldest_known_c() -> float:
    """Under this nobody knows what a battery gives, °C.

    >>> coldest_known_c()
    -29.0
    """
    return _points()[0][0]


@sourced(Source(Tag.READ, "TM 10-6140-200-14; TM 5-4210-230-14&P-1, Table 3"))
def capacity_ratio(*, temp_c: float) -> Span:
    """Share of the warm capacity that a battery gives at its temperature, °C; 1 from 25 °C up.

    One curve for all chemistries. Not known under -29 °C: `OutOfRange`.

    >>> capacity_ratio(temp_c=0.0).best, round(capacity_ratio(temp_c=0.0).low, 2), capacity_ratio(temp_c=30.0).best
    (0.75, 0.65, 1.0)
    """
    return _capacity_ratio(temp_c)


@lru_cache(maxsize=1024)  # asked at the same few temperatures by every battery of every bank
def _capacity_ratio(temp_c: float) -> Span:
    points = _points()
    if temp_c < points[0][0]:
        raise OutOfRange(f"{temp_c:g} °C: what a battery gives under {points[0][0]:g} °C is not known")
    best = between(points, min(temp_c, WARM_C), what="temperature", unit="°C")
    return Span(max(0.0, 1.0 - _LESS * (1.0 - best)), best, 1.0 - _MORE * (1.0 - best))


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """The charge, of full, that one battery keeps on a trip.

    `warm_ratio` always; `cold_ratio` where it is under `cold_below_c` (an owner's own, 0 for none); what its engine
    needs (`cranking`); what cold takes of its capacity; `always_ratio` whatever else asks, at any temperature: the last
    starting battery of the trip, and the charge under which its volts on load or its charge at hand give out.
    """

    warm_ratio: float = figures.RESERVE_WARM.value
    cold_ratio: float = 0.0
    cold_below_c: float = 0.0
    cranking: Cranking | None = None
    always_ratio: float = 0.0

    def at(self, temp_c: float, *, just_under: bool = False) -> float:
        """The floor at a temperature, °C; `just_under` it, where an owner's cold floor makes a step there.

        Over 1 where even a full battery does not start its engine. Raises OutOfRange under -29 °C.

        >>> [round(Floor().at(c), 3) for c in (25, 10, 0, -6, -10, -18, -29)]
        [0.5, 0.575, 0.625, 0.683, 0.722, 0.8, 0.9]
        """
        cold = self.cold_ratio if temp_c < self.cold_below_c or (just_under and temp_c == self.cold_below_c) else 0.0
        taken = 1.0 - figures.RESERVE_WARM.value * capacity_ratio(temp_c=temp_c).best
        crank = (self.cranking.hardest_ratio(temp_c=temp_c) or 0.0) if self.cranking else 0.0
        return min(_NEVER, max(self.warm_ratio, cold, taken, crank, self.always_ratio))

    def turns(self, low_c: float, high_c: float) -> Iterator[tuple[float, bool]]:
        """The temperatures from `low_c` to `high_c` between which the floor runs straight, each as `at` takes it."""
        yield low_c, False
        if high_c <= low_c:
            return
        for temp_c in {point for point, _ in _points()} | {self.cold_below_c}:
            if low_c < temp_c <= high_c:
                yield temp_c, True  # on the colder side of a step, where the floor is the higher
                yield temp_c, False
        if self.cranking is not None:  # not straight: each degree
            yield from ((float(temp_c), False) for temp_c in range(floor(low_c) + 1, ceil(high_c)))
        yield high_c, False
