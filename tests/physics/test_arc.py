"""The arc: the standard's load line, and the closed form against a plain numeric search."""

from __future__ import annotations

import math

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Covering
from kitlist.physics.arc.arc import (
    Arc,
    Held,
    arc_for,
    arc_through,
    arc_volts,
    ballast_for,
    how_held,
    lengths_held,
    longest_arc,
    longest_of,
    operating_point,
    solve,
)


def searched_current(source_v, source_ohm, arc, top=2000.0):
    """Largest current at which source and arc volts meet, by bisection from above; independent of the closed form."""

    def over(amps):
        u = arc.foot_v + arc.slope_v_per_mm * arc.length_mm + arc.rise_ohm * amps
        return source_v - source_ohm * amps - u - (arc.c_w + arc.d_w_per_mm * arc.length_mm) / amps

    steps = [top * (1 - i / 20000) for i in range(20000)]
    high = top
    for amps in steps:
        if over(amps) >= 0:
            low = amps
            break
        high = amps
    else:
        return 0.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if over(middle) >= 0 else (low, middle)
    return low


@pytest.mark.parametrize("source_v", [24.5, 30.0, 36.75, 49.0])
@pytest.mark.parametrize("source_ohm", [0.012, 0.025, 0.12])
@pytest.mark.parametrize("length", [0.5, 1.5, 3.0, 6.0])
def test_the_closed_form_meets_where_a_plain_search_does(source_v, source_ohm, length):
    arc = Arc(length_mm=length)
    found = operating_point(source_v=source_v, source_ohm=source_ohm, arc=arc).current_a
    assert found == pytest.approx(searched_current(source_v, source_ohm, arc), rel=1e-6, abs=1e-6)


def test_the_meeting_point_lies_on_the_source_line_and_on_the_arc():
    point = operating_point(source_v=36.75, source_ohm=0.025)
    assert point.arc_v == pytest.approx(36.75 - 0.025 * point.current_a)
    assert point.arc_v == pytest.approx(arc_volts(Arc(), current_a=point.current_a))


def test_the_longest_arc_is_where_the_arc_just_goes_out():
    longest = longest_arc(source_v=36.0, source_ohm=0.025)
    assert operating_point(source_v=36.0, source_ohm=0.025, arc=Arc(length_mm=longest - 1e-6)).burns
    assert not operating_point(source_v=36.0, source_ohm=0.025, arc=Arc(length_mm=longest + 1e-6)).burns


def test_no_volts_to_spare_is_no_arc():
    point = operating_point(source_v=12.25, source_ohm=0.01)
    assert not point.burns
    assert point.held is Held.NO_ARC
    assert point.longest_mm == 0.0


def test_a_stuck_rod_draws_rested_volts_over_resistance():
    assert operating_point(source_v=36.75, source_ohm=0.0249, ocv_v=37.95).stuck_a == pytest.approx(1524, abs=1)


@pytest.mark.parametrize(
    ("longest", "held"), [(2.9, Held.NO_ARC), (3.0, Held.POOR), (4.5, Held.FAIR), (7.5, Held.FAIR), (7.6, Held.GOOD)]
)
def test_how_held_turns_at_its_cut_offs(longest, held):
    assert how_held(longest_mm=longest, length_mm=3.0) is held


def test_cellulosic_takes_three_to_four_volts_more_and_so_less_current():
    rutile = operating_point(source_v=36.75, source_ohm=0.025, arc=arc_for(Covering.RUTILE)).current_a
    cellulosic = operating_point(source_v=36.75, source_ohm=0.025, arc=arc_for(Covering.CELLULOSIC)).current_a
    assert arc_for(Covering.CELLULOSIC).foot_v - arc_for().foot_v == pytest.approx(3.5)
    assert cellulosic < rutile


@pytest.mark.parametrize("target", [80.0, 120.0, 150.0])
def test_with_its_ballast_the_bank_gives_the_wanted_current(target):
    ballast = ballast_for(source_v=36.75, source_ohm=0.025, target_a=target)
    point = operating_point(source_v=36.75, source_ohm=0.025 + ballast.add_ohm)
    assert point.current_a == pytest.approx(target)
    assert ballast.heat_w == pytest.approx(target**2 * ballast.add_ohm)


def test_ballast_for_120_a_on_three_is_of_the_published_size():
    # 120 A at 24.8 V behind 24.9 mohm: about 85 mohm and 1.2 kW without the activation drop, less with it.
    ballast = ballast_for(source_v=37.95, source_ohm=0.0249, target_a=120.0, arc=Arc(c_w=0.0, d_w_per_mm=0.0))
    assert ballast.add_ohm * 1000 == pytest.approx(85, abs=2)
    assert ballast.heat_w == pytest.approx(1200, rel=0.03)


def test_an_arc_can_be_moved_through_a_measured_current():
    arc = arc_through(source_v=36.0, source_ohm=0.03, current_a=150.0)
    assert operating_point(source_v=36.0, source_ohm=0.03, arc=arc).current_a == pytest.approx(150.0)
    assert math.isclose(arc.length_mm, Arc().length_mm)


@pytest.mark.parametrize(("volts", "ohm"), [(36.0, 0.0), (36.0, 9.0), (-1.0, 0.02), (120.0, 0.02)])
def test_banks_outside_the_model_are_refused(volts, ohm):
    with pytest.raises(OutOfRange):
        operating_point(source_v=volts, source_ohm=ohm)


@pytest.mark.parametrize("amps", [0.0, -5.0, 1500.0])
def test_arc_volts_are_for_real_currents(amps):
    with pytest.raises(OutOfRange):
        arc_volts(Arc(), current_a=amps)


@pytest.mark.parametrize("slope", [0.7, 1.4])
def test_the_longest_arc_holds_for_other_slopes_of_volts_a_millimetre(slope):
    longest = longest_arc(source_v=36.0, source_ohm=0.025, arc=Arc(slope_v_per_mm=slope))
    just = Arc(slope_v_per_mm=slope, length_mm=longest - 0.01)
    over = Arc(slope_v_per_mm=slope, length_mm=longest + 0.01)
    assert searched_current(36.0, 0.025, just) > 0.0
    assert searched_current(36.0, 0.025, over) == 0.0


def test_an_arc_without_any_resistance_or_watts_of_its_own_still_meets_the_bank():
    bare = Arc(rise_ohm=0.0, c_w=0.0, d_w_per_mm=0.0, slope_v_per_mm=0.0)
    point = operating_point(source_v=36.0, source_ohm=0.025, arc=bare)
    assert point.current_a == pytest.approx((36.0 - 17.0) / 0.025)
    assert (point.held, point.longest_mm) == (Held.GOOD, float("inf"))


def test_the_least_volts_to_spare_are_an_arc_where_it_takes_no_watts():
    assert solve(ocv_v=20.5, loop_ohm=0.05, level_v=20.0, power_w=0.0) == pytest.approx(10.0)
    assert solve(ocv_v=20.0, loop_ohm=0.05, level_v=20.0, power_w=0.0) == 0.0
    assert solve(ocv_v=12.25, loop_ohm=0.05, level_v=20.0, power_w=54.5) == 0.0


def test_without_an_arc_there_are_neither_amps_nor_volts():
    point = operating_point(source_v=12.25, source_ohm=0.01)
    assert (point.current_a, point.arc_v) == (0.0, 0.0)


@pytest.mark.parametrize("changes", [{"rise_ohm": -0.01}, {"slope_v_per_mm": -0.1}, {"c_w": -90.0}])
def test_an_arc_with_a_figure_under_nought_is_refused(changes):
    with pytest.raises(OutOfRange, match="no figure under 0"):
        operating_point(source_v=36.0, source_ohm=0.025, arc=Arc(**changes))


def test_the_longest_arc_by_hand_where_watts_do_not_grow_with_it():
    # a² - 4 R C over 2 a with no slope of watts: (E - Uf - L)² = 4 R C
    def longest(spare_v, c_w):
        return longest_of(spare_v=spare_v, loop_ohm=0.065, slope_v_per_mm=1.0, c_w=c_w, d_w_per_mm=0.0)

    assert longest(0.5, 0.0) == pytest.approx(0.5)
    assert longest(1.7, 9.44) == pytest.approx(1.7 - math.sqrt(4 * 0.065 * 9.44))
    assert longest(1.5, 9.44) == 0.0  # not even the shortest arc has its watts
    assert longest(-5.0, 9.44) == 0.0
    assert longest(0.0, 0.0) == 0.0


def test_a_bank_that_holds_just_over_a_millimetre_is_held_at_that():
    assert lengths_held(longest_mm=1.0 / 0.7) == (1.0, 1.0)
    assert lengths_held(longest_mm=0.99 / 0.7) == (0.0, 0.0)


def test_an_arc_of_half_a_millimetre_is_held_by_how_much_longer_it_could_be_and_none_of_no_length_goes_out():
    assert how_held(longest_mm=1.0, length_mm=0.5) is Held.FAIR
    assert how_held(longest_mm=1.0, length_mm=0.0) is Held.GOOD
