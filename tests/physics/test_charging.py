"""Charging and gas: published check values and hand arithmetic."""

from __future__ import annotations

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.gas import BOOST_SEALED_MA_PER_AH, air_needed_m3_h, opening_cm2, spark_distance_m
from kitlist.physics.battery.recharge import ChargeNeed, charge_need, charge_time


def need(low, best, wanted=0.75, **more):
    return charge_need(soc_ratio=Span(low, best, 1.0), wanted_ratio=wanted, chemistry=Chemistry.FLOODED, **more)


def test_a_battery_is_charged_by_its_low_bound_and_at_75_percent_at_the_latest():
    assert need(0.80, 0.90) is ChargeNeed.NO
    assert need(0.74, 0.90) is ChargeNeed.YES
    assert need(0.75, 0.90) is ChargeNeed.NO
    assert need(0.60, 0.75, wanted=0.5) is ChargeNeed.YES


def test_an_unread_battery_is_read_or_charged_and_a_broken_one_never():
    assert charge_need(soc_ratio=None, wanted_ratio=0.9, chemistry=Chemistry.AGM) is ChargeNeed.NOT_KNOWN
    assert need(0.3, 0.4, fit_to_charge=False) is ChargeNeed.NEVER
    assert charge_need(soc_ratio=None, wanted_ratio=0.9, chemistry=Chemistry.LITHIUM) is ChargeNeed.NEVER


def test_hours_by_hand():
    # 35 Ah missing, 15 % more put in, 10 A: 4.0 h, then 4 h of falling current.
    time = charge_time(soc_ratio=Span.exactly(0.5), capacity_ah=70, charger_a=10)
    assert time.charging_h.best == pytest.approx(8.025)
    assert time.before_departure_h == pytest.approx(35 * 1.25 / 10 + 8 + 6)


def test_a_big_charger_is_held_to_a_fifth_of_the_capacity():
    assert charge_time(soc_ratio=Span.exactly(0.5), capacity_ah=70, charger_a=50).current_a == pytest.approx(14.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: charge_time(soc_ratio=Span.exactly(0.5), capacity_ah=0, charger_a=10),
        lambda: charge_time(soc_ratio=Span.exactly(0.5), capacity_ah=70, charger_a=0),
        lambda: charge_time(soc_ratio=Span.exactly(1.5), capacity_ah=70, charger_a=10),
        lambda: need(0.5, 0.6, wanted=1.2),
        lambda: air_needed_m3_h(cells=0, gas_current_a=1),
        lambda: spark_distance_m(capacity_ah=0),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises((OutOfRange, BadData)):
        call()


def test_air_and_opening_of_the_published_example():
    # EN 62485-3: 24 cells, 100 A charger, 40 A of gassing current: 48.4 m3/h and 1,355 cm2.
    air = air_needed_m3_h(cells=24, gas_current_a=40)
    assert air == pytest.approx(48.4, abs=0.05)
    assert opening_cm2(air_m3_h=air) == pytest.approx(1355, abs=1)


@pytest.mark.parametrize(
    ("capacity", "gas", "millimetres"), [(70, 20.0, 322), (70, BOOST_SEALED_MA_PER_AH, 237), (48, 5.0, 179)]
)
def test_spark_distances_of_the_published_examples(capacity, gas, millimetres):
    assert spark_distance_m(capacity_ah=capacity, gas_ma_per_ah=gas) * 1000 == pytest.approx(millimetres, abs=1)
