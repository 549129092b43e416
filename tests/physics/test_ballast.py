"""The ballast strip: the check table of sections, its conservation of energy, and what is refused."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import BallastMetal
from kitlist.physics.leads.ballast import BallastHeat, Strip, heat_of_strip, length_for, resistivity

STAINLESS, MILD = BallastMetal.STAINLESS, BallastMetal.MILD


@pytest.mark.parametrize(
    ("metal", "width", "thickness", "metres", "peak", "held", "ratio"),
    [
        (STAINLESS, 25, 1.0, 1.98, 445, 545, 0.78),
        (STAINLESS, 30, 1.0, 2.50, 335, 455, 0.82),
        (STAINLESS, 40, 1.0, 3.57, 209, 328, 0.88),
        (STAINLESS, 40, 1.5, 5.64, 130, 250, 0.92),
        (MILD, 20, 1.0, 6.57, 201, 435, 0.66),
        (MILD, 19, 0.8, 3.95, 335, 583, 0.52),
    ],
)
def test_strips_of_74_mohm_at_150_a_by_the_check_table(metal, width, thickness, metres, peak, held, ratio):
    heat = heat_of_strip(Strip(metal, width, thickness), current_a=150.0)
    assert length_for(ohm=0.074, heat=heat) == pytest.approx(metres, rel=0.005)
    assert heat.peak_c == pytest.approx(peak, abs=1.0)
    assert heat.held_c == pytest.approx(held, abs=1.0)
    assert heat.cold_over_hot == pytest.approx(ratio, abs=0.005)


def test_which_of_them_are_fit_for_use():
    def fit(*strip):
        return heat_of_strip(Strip(*strip), current_a=150.0).fit_for_use

    assert [fit(STAINLESS, 25, 1), fit(STAINLESS, 30, 1), fit(MILD, 20, 1), fit(MILD, 19, 0.8)] == [
        False,
        True,
        True,
        False,
    ]


def test_more_current_or_flat_on_earth_is_hotter_and_a_longer_pause_cooler():
    strip = Strip(STAINLESS, 30, 1)
    peak = heat_of_strip(strip, current_a=150.0).peak_c
    assert heat_of_strip(strip, current_a=170.0).peak_c > peak
    assert heat_of_strip(Strip(STAINLESS, 30, 1, 0.5), current_a=150.0).peak_c > peak
    assert heat_of_strip(strip, current_a=150.0, pause_s=600.0).peak_c < peak


def test_with_no_loss_the_heat_is_what_the_current_made():
    # One short burn on a thick strip loses next to nothing: I2 rho t / (D c A2), by hand 2.23 K.
    strip = Strip(STAINLESS, 40, 5)
    rise = heat_of_strip(strip, current_a=150.0, burn_s=24.0, pause_s=7200.0, ambient_c=20.0).peak_c - 20.0
    assert rise == pytest.approx(150**2 * 0.72e-6 * 24 / (7900 * 530 * (200e-6) ** 2), rel=0.02)


def test_resistivities_as_in_the_handbook_and_below_the_first_point():
    assert resistivity(metal=STAINLESS, temp_c=400) == 0.98
    assert resistivity(metal=MILD, temp_c=20) == 0.142
    assert resistivity(metal=MILD, temp_c=-18) == pytest.approx(0.142 - 38 * 0.0006)


@pytest.mark.parametrize(
    "call",
    [
        lambda: Strip(STAINLESS, 1.0, 1.0),
        lambda: heat_of_strip(Strip(STAINLESS, 10, 0.5), current_a=300.0),
        lambda: heat_of_strip(Strip(STAINLESS, 30, 1), current_a=0.0),
        lambda: heat_of_strip(Strip(STAINLESS, 30, 1), current_a=100.0, burn_s=0.0),
        lambda: resistivity(metal=MILD, temp_c=1100),
        lambda: length_for(ohm=0.0, heat=heat_of_strip(Strip(STAINLESS, 30, 1), current_a=150.0)),
    ],
)
def test_nonsense_and_what_would_melt_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


def test_an_arc_held_on_a_thin_strip_has_no_end_temperature():
    assert heat_of_strip(Strip(MILD, 19, 0.8), current_a=300.0, burn_s=5.0).held_c is None


def test_under_20_degrees_the_slope_of_the_first_step_goes_on():
    assert resistivity(metal=MILD, temp_c=10) == pytest.approx(0.142 - 10 * 0.0006)


def test_held_on_a_strip_ends_where_it_gives_off_what_the_current_makes():
    strip = Strip(STAINLESS, 30, 1)
    held_c = heat_of_strip(strip, current_a=150.0, ambient_c=20.0).held_c
    made_w = 150**2 * resistivity(metal=STAINLESS, temp_c=held_c) * 1e-6 / 30e-6
    kelvin, air = held_c + 273.15, 293.15
    given_w = strip.cooled_ratio * 2 * 31e-3 * (0.6 * 5.670374e-8 * (kelvin**4 - air**4) + 10 * (held_c - 20))
    assert given_w == pytest.approx(made_w, rel=1e-4)


def test_a_pause_carries_no_current_and_the_mean_of_a_burn_is_half_of_its_rise():
    # 5 A for 1 s in a strip of 0.9 mm², cold again before every rod: I² rho t / (D c A²), by hand 5.3 K
    heat = heat_of_strip(Strip(STAINLESS, 3, 0.3), current_a=5.0, burn_s=1.0, pause_s=7200.0, ambient_c=20.0)
    rise = 25 * 0.72e-6 / (7900 * 530 * (0.9e-6) ** 2)
    assert heat.peak_c - 20.0 == pytest.approx(rise, rel=0.05)
    assert heat.mean_c - 20.0 == pytest.approx(rise / 2, rel=0.06)


def test_half_second_steps_are_as_good_as_steps_of_a_millisecond():
    strip = Strip(STAINLESS, 12, 0.5)
    warms, fine_c = strip.warming(current_a=100.0, ambient_c=20.0), 20.0
    for _ in range(30_000):
        fine_c += 0.001 * warms(fine_c)
    heat = heat_of_strip(strip, current_a=100.0, burn_s=30.0, pause_s=7200.0, ambient_c=20.0)
    assert heat.peak_c == pytest.approx(fine_c, rel=2e-4)


@pytest.mark.parametrize(
    ("peak_c", "cold_ohm", "fit"), [(400.0, 0.6, True), (400.5, 0.6, False), (400.0, 0.59, False), (50.0, 1.0, True)]
)
def test_fit_for_use_is_up_to_400_degrees_and_from_six_tenths_of_its_hot_resistance(peak_c, cold_ohm, fit):
    heat = BallastHeat(peak_c=peak_c, mean_c=40.0, held_c=None, cold_ohm_per_m=cold_ohm, hot_ohm_per_m=1.0)
    assert heat.fit_for_use is fit


def test_a_strip_that_a_rod_takes_over_1000_degrees_is_refused_with_what_helps():
    with pytest.raises(OutOfRange, match="over 1000") as refused:
        heat_of_strip(Strip(STAINLESS, 10, 0.5), current_a=300.0)
    assert "wider or thicker" in refused.value.hint
