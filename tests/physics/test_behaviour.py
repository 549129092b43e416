"""What trade practice says of two, three and four batteries (no published measurement is known): one test each."""

from __future__ import annotations

import pytest

from kitlist.physics.arc.arc import Held, arc_for, longest_arc, operating_point
from kitlist.physics.bank.band import current_band
from kitlist.physics.bank.examples import in_series
from kitlist.physics.bank.network import feed, longest_held, thevenin
from kitlist.physics.bank.verdict import Fit, judge


def source(count):
    seen = thevenin(in_series(count).network())
    return {"source_v": seen.emf_v, "source_ohm": seen.ohm}


def test_one_battery_cannot_hold_an_arc_at_any_length():
    assert longest_arc(**source(1)) == 0.0
    assert current_band(in_series(1)).high_a == 0.0


def test_two_batteries_hold_an_arc_only_when_it_is_very_short():
    assert operating_point(**source(2), arc=arc_for(length_mm=1.0)).burns
    assert not operating_point(**source(2), arc=arc_for(length_mm=4.0)).burns
    assert 1.0 < longest_arc(**source(2)) < 4.0


def test_the_longest_arc_of_a_bank_is_that_of_its_equivalent_source():
    for count in (1, 2, 3):
        assert longest_held(in_series(count).network()) == longest_arc(**source(count))


def test_two_batteries_hold_a_poor_arc_at_best():
    assert operating_point(**source(2)).held in (Held.NO_ARC, Held.POOR)


def test_three_batteries_hold_an_arc_of_about_a_centimetre_with_ease():
    point = operating_point(**source(3))
    assert point.held is Held.GOOD
    assert 9.5 <= point.longest_mm <= 12.5


def test_three_batteries_are_hot_for_3_2_mm_rods_and_too_hot_for_2_5_mm():
    band = current_band(in_series(3))
    assert judge(band, range_low_a=75, range_high_a=135) is Fit.HOT
    assert judge(band, range_low_a=50, range_high_a=100) is Fit.TOO_HOT


def test_three_batteries_suit_a_4_mm_rod_better():
    assert judge(current_band(in_series(3)), range_low_a=145, range_high_a=210) is Fit.IN_RANGE


def test_thicker_copper_than_25_square_millimetres_hardly_changes_the_current():
    thick = current_band(in_series(3, area_mm2=50)).middle_a
    assert thick == pytest.approx(current_band(in_series(3, area_mm2=25)).middle_a, rel=0.05)


@pytest.mark.parametrize("count", [2, 3])
def test_a_stuck_rod_draws_over_a_kiloamp_at_rest_volts(count):
    assert feed(in_series(count).network()).point.stuck_a > 700
