"""Charge put back between repairs: the published check values, by hand, and what must never be charged."""

from __future__ import annotations

import math

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.gas import hydrogen_l, spark_distance_m
from kitlist.physics.battery.recharge import (
    Feed,
    NotCharged,
    RestAfterCharge,
    acceptance_per_h,
    current_into_battery,
    most_volts,
    not_charged,
    panel_ah_a_day,
    recharge_h,
)

HALF = Span.exactly(0.5)
THREE_RODS = 0.5 + 3 * 2.05 / 70


def minutes(feed, *, rating=100.0, soc=HALF, to=THREE_RODS, temp_c=25.0, chemistry=Chemistry.FLOODED, **more):
    amps = current_into_battery(feed, rating=rating, capacity_ah=70.0, chemistry=chemistry)
    hours = recharge_h(
        soc_ratio=soc,
        to_soc_ratio=to,
        capacity_ah=70.0,
        current_a=amps,
        chemistry=chemistry,
        temp_c=temp_c,
        **more,
    )
    return tuple(60 * value for value in (hours.low, hours.best, hours.high))


def test_three_rods_back_at_idle_and_at_fast_idle_by_the_check_values():
    low, best, high = minutes(Feed.IDLE)
    assert (round(low), round(best), round(high)) == (8, 17, 92)
    assert minutes(Feed.FAST_IDLE)[1] == pytest.approx(16.7, abs=0.05)


def test_in_the_cold_the_battery_and_not_the_engine_sets_the_time():
    low, best, high = minutes(Feed.IDLE, temp_c=-6.0)
    assert (round(low), round(high)) == (21, 190)
    assert best == pytest.approx(52.5, abs=0.3)
    assert minutes(Feed.FAST_IDLE, temp_c=-6.0)[1] == pytest.approx(best)


def test_full_takes_hours_and_full_is_98_percent():
    assert minutes(Feed.IDLE, to=0.98)[1] / 60 == pytest.approx(4.6, abs=0.05)
    assert minutes(Feed.IDLE, to=1.0) == pytest.approx(minutes(Feed.IDLE, to=0.98))


def test_ampere_hours_over_amps_where_the_current_never_falls():
    # 10 A into 35 Ah missing, 7 Ah of it back, 15 % lost: 7 x 1.15 / 10 h.
    hours = recharge_h(soc_ratio=HALF, to_soc_ratio=0.6, capacity_ah=70, current_a=Span.exactly(10), charge_v=14.4)
    assert hours.best == pytest.approx(0.805)


def test_a_battery_that_has_it_already_takes_no_time_and_a_dead_source_for_ever():
    assert minutes(Feed.IDLE, soc=Span.exactly(0.7), to=0.6) == (0.0, 0.0, 0.0)
    assert minutes(Feed.IDLE, rating=20.0)[1] == math.inf


def test_a_doubtful_charge_widens_both_ends():
    narrow, wide = minutes(Feed.IDLE, to=0.8), minutes(Feed.IDLE, to=0.8, soc=Span(0.45, 0.5, 0.55))
    assert wide[0] < narrow[0]
    assert wide[2] > narrow[2]


@pytest.mark.parametrize("chemistry", [c for c in Chemistry if c is not Chemistry.LITHIUM])
def test_colder_more_or_weaker_is_never_quicker(chemistry):
    last = (0.0, 0.0, 0.0)
    for temp_c in (40, 25, 10, 0, -10, -25):
        now = minutes(Feed.FAST_IDLE, temp_c=temp_c, chemistry=chemistry)
        assert all(b >= a - 1e-9 for a, b in zip(last, now, strict=True))
        last = now
    for more, less in (((0.9, 100), (0.8, 100)), ((0.8, 60), (0.8, 90))):
        slow = minutes(Feed.IDLE, to=more[0], rating=more[1], chemistry=chemistry)
        fast = minutes(Feed.IDLE, to=less[0], rating=less[1], chemistry=chemistry)
        assert all(b >= a for a, b in zip(fast, slow, strict=True))


def test_a_big_charger_is_held_to_what_the_kind_bears():
    def into(chemistry, rating):
        return current_into_battery(Feed.CHARGER, rating=rating, capacity_ah=100, chemistry=chemistry).best

    assert [into(kind, 60) for kind in (Chemistry.FLOODED, Chemistry.AGM, Chemistry.GEL)] == [25, 30, 20]
    assert into(Chemistry.AGM, 10) == 10


def test_a_panel_in_a_day_by_hand():
    day = panel_ah_a_day(watt=100, sun_h=5)
    assert day.best == pytest.approx(25 / 1.15)
    assert (day.low, day.high) == (pytest.approx(20 / 1.25), pytest.approx(30 / 1.05))


def test_volts_on_charge_too_low_are_not_known_and_too_high_refused():
    with pytest.raises(BadData, match="not known"):
        minutes(Feed.IDLE, charge_v=13.5)
    with pytest.raises(OutOfRange, match=r"over the 14\.2 V that gel"):
        minutes(Feed.IDLE, charge_v=14.4, chemistry=Chemistry.GEL)
    assert most_volts(Chemistry.UNKNOWN) == min(most_volts(kind) for kind in Chemistry)


def test_lithium_frozen_hot_and_broken_batteries_are_not_charged():
    def why(temp_c=10.0, soc=HALF, chemistry=Chemistry.FLOODED, fit=True):
        return not_charged(chemistry=chemistry, temp_c=temp_c, soc_ratio=soc, fit_to_charge=fit)

    assert why() is None
    assert why(chemistry=Chemistry.LITHIUM) is NotCharged.LITHIUM
    assert why(fit=False) is NotCharged.DAMAGED
    assert why(temp_c=50.0) is NotCharged.TOO_HOT
    assert why(temp_c=-30.0) is NotCharged.MAY_BE_FROZEN
    assert why(temp_c=-6.0, soc=None) is NotCharged.NOT_KNOWN
    with pytest.raises(BadData, match="its own charger"):
        minutes(Feed.CHARGER, chemistry=Chemistry.LITHIUM)


def test_an_hour_before_linking_two_before_reading():
    assert (RestAfterCharge().link_h, RestAfterCharge().read_h, RestAfterCharge().good_read_h) == (1.0, 2.0, 6.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: minutes(Feed.IDLE, soc=Span.exactly(1.5)),
        lambda: minutes(Feed.IDLE, to=1.2),
        lambda: minutes(Feed.IDLE, temp_c=70.0),
        lambda: minutes(Feed.CHARGER, rating=0.0),
        lambda: panel_ah_a_day(watt=0.0, sun_h=5),
        lambda: hydrogen_l(surplus_ah=-1.0),
        lambda: spark_distance_m(capacity_ah=0),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises((OutOfRange, BadData)):
        call()


@pytest.mark.parametrize(("capacity", "gas", "millimetres"), [(70, 20.0, 322), (70, 8.0, 237), (48, 5.0, 179)])
def test_spark_distances_of_the_published_examples(capacity, gas, millimetres):
    assert spark_distance_m(capacity_ah=capacity, gas_ma_per_ah=gas) * 1000 == pytest.approx(millimetres, abs=1)


def test_surplus_charge_becomes_hydrogen():
    assert hydrogen_l(surplus_ah=8.5) == pytest.approx(21.4, abs=0.1)


def test_one_cell_makes_a_sixth_of_the_gas_and_no_cell_is_refused():
    assert hydrogen_l(surplus_ah=10.0, cells=1) == pytest.approx(4.2)
    assert hydrogen_l(surplus_ah=0.0) == 0.0
    with pytest.raises(OutOfRange):
        hydrogen_l(surplus_ah=10.0, cells=0)


@pytest.mark.parametrize(("capacity_ah", "covered"), [(400.0, True), (400.5, False), (1.0, True), (0.9, False)])
def test_the_time_of_a_charge_is_told_from_1_to_400_ah(capacity_ah, covered):
    asked = {"soc_ratio": HALF, "to_soc_ratio": 0.8, "capacity_ah": capacity_ah, "current_a": Span.exactly(5.0)}
    if covered:
        assert recharge_h(**asked).best > 0
    else:
        with pytest.raises(OutOfRange):
            recharge_h(**asked)


def test_over_25_degrees_a_battery_takes_no_more():
    assert acceptance_per_h(1.0, temp_c=35.0, volts_v=14.4) == acceptance_per_h(1.0, temp_c=25.0, volts_v=14.4) == 1.0
    assert acceptance_per_h(1.0, temp_c=24.0, volts_v=14.4) < 1.0


def test_full_enough_is_put_on_charge_in_the_cold_and_frost_is_kept_5_k_off():
    def why(temp_c, soc):
        return not_charged(chemistry=Chemistry.FLOODED, temp_c=temp_c, soc_ratio=soc)

    assert why(-12.0, Span.exactly(0.9)) is None
    flat = Span.exactly(0.0)  # its acid freezes at -9.4 °C
    assert why(-9.4 + 5.0, flat) is NotCharged.MAY_BE_FROZEN
    assert why(-4.3, flat) is None
