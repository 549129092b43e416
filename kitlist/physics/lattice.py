"""Evenly spread points in many dimensions: the same points every time, no random numbers.

A rank-1 lattice of Korobov's form: at point i, dimension j stands at the middle of level
i G^j mod N of N. As N is prime each column holds each of the N levels exactly once, so every single quantity is sampled
at its own exact quantiles; G was chosen so that no two of 60 neighbouring columns line up (largest shortest vector).
"""

from __future__ import annotations

from functools import cache

from kitlist.base.errors import OutOfRange

POINTS = 1021
GENERATOR = 636
MOST_DIMENSIONS = 200


@cache
def column(dimension: int) -> tuple[float, ...]:
    """Quantiles of one quantity at every point, each strictly between 0 and 1.

    >>> first = column(0)
    >>> len(first), min(first) > 0, max(first) < 1, round(sum(first) / len(first), 6)
    (1021, True, True, 0.5)
    """
    if not 0 <= dimension < MOST_DIMENSIONS:
        raise OutOfRange(f"dimension {dimension} is outside 0 to {MOST_DIMENSIONS - 1}")
    step = pow(GENERATOR, dimension, POINTS)
    return tuple(((i * step) % POINTS + 0.5) / POINTS for i in range(POINTS))
