"""Whether a bank serves with the rods that are packed: one owner for the planner's banks and for the ways to a rod.

What is asked is what is expected of the bank, never a quick bound: a bound may rank banks, and leave out what is
surely worse, but no face says of a bank what this would not.
"""

from __future__ import annotations

from enum import StrEnum

from kitlist.base.terms import Polarity
from kitlist.kit import Kit, Trip
from kitlist.outlook import Expected
from kitlist.outlook.joining import joining
from kitlist.outlook.linkable import Bar
from kitlist.outlook.rods import RodOutlook


class Lost(StrEnum):
    """Why a bank is out."""

    LINKS = "more links than are packed"
    JOIN = "the packed leads do not join it up"
    WET = "too many volts for the wet"
    WET_NOT_SAID = "too many volts, and nobody has said whether it may be wet"
    APART = "parallel strings more than 0.2 V apart"
    MIXED = "parallel strings of unlike chemistry"
    BATTERY = "a battery that may not be linked"
    NOT_KNOWN = "its current is not known"
    RODS = "too few rods to the reserve"
    NO_ARC = "no arc more likely than not"
    LOAD_VOLTS = "a battery under 9.6 V on load"
    FIT = "current does not fit any packed rod"


_BARRED = {
    Bar.WET: Lost.WET,
    Bar.WET_NOT_SAID: Lost.WET_NOT_SAID,
    Bar.APART: Lost.APART,
    Bar.MIXED: Lost.MIXED,
}


def serves(rod: RodOutlook) -> bool:
    """Whether the bank welds with the rod, and one at least of it is likely."""
    return rod.welds and rod.rods is not None and rod.rods.likely > 0


def lost_by(kit: Kit, trip: Trip, found: Expected, *, polarity: Polarity | None) -> Lost | None:
    """Why the trip's bank does not serve, as it is expected, with its rods counted; None where it does.

    `polarity` is what all the packed rods say.
    """
    bank = found.bank
    if bank is not None and bank.bars:
        return _BARRED.get(bank.bars[0].bar, Lost.BATTERY)
    if bank is None or bank.not_known:
        return Lost.NOT_KNOWN
    if not any(serves(rod) for rod in found.rods):
        return Lost.RODS if any(rod.welds for rod in found.rods) else Lost.FIT
    return None if joins_up(kit, trip, polarity) else Lost.JOIN


def joins_up(kit: Kit, trip: Trip, polarity: Polarity | None) -> bool:
    """Whether the packed leads make the circuit of the trip's bank."""
    joined = joining(kit, trip, polarity=polarity)
    return joined is not None and not joined.missing
