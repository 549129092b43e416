"""Filter shades against the printed tables, at each boundary."""

import pytest

from kitlist.welding.rods.shades import (
    comfort_shade,
    guide_shade,
    guide_shade_by_rod,
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
    [(39.9, 8), (40, 9), (80, 9), (80.1, 10), (175, 10), (175.1, 11), (300, 11), (300.1, 12)],
)
def test_en_169_minimum_from_memory(current_a, shade):
    assert minimum_shade("EN", current_a=current_a).shade == shade


@pytest.mark.parametrize(
    ("current_a", "shade"), [(20, 9), (39, 9), (40, 10), (79, 10), (80, 11), (174, 11), (175, 12), (299, 12), (300, 13)]
)
def test_en_169_guide_as_a_welding_machine_manual_prints_it(current_a, shade):
    assert guide_shade(current_a=current_a) == shade


def test_the_en_guide_is_never_more_than_one_shade_over_the_minimum_held():
    for whole_a in range(20, 500):
        current_a = whole_a + 0.5  # at a border the guide takes the darker shade, the minimum the lighter
        guide = guide_shade(current_a=current_a)
        assert guide is not None
        assert 0 <= guide - minimum_shade("EN", current_a=current_a).shade <= 1


@pytest.mark.parametrize(("current_a", "shade"), [(59, None), (60, 10), (160, 10), (161, 12), (250, 12), (251, 14)])
def test_ansi_comfort_shades_by_z49_1(current_a, shade):
    assert comfort_shade(current_a=current_a) == shade


@pytest.mark.parametrize(("rod_mm", "shade"), [(1.6, 10), (3.2, 10), (4.0, 10), (4.8, 12), (6.4, 12), (7.9, 14)])
def test_osha_guide_by_rod_by_29_cfr_1910_252_b_2(rod_mm, shade):
    assert guide_shade_by_rod(rod_mm=rod_mm) == shade


def test_the_worked_value_at_110_a():
    """OSHA 8, AS/NZS 10, ANSI comfort 10, OSHA guide for 3.2 mm 10."""
    assert minimum_shade("OSHA", current_a=110).shade == 8
    assert strictest_minimum(current_a=110).shade == 10
    assert comfort_shade(current_a=110) == 10
    assert guide_shade_by_rod(rod_mm=3.2) == 10
