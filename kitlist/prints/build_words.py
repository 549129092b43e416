"""Words that several papers share."""

from __future__ import annotations

from kitlist.kit import Trip

COUNTS = {1: "one", 2: "two", 3: "three", 4: "four"}


def bank_words(trip: Trip) -> str:
    """The bank in words: three in series; two strings of two."""
    strings = trip.strings
    if len(strings) == 1:
        return f"{COUNTS.get(len(strings[0]), str(len(strings[0])))} in series"
    return f"{COUNTS.get(len(strings), str(len(strings)))} strings of {COUNTS.get(len(strings[0]), len(strings[0]))}"
