"""Low, best and high of one computed figure."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    """A figure known within bounds; the unit stands in the name of whatever holds it."""

    low: float
    best: float
    high: float

    @classmethod
    def within(cls, best: float, *, ratio: float) -> Spread:
        """`best`, plus and minus a share of itself.

        >>> Spread.within(10.0, ratio=0.2)
        Spread(low=8.0, best=10.0, high=12.0)
        """
        return cls(best * (1 - ratio), best, best * (1 + ratio))

    def times(self, factor: float) -> Spread:
        """Every bound times a factor that is not negative."""
        return Spread(self.low * factor, self.best * factor, self.high * factor)
