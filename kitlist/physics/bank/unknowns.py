"""What is not known of a current, what an owner could do about it, and which of it matters most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from operator import mul


class Unknown(StrEnum):
    """What is not known, by what an owner could do about it."""

    CHARGE = "charge of the batteries"
    RESISTANCE = "resistance and age of the batteries"
    TEMPERATURE = "temperature of the batteries"
    POSTS = "joints at the battery posts"
    ENDS = "holder and work clamp"
    LEADS = "length, area and warmth of the leads"
    HAND = "arc length held"
    ARC = "volts of this rod's arc"
    MODEL = "how far the battery model holds"

    @property
    def measure(self) -> str:
        """How an owner narrows it."""
        return {
            Unknown.CHARGE: "read each battery's volts after 6 h of rest, with its temperature",
            Unknown.RESISTANCE: "read each battery's volts before and during a load of 20 A or more, or use a tester",
            Unknown.TEMPERATURE: "hold a thermometer against each battery's case",
            Unknown.POSTS: "read the millivolts across each post joint at a known current; over 1 mV per amp: clean it",
            Unknown.ENDS: "read the millivolts across holder and work clamp at a known current",
            Unknown.LEADS: "read the volts from end to end of the leads at a known current",
            Unknown.HAND: "weld a practice bead and write down volts and amps: it shows your own arc length",
            Unknown.ARC: "weld a practice bead with this rod and write down volts at the holder and amps",
            Unknown.MODEL: "weld a practice bead and write down rest volts, bank volts and amps",
        }[self]


@dataclass(frozen=True, slots=True)
class Weight:
    """One unknown and its share of the spread of the current, ratio (shares of all unknowns sum to about 1)."""

    unknown: Unknown
    share_ratio: float


Taken = tuple[Unknown, tuple[float, ...]]
"""A column of the lattice, and which unknown it was drawn for."""


def weigh(currents: Sequence[float], taken: Sequence[Taken]) -> tuple[Weight, ...]:
    """Squared correlation of the current with each column, summed by unknown: its share of the spread.

    >>> from kitlist.physics.lattice import column
    >>> weigh(column(3), [(Unknown.HAND, column(3)), (Unknown.ARC, column(4))])[0].unknown.name
    'HAND'
    """
    count = len(currents)
    mean = sum(currents) / count
    moved = [current - mean for current in currents]
    spread = sum(x * x for x in moved)
    if spread == 0.0:
        return ()
    # A column holds the levels (k + 1/2)/N once each: its mean is 1/2 and its sum of squares is known.
    column_spread = (count - 1.0 / count) / 12.0
    shares: dict[Unknown, float] = {}
    for unknown, column in taken:
        together = sum(map(mul, moved, column))
        shares[unknown] = shares.get(unknown, 0.0) + together * together / (spread * column_spread)
    ranked = sorted(shares.items(), key=lambda item: (-item[1], item[0]))
    return tuple(Weight(unknown, share) for unknown, share in ranked)
