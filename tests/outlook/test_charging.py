"""What the days left still allow before the reading that counts, and how a battery is charged by its kind."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from kitlist.base.terms import Chemistry
from kitlist.outlook import look_out
from kitlist.outlook.charging import ChargeDo, ChargePlan, Rest, charge_plan, rest_left
from kitlist.rules.example import whole, with_reading


def planned(volts_v: float, *, on: date, chemistry: Chemistry = Chemistry.AGM) -> ChargePlan:
    shown = with_reading("north-main", volts_v=volts_v, battery_temp_c=25)
    batteries = tuple(replace(b, chemistry=chemistry) if b.name == "north-main" else b for b in shown.kit.batteries)
    kit = replace(shown.kit, batteries=batteries)
    return charge_plan(shown.trip, look_out(kit, shown.trip, on=on), on=on)


@pytest.mark.parametrize(
    ("days", "rest", "hours"), [(5, Rest.DAY, 24), (2, Rest.DAY, 24), (1, Rest.NIGHT, 6), (0, Rest.NONE, 0)]
)
def test_a_rest_that_cannot_be_is_not_asked_for(days: int, rest: Rest, hours: float) -> None:
    assert (rest_left(days), rest_left(days).hours) == (rest, hours)


def test_the_day_before_it_says_what_the_reading_is_worth_and_how_it_is_taken() -> None:
    plan = planned(12.3, on=date(2027, 3, 5))
    assert plan.rest_h == 6
    assert "no full day is left" in plan.rest.worth
    assert "13.05 V AGM" in plan.rest.worth
    last = planned(12.3, on=whole().trip.starts_on)
    assert "20 A or more for 3 min" in last.rest.worth
    assert "0.05 V less" in last.rest.worth


@pytest.mark.parametrize(
    ("chemistry", "most_v", "most_a"),
    [(Chemistry.AGM, 14.7, 24.0), (Chemistry.GEL, 14.2, 16.0), (Chemistry.FLOODED, 14.8, 20.0)],
)
def test_the_charger_is_held_to_what_the_kind_bears(chemistry: Chemistry, most_v: float, most_a: float) -> None:
    line = next(x for x in planned(12.1, on=date(2027, 3, 4), chemistry=chemistry).lines if x.name == "north-main")
    assert line.do.charges
    assert (line.most_v, line.most_a) == (most_v, pytest.approx(most_a))


def test_a_flat_battery_is_charged_slowly() -> None:
    line = next(x for x in planned(11.5, on=date(2027, 3, 4)).lines if x.name == "north-main")
    assert line.most_a == pytest.approx(8.0)


def test_what_is_only_read_again_has_no_charger() -> None:
    line = next(x for x in planned(12.82, on=date(2027, 3, 4)).lines if x.do is ChargeDo.READ)
    assert (line.most_v, line.most_a) == (None, None)
