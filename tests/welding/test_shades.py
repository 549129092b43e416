"""The strictest minimum and what is suggested."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitlist.base.errors import OutOfRange
from kitlist.welding.rods.shades import RULES, advised_shade, minimum_shade, strictest_minimum


@pytest.mark.parametrize(
    ("current_a", "shade", "rule"),
    [(50, 9, "EN"), (90, 10, "EN"), (180, 11, "EN"), (260, 11, "OSHA"), (320, 12, "AS/NZS")],
)
def test_the_darkest_of_three_rules_is_the_strictest(current_a, shade, rule):
    strictest = strictest_minimum(current_a=current_a)
    assert strictest.shade == shade
    assert minimum_shade(rule, current_a=current_a).shade == shade


@given(st.floats(min_value=0.1, max_value=549))
def test_more_current_never_asks_for_less_shade(current_a):
    for rule in RULES:
        assert minimum_shade(rule, current_a=current_a + 1).shade >= minimum_shade(rule, current_a=current_a).shade
    assert advised_shade(current_a=current_a) >= strictest_minimum(current_a=current_a).shade


@pytest.mark.parametrize(
    ("current_a", "shade"), [(15, 9), (39, 9), (40, 10), (80, 11), (174, 11), (175, 12), (310, 13), (500, 14)]
)
def test_advice(current_a, shade):
    assert advised_shade(current_a=current_a) == shade


@pytest.mark.parametrize("current_a", [0, -5, 551, float("nan")])
def test_current_outside_the_tables_is_refused(current_a):
    with pytest.raises(OutOfRange, match="more than 0 to 550 A"):
        strictest_minimum(current_a=current_a)


def test_a_rule_that_is_not_held_is_refused():
    with pytest.raises(OutOfRange, match="OSHA, AS/NZS, EN"):
        minimum_shade("DIN", current_a=100)
