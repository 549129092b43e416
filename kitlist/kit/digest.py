"""What a kit is for a page that was made from it, in eight digits: another kit has others."""

from __future__ import annotations

import hashlib

from kitlist.kit import PLURALS, Kit, Trip

_MADE_FROM = ("bag", "vehicle", "battery", "lead", "clamp", "gear", "tool", "item", "repair")


def kit_digest(kit: Kit, trip: Trip) -> str:
    """Eight hex digits over what the kit holds and how it is stowed, the trip and its bank.

    Readings, ticks, practice welds and rods burned are left out: they are what comes back from the page itself.
    """
    things = [sorted(_described(thing) for thing in getattr(kit, PLURALS[kind])) for kind in _MADE_FROM]
    rods = sorted(f"{rod.name} {rod.designation} {rod.diameter_mm} {rod.length_mm}" for rod in kit.rods)
    text = repr((things, rods, trip.name, trip.vehicles, trip.bank, trip.bank_strings, trip.coldest_c, trip.hottest_c))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def _described(thing: object) -> str:
    """A thing without what going through the bags says of it."""
    changing = ("count", "sound", "checked_on", "volume_l")
    fields = [name for name in thing.__slots__ if name not in changing]  # type: ignore[attr-defined]
    return repr([(name, getattr(thing, name)) for name in fields])
