"""A figure that is known only within bounds: low, best, high."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Figure


@dataclass(frozen=True, slots=True)
class Span:
    """Low, best and high of one figure; the unit stands in the name of whatever holds the span.

    >>> Span(0.6, 0.7, 0.9).width
    0.3
    """

    low: float
    best: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.best <= self.high:
            raise ValueError(f"{self.low}, {self.best}, {self.high} do not rise")

    @classmethod
    def exactly(cls, value: float) -> Span:
        """A figure taken as known."""
        return cls(value, value, value)

    @classmethod
    def around(cls, best: float, *, give_or_take: float) -> Span:
        """`best`, give or take as much either way."""
        return cls(best - give_or_take, best, best + give_or_take)

    @classmethod
    def within(cls, best: float, *, ratio: float) -> Span:
        """`best`, plus and minus a share of itself.

        >>> Span.within(10.0, ratio=0.2)
        Span(low=8.0, best=10.0, high=12.0)
        """
        return cls(best * (1 - ratio), best, best * (1 + ratio))

    @classmethod
    def of(cls, figure: Figure) -> Span:
        """The value and plausible range of a sourced figure."""
        low = figure.value if figure.low is None else figure.low
        high = figure.value if figure.high is None else figure.high
        return cls(low, figure.value, high)

    @property
    def width(self) -> float:
        """High less low, rounded to what a meter could tell."""
        return round(self.high - self.low, 12)

    @property
    def middle(self) -> float:
        """Half way from low to high."""
        return (self.low + self.high) / 2

    def times(self, factor: float) -> Span:
        """Every bound times a factor that is not negative."""
        return Span(self.low * factor, self.best * factor, self.high * factor)

    def at(self, quantile: float) -> float:
        """The value at a quantile of the uniform distribution from low to high."""
        return self.low + quantile * (self.high - self.low)


def between(points: Sequence[tuple[float, float]], x: float, *, what: str, unit: str) -> float:
    """Straight-line interpolation in rising `points`; outside them an `OutOfRange` that names value and range.

    >>> between([(0.0, 12.0), (0.5, 12.5)], 0.25, what="charge", unit="of full")
    12.25
    """
    if not points[0][0] <= x <= points[-1][0]:
        raise OutOfRange(
            f"{what} {x:g} {unit} is outside the table, {points[0][0]:g} to {points[-1][0]:g} {unit}".replace("  ", " ")
        )
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]
