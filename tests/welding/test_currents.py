"""Where in a rod's range to work."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Position
from kitlist.welding.designation.a5_1 import classes
from kitlist.welding.rods.currents import choose_current, current_range, nominal_size_mm


@pytest.mark.parametrize(
    ("marked_mm", "size_mm"), [(2.4, 2.5), (2.5, 2.5), (2.6, 2.5), (3.15, 3.2), (3.25, 3.2), (4.8, 5.0), (1.6, 1.6)]
)
def test_marked_diameters_are_trade_sizes(marked_mm, size_mm):
    assert nominal_size_mm(marked_mm) == size_mm


@pytest.mark.parametrize("marked_mm", [0.5, 1.8, 2.2, 2.9, 3.6, 4.4, 6.0])
def test_a_diameter_between_sizes_is_refused_with_what_is_held(marked_mm):
    with pytest.raises(OutOfRange, match=f"{marked_mm:g} mm is no trade size: 1.6, 2, 2.5, 3.2, 4, 5"):
        nominal_size_mm(marked_mm)


def test_every_class_has_a_range_at_4_mm_in_which_to_start():
    for name in classes():
        found = current_range(name, diameter_mm=4.0)
        assert found.low_a < found.start_a < found.high_a
        assert found.sources


def test_e6018_borrows_and_says_so():
    found = current_range("E6018", diameter_mm=3.2)
    assert found.low_a == current_range("E7018", diameter_mm=3.2).low_a
    assert "as E7018" in str(found.sources[0])


def test_no_range_is_made_up_where_no_source_has_one():
    with pytest.raises(OutOfRange, match=r"no source gives a range for E7018 of 2 mm; held: 2\.5 to 5 mm"):
        current_range("E7018", diameter_mm=2.0)
    with pytest.raises(OutOfRange, match="packet"):
        current_range(None, diameter_mm=3.2)


def test_thin_steel_takes_the_lowest_third_under_10_gauge():
    full = current_range("E6013", diameter_mm=2.5)  # 50 to 90 A
    thin = choose_current(full, thickness_mm=3.3)
    assert thin.high_a == pytest.approx(63.33, abs=0.01)
    assert thin.start_a == pytest.approx(56.67, abs=0.01)
    assert choose_current(full, thickness_mm=3.4).start_a == 70


def test_overhead_is_ten_to_fifteen_percent_less():
    full = current_range("E7018", diameter_mm=3.2)  # 115 to 160 A
    up = choose_current(full, thickness_mm=6, position=Position.VERTICAL)
    assert up.start_a == pytest.approx(0.875 * 137.5)
    assert up.high_a == pytest.approx(144)
    assert choose_current(full, thickness_mm=6, position=Position.HORIZONTAL).start_a == 137.5


def test_an_army_procedures_drop_for_vertical_is_near_ours():
    """TM 5-4210-230-14&P-1: 130 to 140 A flat, 110 to 120 A vertical-up."""
    full = current_range("E7018", diameter_mm=3.2)
    flat = choose_current(full, thickness_mm=8).start_a
    up = choose_current(full, thickness_mm=8, position=Position.VERTICAL).start_a
    assert 130 <= flat <= 140
    assert 110 <= up <= 121


def test_the_start_never_falls_under_the_rods_own_low_end():
    full = current_range("E6013", diameter_mm=2.5)
    choice = choose_current(full, thickness_mm=2.0, position=Position.OVERHEAD)
    assert full.low_a <= choice.start_a <= choice.high_a
    assert len(choice.why) == 2
