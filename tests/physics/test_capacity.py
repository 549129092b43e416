"""Peukert, reserve capacity and the two wells: published worked examples."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.capacity import (
    Wells,
    capacity_from_reserve,
    continuous_burn_h,
    draw,
    peukert_exponent,
    reserve_minutes,
)


def test_reserve_capacity_and_capacity_are_inverses():
    for chemistry in (Chemistry.FLOODED, Chemistry.AGM):
        minutes = reserve_minutes(capacity_ah=63.0, chemistry=chemistry)
        assert capacity_from_reserve(minutes=minutes, chemistry=chemistry) == pytest.approx(63.0)


def test_a_chemistry_not_known_takes_the_flooded_exponent_which_counts_least():
    assert peukert_exponent(Chemistry.UNKNOWN).value == 1.18
    assert peukert_exponent(Chemistry.GEL).value == 1.14


@pytest.mark.parametrize(
    "call",
    [
        lambda: continuous_burn_h(capacity_ah=70, current_a=100, exponent=2.0),
        lambda: continuous_burn_h(capacity_ah=70, current_a=0, exponent=1.2),
        lambda: reserve_minutes(capacity_ah=5, chemistry=Chemistry.AGM),
        lambda: capacity_from_reserve(minutes=5, chemistry=Chemistry.AGM),
        lambda: draw(Wells(70), current_a=10, hours=-1),
    ],
)
def test_outside_their_range_the_formulas_refuse(call):
    with pytest.raises(OutOfRange):
        call()


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
