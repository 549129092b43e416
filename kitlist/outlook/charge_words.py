"""How long a charge takes, in words: the one wording of the terminal, the day's book, the papers and the gaps."""

from __future__ import annotations

from math import inf

from kitlist.physics.battery.charge_time import ChargeTime

_LONG_H = 2.0  # from here nobody thinks in minutes
_NOTHING = "the vehicle may leave nothing for it"


def time_words(takes: ChargeTime) -> str:
    """What is likely, how long 8 times in 10, and the longest; what has no end in words.

    >>> time_words(ChargeTime(shortest_h=0.1, low_h=0.23, likely_h=0.37, high_h=0.63, longest_h=1.54))
    'about 22 min (8 times in 10: 14 to 38 min; longest 92 min)'
    >>> time_words(ChargeTime(shortest_h=0.5, low_h=1.0, likely_h=1.5, high_h=2.9, longest_h=inf))
    'about 90 min (8 times in 10: 60 min to 2.9 h; at worst without end: the vehicle may leave nothing for it)'
    """
    if takes.shortest_h == inf:
        return "never: it gives no more than the vehicle takes"
    if takes.likely_h == inf:
        return f"more likely never: {_NOTHING}; at the shortest {_one(takes.shortest_h)}"
    likely = f"about {_one(takes.likely_h)}"
    if takes.high_h == inf:
        return f"{likely} (8 times in 10: from {_one(takes.low_h)}, or no end: {_NOTHING})"
    worst = f"at worst without end: {_NOTHING}" if takes.longest_h == inf else f"longest {_one(takes.longest_h)}"
    return f"{likely} (8 times in 10: {_range(takes.low_h, takes.high_h)}; {worst})"


def _range(low_h: float, high_h: float) -> str:
    low, high = _one(low_h), _one(high_h)
    same = low.split()[-1] == high.split()[-1]
    return f"{low.split()[0]} to {high}" if same else f"{low} to {high}"


def _one(hours: float) -> str:
    return f"{hours * 60:.0f} min" if hours < _LONG_H else f"{hours:.1f} h"
