"""Current ranges against Machinery's Handbook and the annex of AWS A5.1, typed here from the printed tables."""

import pytest

from kitlist.welding.rods.currents import current_range

# Machinery's Handbook, 31st ed., pp. 1593 to 1594: class, diameter, range. Each must hold the range to use.
MACHINERYS = """
E6010 2.5 40-75
E6010 3.2 75-130
E6010 4.0 90-170
E6011 5.0 135-220
E6012 1.6 25-50
E6012 3.2 85-140
E6013 1.6 20-40
E6013 2.5 50-100
E6013 3.2 75-135
E6013 4.0 110-185
E6013 5.0 150-235
E7014 2.5 75-120
E7014 3.2 110-155
E7018 2.5 70-105
E7018 3.2 110-160
E7018 4.0 150-215
E7024 3.2 130-180
E6027 4.0 155-245
"""


@pytest.mark.parametrize("line", MACHINERYS.strip().splitlines())
def test_the_range_to_use_lies_within_machinerys(line):
    name, diameter, span = line.split()
    low_a, high_a = map(float, span.split("-"))
    used = current_range(name, diameter_mm=float(diameter))
    assert low_a <= used.low_a < used.high_a <= high_a
    assert (low_a, high_a) in used.said


# What is used where the sources disagree: (class, diameter): low, high, first and last of where to start.
@pytest.mark.parametrize(
    ("name", "diameter_mm", "low_a", "high_a", "start_from_a", "start_to_a"),
    [("E6013", 2.5, 50, 90, 70, 75), ("E7018", 2.5, 70, 105, 85, 90), ("E6011", 4.0, 110, 170, 130, 150)],
)
def test_the_part_that_all_sources_allow_is_used(name, diameter_mm, low_a, high_a, start_from_a, start_to_a):
    used = current_range(name, diameter_mm=diameter_mm)
    assert (used.low_a, used.high_a) == (low_a, high_a)
    assert start_from_a <= used.start_a <= start_to_a


def test_a_starting_rule_of_the_trade_falls_in_the_ranges():
    """Common practice: about an ampere for a thousandth of an inch of core; rutile 30 to 40 A/mm."""
    assert current_range("E7018", diameter_mm=3.2).low_a <= 125 <= current_range("E7018", diameter_mm=3.2).high_a
    for diameter_mm in (2.5, 3.2, 4.0):
        assert 28 <= current_range("E6013", diameter_mm=diameter_mm).start_a / diameter_mm <= 40
