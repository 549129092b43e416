"""The two wells of charge: what is kept, what is at hand, what comes forward."""

from __future__ import annotations

import math

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.physics.battery.capacity import Wells, draw


def test_time_does_not_run_back():
    with pytest.raises(OutOfRange):
        draw(Wells(70), current_a=10, hours=-1)


def test_ampere_hours_are_kept_whatever_the_wells_do():
    wells = Wells(70.0)
    for amps, hours in ((150.0, 0.01), (0.0, 0.5), (80.0, 0.05)):
        wells = draw(wells, current_a=amps, hours=hours)
    assert wells.total_ah == pytest.approx(70.0 - 1.5 - 4.0)


def test_a_burst_empties_the_well_at_hand_and_a_pause_fills_it_again():
    before = Wells(70.0).at_hand_ah()
    burst = draw(Wells(70.0), current_a=150.0, hours=0.05)
    rested = draw(burst, current_a=0.0, hours=2.0)
    assert burst.at_hand_ah() < before - 5.0
    assert rested.at_hand_ah() == pytest.approx(0.30 * 62.5, rel=1e-4)


def test_one_long_step_equals_many_short_ones():
    once = draw(Wells(70.0), current_a=120.0, hours=0.2)
    many = Wells(70.0)
    for _ in range(50):
        many = draw(many, current_a=120.0, hours=0.004)
    assert (many.total_ah, many.off_even_ah) == pytest.approx((once.total_ah, once.off_even_ah))


def test_a_rod_at_another_share_and_rate_by_the_equations_of_the_model():
    # Manwell and McGowan: y' = -(1 - c) I - k' y from y = 0: y = -(1 - c) I/k' (1 - exp(-k' t))
    drawn = draw(Wells(50.0), current_a=40.0, hours=0.25, share_ratio=0.2, rate_per_h=4.0)
    assert drawn.total_ah == pytest.approx(40.0)
    assert drawn.off_even_ah == pytest.approx(-0.8 * 40.0 / 4.0 * (1 - math.exp(-1.0)))
    assert drawn.at_hand_ah(0.2) == pytest.approx(0.2 * 40.0 + drawn.off_even_ah)


def test_no_time_changes_nothing():
    assert draw(Wells(50.0, -3.0), current_a=100.0, hours=0.0) == Wells(50.0, -3.0)
