"""What cold takes: the table of the manuals, and the floor at every temperature."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.cold import Floor, capacity_ratio
from kitlist.physics.battery.cranking import Cranking
from kitlist.physics.battery.resistance import source_resistance

# TM 10-6140-200-14; TM 5-4210-230-14&P-1, Table 3: share of the warm capacity that is left.
LEFT = ((25, 1.00), (40, 1.00), (0, 0.75), (-18, 0.40), (-29, 0.20))


@pytest.mark.parametrize(("temp_c", "left"), LEFT)
def test_the_manuals_table_of_capacity_in_the_cold(temp_c: float, left: float) -> None:
    assert capacity_ratio(temp_c=temp_c).best == pytest.approx(left)


def test_the_bounds_hold_the_table_between_them() -> None:
    for temp_c in range(-29, 26):
        left = capacity_ratio(temp_c=temp_c)
        assert 0.0 <= left.low <= left.best <= left.high <= 1.0
    assert capacity_ratio(temp_c=0.0).low == pytest.approx(0.65)


def test_colder_than_the_table_is_not_known() -> None:
    with pytest.raises(OutOfRange, match="-29"):
        capacity_ratio(temp_c=-29.5)
    with pytest.raises(OutOfRange, match="-29"):
        Floor().at(-40)


@pytest.mark.parametrize(
    ("temp_c", "kept"), [(25, 0.50), (10, 0.575), (0, 0.625), (-6, 0.683), (-10, 0.722), (-18, 0.80), (-29, 0.90)]
)
def test_the_floor_is_what_cold_takes_and_half_of_the_rest(temp_c: float, kept: float) -> None:
    assert Floor().at(temp_c) == pytest.approx(kept, abs=0.0005)


@pytest.mark.parametrize(("temp_c", "kept"), [(0.0, 0.625), (-0.1, 0.75), (-18.0, 0.80), (5.0, 0.60)])
def test_an_owners_cold_floor_holds_under_freezing_where_it_is_the_more(temp_c: float, kept: float) -> None:
    assert Floor(cold_ratio=0.75).at(temp_c) == pytest.approx(kept)


def test_a_step_of_the_floor_has_two_sides() -> None:
    stepped = Floor(cold_ratio=0.75)
    assert (stepped.at(0.0, just_under=True), stepped.at(0.0)) == (0.75, 0.625)
    assert (0.0, True) in list(stepped.turns(-10.0, 25.0))


def test_an_engine_that_needs_more_raises_the_floor_and_one_that_never_starts_takes_all() -> None:
    resistance = source_resistance(cca_sae=Span.exactly(500.0))
    asks = [
        Floor(cranking=Cranking(chemistry=Chemistry.FLOODED, resistance=resistance, current_a=amps)).at(-18.0)
        for amps in (100.0, 320.0, 1500.0)
    ]
    assert asks[0] == pytest.approx(0.80)
    assert 0.80 < asks[1] <= 1.0
    assert asks[2] > 1.0


def test_an_engine_of_which_nothing_can_be_told_asks_for_nothing() -> None:
    resistance = source_resistance(cca_sae=Span.exactly(500.0))
    unknown = Cranking(chemistry=Chemistry.UNKNOWN, resistance=resistance, current_a=200.0)
    assert Floor(cranking=unknown).at(0.0) == Floor().at(0.0)


def test_the_floor_turns_at_its_ends_at_the_table_at_a_step_and_with_an_engine_at_every_degree() -> None:
    stepped = Floor(cold_ratio=0.75, cold_below_c=-3.0)
    ends = {(-5.5, False), (2.0, False)}
    inside = {(-3.0, True), (-3.0, False), (0.0, True), (0.0, False)}
    assert set(stepped.turns(-5.5, 2.0)) == ends | inside
    engine = Cranking(chemistry=Chemistry.FLOODED, resistance=source_resistance(tester_mohm=6.0), current_a=300.0)
    degrees = {(float(degree), False) for degree in range(-5, 2)}
    assert set(Floor(cranking=engine, cold_below_c=-40.0).turns(-5.5, 2.0)) == ends | degrees | {(0.0, True)}
    assert set(Floor(cranking=engine).turns(-3.0, -1.0)) == {(-3.0, False), (-2.0, False), (-1.0, False)}


def test_at_one_temperature_the_floor_turns_once_and_a_step_at_its_cold_end_is_on_the_milder_side() -> None:
    assert list(Floor().turns(4.0, 4.0)) == [(4.0, False)]
    assert (-3.0, True) not in list(Floor(cold_below_c=-3.0).turns(-3.0, 5.0))
    assert (5.0, True) in list(Floor(cold_below_c=5.0).turns(-3.0, 5.0))


def test_colder_than_the_table_says_that_nobody_knows_what_a_battery_gives() -> None:
    with pytest.raises(OutOfRange, match="what a battery gives under -29"):
        capacity_ratio(temp_c=-29.1)
    assert capacity_ratio(temp_c=-29.0).best == pytest.approx(0.20)
