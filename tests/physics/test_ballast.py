"""The ballast strip: the check table of sections, its conservation of energy, and what is refused."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import BallastMetal
from kitlist.physics.leads.ballast import Strip, heat_of_strip, length_for, resistivity

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
