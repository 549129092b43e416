"""What a battery gives at once and what comes forward in a pause: the two-well kinetic model."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Source, Tag, sourced
from kitlist.physics import figures


@dataclass(frozen=True, slots=True)
class Wells:
    """Charge of a battery in two wells, Ah: all of it, and how far the one at hand stands off its even share."""

    total_ah: float
    off_even_ah: float = 0.0

    def at_hand_ah(self, share_ratio: float | None = None) -> float:
        """The charge that can be drawn at once, Ah; `share_ratio` as in `draw`."""
        return (figures.KINETIC_C.value if share_ratio is None else share_ratio) * self.total_ah + self.off_even_ah


@sourced(Source(Tag.FITTED, "kinetic battery model of Manwell and McGowan; c and k' fitted to PyBaMM lead_acid.Full"))
def draw(
    wells: Wells,
    *,
    current_a: float,
    hours: float,
    share_ratio: float | None = None,
    rate_per_h: float | None = None,
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
    share_ratio = figures.KINETIC_C.value if share_ratio is None else share_ratio
    rate_per_h = figures.KINETIC_K_PER_H.value if rate_per_h is None else rate_per_h
    left = exp(-rate_per_h * hours)
    settled_ah = -(1.0 - share_ratio) * current_a / rate_per_h
    return Wells(wells.total_ah - current_a * hours, settled_ah + (wells.off_even_ah - settled_ah) * left)
