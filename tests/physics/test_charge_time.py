"""The time of a charge 8 times in 10: within its limits, by hand where one unknown is left, and where it has no end."""

from __future__ import annotations

import math
from dataclasses import astuple

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.charge_time import ChargeTime, charge_time
from kitlist.physics.battery.recharge import Feed, current_into_battery, recharge_h

HALF = Span.exactly(0.5)
KINDS = [kind for kind in Chemistry if kind is not Chemistry.LITHIUM]


def taken(feed=Feed.IDLE, rating=100.0, *, soc=HALF, to=0.6, capacity_ah=70.0, **more):
    return charge_time(feed=feed, rating=rating, soc_ratio=soc, to_soc_ratio=to, capacity_ah=capacity_ah, **more)


@pytest.mark.parametrize("chemistry", KINDS)
@pytest.mark.parametrize("feed", Feed)
def test_the_limits_are_those_of_all_that_is_fast_or_slow_at_once_and_the_rest_rises_between_them(feed, chemistry):
    soc = Span(0.4, 0.5, 0.55)
    for rating, to, temp_c in ((60.0, 0.6, 25.0), (100.0, 0.98, -10.0), (20.0, 0.52, 5.0)):
        found = taken(feed, rating, soc=soc, to=to, temp_c=temp_c, chemistry=chemistry)
        limits = recharge_h(
            soc_ratio=soc,
            to_soc_ratio=to,
            capacity_ah=70.0,
            current_a=current_into_battery(feed, rating=rating, capacity_ah=70.0, chemistry=chemistry),
            temp_c=temp_c,
            chemistry=chemistry,
        )
        assert (found.shortest_h, found.longest_h) == (limits.low, limits.high)
        assert list(astuple(found)) == sorted(astuple(found))


def test_a_charger_far_under_what_a_battery_takes_leaves_only_what_charging_loses_unknown():
    # 2 A into 35 Ah missing, 7 Ah of it back, for one 1.05 to 1.25: what the band leaves out of that at each end.
    found = taken(Feed.CHARGER, 2.0)
    assert (found.shortest_h, found.longest_h) == (pytest.approx(3.5 * 1.05), pytest.approx(3.5 * 1.25))
    assert (found.low_h, found.high_h) == (pytest.approx(3.5 * 1.065, rel=1e-3), pytest.approx(3.5 * 1.235, rel=1e-3))
    assert found.likely_h == pytest.approx(3.5 * 1.15, rel=1e-3)


def test_a_panel_and_a_doubtful_charge_spread_by_what_each_alone_can_do():
    # 100 W: 4 to 6 A, which no battery of 70 Ah half empty refuses: hours go as 1 over it.
    panel = taken(Feed.PANEL, 100.0)
    assert 7 * 1.05 / 6 < panel.low_h < 7 * 1.15 / 5 < panel.high_h < 7 * 1.25 / 4
    known, doubtful = taken(Feed.CHARGER, 2.0), taken(Feed.CHARGER, 2.0, soc=Span(0.4, 0.5, 0.6))
    # the charge alone: 0 to 14 Ah to put back, what is left out from each end 1.05 and 12.95 Ah
    assert doubtful.low_h == pytest.approx(0.525 * 1.15, rel=0.03)
    assert doubtful.high_h == pytest.approx(6.475 * 1.15, rel=0.03)
    assert doubtful.likely_h == pytest.approx(known.likely_h, rel=0.03)


def test_two_that_share_an_engine_have_half_of_what_is_left_of_it_each():
    alone, shared = taken(Feed.CHARGER, 2.0), taken(Feed.CHARGER, 2.0, batteries_at_once=2)
    assert astuple(shared) == pytest.approx([2 * hours for hours in astuple(alone)])


def test_where_a_vehicle_may_take_all_its_engine_gives_there_is_no_end_and_where_it_always_does_never_one():
    # 0.25 to 0.55 of 30 A is 7.5 to 16.5 A, and the vehicle takes 8 to 20 A: more often than not all of it.
    assert taken(rating=30.0).likely_h == math.inf
    assert taken(rating=30.0).shortest_h < math.inf
    assert taken(rating=14.0).shortest_h == math.inf  # 0.55 of it is less than 8 A
    often = taken(rating=50.0)
    assert often.likely_h < math.inf
    assert often.longest_h == math.inf


def test_what_is_there_already_takes_no_time():
    assert ChargeTime.none() == ChargeTime(shortest_h=0.0, low_h=0.0, likely_h=0.0, high_h=0.0, longest_h=0.0)
    assert taken(soc=Span.exactly(0.7)) == ChargeTime.none()
    full = taken(soc=Span(0.9, 0.98, 1.0), to=1.0)
    assert full.shortest_h == full.low_h == 0.0
    assert full.high_h > 0.0


def test_a_feed_or_a_battery_out_of_range_is_refused_as_by_its_limits():
    with pytest.raises(OutOfRange, match=r"0\.5 to 1000"):
        taken(rating=0.1)
    with pytest.raises(OutOfRange, match="1 to 400 Ah"):
        taken(capacity_ah=500.0)
    with pytest.raises(OutOfRange, match="charging"):
        taken(temp_c=60.0)
