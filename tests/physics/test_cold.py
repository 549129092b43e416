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
