"""Filter shades against the printed tables, at each boundary."""

import pytest

from kitlist.welding.rods.shades import (
    advised_shade,
    minimum_shade,
    strictest_minimum,
)


@pytest.mark.parametrize(
    ("current_a", "shade"),
    [(1, 7), (59.9, 7), (60, 8), (110, 8), (160, 8), (160.1, 10), (250, 10), (250.1, 11), (550, 11)],
)
def test_osha_minimum_by_29_cfr_1910_133_a_5(current_a, shade):
    assert minimum_shade("OSHA", current_a=current_a).shade == shade


@pytest.mark.parametrize(
    ("current_a", "shade"),
    [(1, 8), (100, 8), (100.1, 10), (200, 10), (200.1, 11), (300, 11), (300.1, 12), (400, 12), (400.1, 13), (550, 13)],
)
def test_as_nzs_minimum_as_a_welding_machine_manual_prints_as_nzs_1338_1(current_a, shade):
    assert minimum_shade("AS/NZS", current_a=current_a).shade == shade


@pytest.mark.parametrize(
    ("current_a", "shade"),
    [(39.9, 8), (40, 9), (79.9, 9), (80, 10), (174.9, 10), (175, 11), (299.9, 11), (300, 12), (500, 13)],
)
def test_en_169_guide_less_the_one_shade_that_its_note_allows(current_a, shade):
    assert minimum_shade("EN", current_a=current_a).shade == shade


@pytest.mark.parametrize(
    ("current_a", "shade"), [(20, 9), (39, 9), (40, 10), (79, 10), (80, 11), (174, 11), (175, 12), (299, 12), (300, 13)]
)
def test_en_169_guide_as_a_welding_machine_manual_prints_it(current_a, shade):
    assert advised_shade(current_a=current_a) == shade


def test_the_worked_value_at_110_a():
    """OSHA 8, AS/NZS 10, EN stop 10, guide 11."""
    assert minimum_shade("OSHA", current_a=110).shade == 8
    assert strictest_minimum(current_a=110).shade == 10
    assert minimum_shade("EN", current_a=110).shade == 10
    assert advised_shade(current_a=110) == 11
