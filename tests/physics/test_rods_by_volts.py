"""From volts to rods and back: the worked table, and that colder or lower never shows more."""

from __future__ import annotations

import random

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.bank.rods_by_volts import (
    PAPER_V,
    RodBattery,
    SureLikely,
    marks,
    rods_by_volts,
    rods_shown,
    rows,
    spare_ratio,
    up,
    volts_for,
)
from kitlist.physics.battery.charge import Way, doubt_v
from kitlist.physics.battery.cold import Floor
from kitlist.physics.battery.cranking import Cranking
from kitlist.physics.battery.resistance import source_resistance

FLOODED = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
CALCIUM = RodBattery(chemistry=Chemistry.CALCIUM, capacity_ah=75.0)
AGM = RodBattery(chemistry=Chemistry.AGM, capacity_ah=80.0)
ROD = Span(1.64, 2.05, 2.46)

# Worked by hand from the tables of volts and of capacity in the cold: a sound, full battery as cold as the trip.
# T: (reads, sure by rest, by bleed, likely, go for 3 rods by rest, by bleed) for each battery; None: none shows it.
FULL = {
    25: ((12.65, 11, 9, 17, 12.41, 12.46), (12.80, 12, 10, 18, 12.56, 12.61), (12.80, 12, 10, 19, 12.52, 12.57)),
    10: ((12.63, 9, 7, 14, 12.46, 12.51), (12.78, 9, 7, 15, 12.60, 12.65), (12.78, 9, 7, 16, 12.59, 12.64)),
    0: ((12.61, 7, 5, 12, 12.49, 12.54), (12.76, 8, 6, 13, 12.63, 12.68), (12.76, 7, 5, 14, 12.64, 12.69)),
    -6: ((12.61, 6, 4, 10, 12.53, 12.58), (12.76, 6, 4, 11, 12.67, 12.72), (12.76, 6, 4, 12, 12.69, 12.74)),
    -18: ((12.59, 2, 0, 6, None, None), (12.74, 2, 0, 7, None, None), (12.74, 2, 0, 7, None, None)),
}
CASES = [
    (temp_c, battery, row)
    for temp_c, found in FULL.items()
    for battery, row in zip((FLOODED, CALCIUM, AGM), found, strict=True)
]


@pytest.mark.parametrize(("temp_c", "battery", "row"), CASES)
def test_the_worked_table_of_a_full_battery(temp_c: float, battery: RodBattery, row: tuple) -> None:
    reads, sure_rested, sure_bled, likely, go_rested, go_bled = row
    seen = {"temp_c": temp_c, "battery_temp_c": temp_c}
    rested = marks(battery, rods=3, charge_ah=ROD.high, way=Way.RESTED, **seen)
    bled = marks(battery, rods=3, charge_ah=ROD.high, way=Way.BLED, **seen)
    assert (rested.full_v, rested.sure, bled.sure) == (reads, sure_rested, sure_bled)
    assert rods_by_volts(battery, volts_v=reads, charge_ah=ROD, way=Way.RESTED, **seen).likely == likely
    assert (rested.go_v, bled.go_v) == (go_rested, go_bled)


@pytest.mark.parametrize(
    ("volts_v", "sure", "likely"),
    [(12.65, (11, 9, 8, 7, 4), (17, 14, 12, 10, 6)), (12.50, (6, 4, 3, 2, 0), (10, 8, 7, 6, 2))],
)
def test_the_worked_row_of_one_reading_at_five_temperatures(volts_v: float, sure: tuple, likely: tuple) -> None:
    found = [
        rods_by_volts(FLOODED, volts_v=volts_v, charge_ah=ROD, way=Way.RESTED, temp_c=temp_c, battery_temp_c=temp_c)
        for temp_c in (25, 10, 0, -6, -18)
    ]
    assert (tuple(one.sure for one in found), tuple(one.likely for one in found)) == (sure, likely)


@pytest.mark.parametrize(
    ("temp_c", "battery_c", "paper", "screen"),
    [
        (25, 25, (12.50,), (12.46, 12.24, 12.38)),
        (-6, -6, (12.60,), (12.58, 12.36, 12.49)),
        (-6, 20, (12.61,), (12.61,)),
    ],
)
def test_go_and_after_of_three_rods_by_bleed(temp_c: float, battery_c: float, paper: tuple, screen: tuple) -> None:
    seen = {"rods": 3, "charge_ah": ROD.high, "way": Way.BLED, "temp_c": temp_c, "battery_temp_c": battery_c}
    fine = marks(FLOODED, **seen)
    assert (fine.go_v, fine.after_v, fine.shows_v)[: len(screen)] == screen
    assert (marks(FLOODED, **seen, step_v=PAPER_V).go_v,) == paper


def test_in_hard_frost_no_reading_shows_a_rod_by_bleed_and_one_by_rest() -> None:
    frost = {"rods": 1, "charge_ah": ROD.high, "temp_c": -18.0, "battery_temp_c": -18.0}
    assert marks(FLOODED, way=Way.BLED, **frost).go_v is None
    assert marks(FLOODED, way=Way.RESTED, **frost).go_v == 12.55


def batteries(chance: random.Random) -> RodBattery:
    """A battery of any kind with any floor."""
    resistance = source_resistance(cca_sae=Span.exactly(chance.choice((450.0, 700.0))))
    chemistry = chance.choice([*(c for c in Chemistry if c is not Chemistry.LITHIUM)])
    cranking = None
    if chance.random() < 0.3 and chemistry is not Chemistry.UNKNOWN:
        cranking = Cranking(chemistry=chemistry, resistance=resistance, current_a=chance.uniform(80, 350))
    floor = Floor(
        warm_ratio=chance.choice((0.5, 0.6)),
        cold_ratio=chance.choice((0.0, 0.75, 0.9)),
        cold_below_c=chance.choice((0.0, 5.0, -10.0)),
        cranking=cranking,
        always_ratio=chance.choice((0.0, 0.0, 0.75)),
    )
    return RodBattery(chemistry=chemistry, capacity_ah=chance.uniform(40, 120), floor=floor)


def test_at_equal_volts_a_colder_battery_never_shows_more_rods() -> None:
    chance = random.Random(7)
    for _ in range(600):
        battery, way = batteries(chance), chance.choice(list(Way))
        volts_v, own_c, over_k = chance.uniform(11.9, 13.1), chance.uniform(-17.5, 24.0), chance.uniform(0.01, 25.0)
        own_c, warm_c = own_c, min(25.0, own_c + over_k)
        apart = chance.choice((0.0, -5.0))
        cold, warm = (
            rods_by_volts(
                battery, volts_v=volts_v, charge_ah=ROD, way=way, temp_c=max(-18.0, at + apart), battery_temp_c=at
            )
            for at in (own_c, warm_c)
        )
        if own_c + apart >= -18.0:
            assert cold.sure <= warm.sure
            assert cold.likely <= warm.likely


def test_more_volts_never_show_fewer_rods_and_doubt_never_more() -> None:
    chance = random.Random(11)
    for _ in range(300):
        battery = batteries(chance)
        volts_v, temp_c = chance.uniform(11.8, 13.0), chance.uniform(-18, 35)
        seen = {"charge_ah": ROD, "temp_c": temp_c, "battery_temp_c": temp_c}
        rested = rods_by_volts(battery, volts_v=volts_v, way=Way.RESTED, **seen)
        assert rested.sure <= rested.likely
        assert rested.sure <= rods_by_volts(battery, volts_v=volts_v + 0.02, way=Way.RESTED, **seen).sure
        assert rods_by_volts(battery, volts_v=volts_v, way=Way.BLED, **seen).sure <= rested.sure


def test_at_its_go_volts_a_battery_shows_the_rods_and_a_hundredth_under_it_does_not() -> None:
    chance = random.Random(3)
    shown = 0
    for _ in range(300):
        battery, way, count = batteries(chance), chance.choice([Way.RESTED, Way.BLED]), chance.randint(0, 6)
        temp_c = chance.uniform(-18, 30)
        seen = {"temp_c": temp_c, "battery_temp_c": temp_c}
        go_v = marks(battery, rods=count, charge_ah=ROD.high, way=way, **seen).go_v
        if go_v is None or count == 0:
            continue
        shown += 1
        less_v = doubt_v(chemistry=battery.chemistry, way=way)
        at, under = (
            rods_shown(battery, volts_v=volts, charge_ah=ROD.high, less_v=less_v, **seen)
            for volts in (go_v, go_v - 0.01)
        )
        assert at >= count > under
    assert shown > 100


def test_a_share_of_the_current_and_the_battery_that_stands() -> None:
    half = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0, share_ratio=0.5)
    assert rods_shown(half, volts_v=12.65, charge_ah=2.05, temp_c=25.0) == 34  # twice 17.07
    assert (
        rods_shown(
            RodBattery(chemistry=Chemistry.AGM, capacity_ah=80, share_ratio=0.0), volts_v=12, charge_ah=2, temp_c=9
        )
        == 500
    )


def test_the_printed_table_is_read_at_or_under_and_ends_with_no_rod() -> None:
    found = list(rows(FLOODED, charges_ah=[ROD.high, 3.84], way=Way.BLED, temp_c=0.0, battery_temp_c=0.0))
    assert [row.volts_v for row in found] == sorted((row.volts_v for row in found), reverse=True)
    assert found[0].volts_v == 12.60
    assert found[-1].rods == (0, 0)
    for row in found:
        assert row.rods[0] >= row.rods[1]
        seen = rods_by_volts(FLOODED, volts_v=row.volts_v, charge_ah=ROD, way=Way.BLED, temp_c=0.0, battery_temp_c=0.0)
        assert row.rods[0] == seen.sure


def test_volts_that_no_battery_shows() -> None:
    floor = Floor(always_ratio=1.2)
    dead = RodBattery(chemistry=Chemistry.AGM, capacity_ah=80.0, floor=floor)
    assert volts_for(dead, rods=0, charge_ah=2.0, way=Way.RESTED, temp_c=25.0) == float("inf")
    assert spare_ratio(dead, volts_v=12.9, temp_c=25.0) < 0
    assert (up(12.401, 0.05), up(12.45, 0.05), SureLikely(1, 2).words) == (12.45, 12.45, "1 sure, likely 2")


def test_a_battery_of_unknown_temperature_is_taken_as_warm_which_shows_least() -> None:
    facts = {"charge_ah": ROD, "way": Way.RESTED, "temp_c": 0.0}
    unsaid, warm, cold = (
        rods_by_volts(FLOODED, volts_v=12.6, battery_temp_c=own_c, **facts) for own_c in (None, 25.0, 0.0)
    )
    assert unsaid == warm < cold
    asked = {"rods": 2, "charge_ah": 2.46, "way": Way.RESTED, "temp_c": 0.0}
    assert marks(FLOODED, **asked) == marks(FLOODED, battery_temp_c=25.0, **asked)
    assert marks(FLOODED, **asked).go_v > marks(FLOODED, battery_temp_c=0.0, **asked).go_v
