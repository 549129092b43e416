"""How long a charge takes, in words: one unit where one does, and no number where there is no end."""

from __future__ import annotations

from math import inf

import pytest

from kitlist.outlook.charge_words import time_words
from kitlist.physics.battery.charge_time import ChargeTime

NOTHING = "the vehicle may leave nothing for it"


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        ((0.1, 0.2, 0.3, 0.4, 0.5), "about 18 min (8 times in 10: 12 to 24 min; longest 30 min)"),
        ((0.1, 1.0, 1.9, 2.6, 22.4), "about 114 min (8 times in 10: 60 min to 2.6 h; longest 22.4 h)"),
        ((0.1, 2.0, 2.5, 3.6, 9.0), "about 2.5 h (8 times in 10: 2.0 to 3.6 h; longest 9.0 h)"),
        ((1.0, 2.0, 2.5, 3.6, inf), f"about 2.5 h (8 times in 10: 2.0 to 3.6 h; at worst without end: {NOTHING})"),
        ((1.0, 2.0, 2.5, inf, inf), f"about 2.5 h (8 times in 10: from 2.0 h, or no end: {NOTHING})"),
        ((1.0, 2.0, inf, inf, inf), f"more likely never: {NOTHING}; at the shortest 60 min"),
        ((inf, inf, inf, inf, inf), "never: it gives no more than the vehicle takes"),
    ],
)
def test_minutes_up_to_two_hours_then_hours_and_no_end_in_words(hours, words):
    names = ("shortest_h", "low_h", "likely_h", "high_h", "longest_h")
    assert time_words(ChargeTime(**dict(zip(names, hours, strict=True)))) == words
