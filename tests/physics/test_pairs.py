"""Pairs and strings apart: the limits at which they join again, and what runs between them."""

from __future__ import annotations

from math import asinh

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.physics.bank.pairs import Rejoin, rejoin_halves, rejoin_twins, twin_may_go, unequal_halves
from kitlist.physics.bank.strings_apart import circulating_charge


@pytest.mark.parametrize(
    ("apart_v", "answer"),
    [
        (0.0, Rejoin.BACK),
        (12.70 - 12.65, Rejoin.BACK),
        (0.06, Rejoin.CAMP_ONLY),
        (12.70 - 12.60, Rejoin.CAMP_ONLY),
        (0.11, Rejoin.CHARGE_FIRST),
        (1.0, Rejoin.CHARGE_FIRST),
    ],
)
def test_the_halves_of_24_v_by_volts_apart(apart_v, answer):
    assert rejoin_halves(apart_v=apart_v) is answer


def test_twins_join_again_at_a_fifth_of_a_volt():
    assert rejoin_twins(apart_v=12.7 - 12.5)
    assert not rejoin_twins(apart_v=0.21)


@pytest.mark.parametrize(
    ("seen", "coldest", "may"),
    [(True, 0.0, True), (True, -0.1, False), (False, 20.0, False), (None, 20.0, False), (True, None, False)],
)
def test_a_twin_goes_only_if_the_other_was_seen_to_start_and_never_in_frost(seen, coldest, may):
    assert twin_may_go(starts_alone=seen, coldest_c=coldest) is may


def test_a_half_that_welded_alone_by_the_check_values():
    apart = unequal_halves(given_ah=4.1, capacity_ah=70)
    assert apart.apart_v == pytest.approx(0.048, abs=0.0005)
    assert apart.fuller_sees_v == pytest.approx(15.0)
    assert unequal_halves(given_ah=8.5, capacity_ah=70).hydrogen_litre == pytest.approx(21, abs=0.5)


def test_strings_apart_by_the_check_values():
    apart = circulating_charge(apart_v=0.2, in_series=3, capacity_ah=70, loop_ohm=0.045)
    assert apart.first_a == pytest.approx(2.3, abs=0.05)
    assert apart.moves_ah == pytest.approx(2.78, abs=0.05)
    assert apart.hours_to(0.9) == pytest.approx(2.8, abs=0.05)
    assert circulating_charge(apart_v=1.0, in_series=3, capacity_ah=70, loop_ohm=0.045).first_a == pytest.approx(
        11.6, abs=0.05
    )


@pytest.mark.parametrize("apart_v", [0.05, 0.5, 3.0])
def test_the_first_current_takes_up_all_the_volts(apart_v):
    amps = circulating_charge(apart_v=apart_v, in_series=2, capacity_ah=90, loop_ohm=0.03).first_a
    assert amps * 0.03 + 4 * 0.33 * asinh(1.48 * amps / 90) == pytest.approx(apart_v)


@pytest.mark.parametrize(
    "call",
    [
        lambda: rejoin_halves(apart_v=-0.1),
        lambda: rejoin_twins(apart_v=16.0),
        lambda: unequal_halves(given_ah=80, capacity_ah=70),
        lambda: circulating_charge(apart_v=0.2, in_series=5, capacity_ah=70, loop_ohm=0.045),
        lambda: circulating_charge(apart_v=0.2, in_series=3, capacity_ah=70, loop_ohm=0.0),
        lambda: circulating_charge(apart_v=0.2, in_series=3, capacity_ah=70, loop_ohm=0.045).hours_to(1.0),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("apart_v", 0.0, 14.0), ("in_series", 1, 4), ("capacity_ah", 1.0, 400.0), ("loop_ohm", 1e-4, 5.0)],
)
def test_strings_apart_are_answered_at_both_ends_of_each_range_and_refused_past_them(name, low, high):
    facts = {"apart_v": 0.2, "in_series": 3, "capacity_ah": 70.0, "loop_ohm": 0.045}
    for end in (low, high):
        assert circulating_charge(**facts | {name: end}).hours_to(0.5) > 0
    for beyond in (low - 1, high + 1):
        with pytest.raises(OutOfRange, match="is outside"):
            circulating_charge(**facts | {name: beyond})


def test_strings_apart_by_hand_and_of_equal_volts_nothing_runs():
    apart = circulating_charge(apart_v=0.3, in_series=2, capacity_ah=90, loop_ohm=0.03)
    volts_per_ah = 0.84 * 2 / 90
    assert apart.moves_ah == pytest.approx(0.3 / (2 * volts_per_ah))
    assert apart.tau_h == pytest.approx((0.03 + 0.977 * 2 / 90) / (2 * volts_per_ah))
    assert (apart.hours_to(0.0), circulating_charge(**level()).first_a) == (0.0, 0.0)
    with pytest.raises(OutOfRange, match="0 to 1"):
        apart.hours_to(-0.01)


def level():
    return {"apart_v": 0.0, "in_series": 1, "capacity_ah": 90, "loop_ohm": 0.03}


@pytest.mark.parametrize("apart_v", [0.0, 15.0])
def test_halves_and_twins_are_judged_from_0_to_15_v_apart(apart_v):
    assert rejoin_halves(apart_v=apart_v) is (Rejoin.CHARGE_FIRST if apart_v else Rejoin.BACK)
    assert rejoin_twins(apart_v=apart_v) is (apart_v == 0.0)
    beyond = apart_v + 0.1 if apart_v else -0.1
    for judge in (rejoin_halves, rejoin_twins):
        with pytest.raises(OutOfRange):
            judge(apart_v=beyond)
