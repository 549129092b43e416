"""What is done with each battery before a trip, what the days left allow, and how one is charged by its kind."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from typing import Any

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Condition
from kitlist.kit import Trip
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.charging import ChargeDo, ChargeLine, ChargePlan, Rest, charge_plan, rest_left
from kitlist.outlook.refusal import Refusal, Why
from kitlist.physics.battery.charge import Charge
from kitlist.physics.battery.cranking import CrankCheck, Cranking
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


@cache
def sound() -> BatteryOutlook:
    """A second battery of 80 Ah in the bank, which keeps six tenths at 5 °C."""
    seen = look_out(whole().kit, whole().trip, on=whole().on).batteries["north-second"]
    assert seen.reserve_ratio == pytest.approx(0.6)
    return seen


def charged(low: float, best: float, high: float = 1.0) -> Charge:
    return Charge(Span(low, best, high))


def done(trip: Trip | None = None, **changes: Any) -> ChargeLine:
    """What is done with the battery, changed."""
    own = {name: changes.pop(name) for name in ("condition", "chemistry", "c20_ah") if name in changes}
    battery = replace(sound(), battery=replace(sound().battery, **own), **changes)
    outlook = Outlook(batteries={"north-second": battery}, bank=None, rods=())
    (line,) = charge_plan(trip or whole().trip, outlook, on=whole().on).lines
    return line


STARTS_NOT = CrankCheck(False, "")
FULL, GOOD = charged(0.9, 0.97), charged(0.7, 0.9)


@pytest.mark.parametrize(
    ("changes", "do", "why"),
    [
        ({"condition": Condition.CRACKED, "chemistry": Chemistry.LITHIUM}, ChargeDo.REPLACE, "It is cracked: do not"),
        ({"condition": Condition.UNKNOWN, "charge": FULL}, ChargeDo.READ, "Good so far"),
        ({"chemistry": Chemistry.LITHIUM, "used_since": "it welded since"}, ChargeDo.LEAVE, "Lithium: by its own"),
        ({"refusal": Refusal(why=Why.CUT_OFF), "used_since": "it welded"}, ChargeDo.REPLACE, "It is it has a built-in"),
        ({"used_since": "it welded since, on Monday"}, ChargeDo.CHARGE_THEN_READ, "It welded since, on Monday."),
        ({"used_since": "it was driven since"}, ChargeDo.READ, "It was driven since."),
        ({"charge": Charge(None, "no reading")}, ChargeDo.CHARGE_THEN_READ, "No reading."),
        ({"charge": FULL, "crank": STARTS_NOT}, ChargeDo.REPLACE, "Full as it is, it may not start North"),
        ({"charge": charged(0.9, 0.95), "crank": STARTS_NOT}, ChargeDo.REPLACE, "Full as it is"),
        ({"charge": GOOD, "crank": STARTS_NOT}, ChargeDo.CHARGE_FULL, "It may not start North in the cold."),
        ({"charge": FULL, "crank": CrankCheck(None, "")}, ChargeDo.READ, "Good so far"),
        ({"charge": FULL, "crank": CrankCheck(True, "")}, ChargeDo.READ, "Good so far"),
        ({"charge": charged(0.55, 0.61)}, ChargeDo.CHARGE_FULL, "It may be under its floor of 60 %: 55 at the least."),
        ({"charge": charged(0.5, 0.59)}, ChargeDo.CHARGE_FULL, "It will be under its floor of 60 %: 50 at the least."),
        ({"charge": charged(0.6, 0.79)}, ChargeDo.CHARGE_FULL, "Under 80 %."),
        ({"charge": charged(0.6, 0.8)}, ChargeDo.TOP_UP, "It welds: every point is more rods."),
        ({"charge": charged(0.6, 0.949)}, ChargeDo.TOP_UP, "It welds"),
        ({"charge": charged(0.6, 0.95)}, ChargeDo.READ, "Good so far"),
        ({"charge": FULL, "days_before_start": 2}, ChargeDo.READ, "Good so far"),
        ({"charge": FULL, "days_before_start": 1}, ChargeDo.LEAVE, "Read, and charged."),
        ({"charge": FULL, "days_before_start": None}, ChargeDo.LEAVE, "Read, and charged."),
    ],
)
def test_what_needs_most_doing_is_done_with_the_reason(changes: dict[str, Any], do: ChargeDo, why: str) -> None:
    line = done(**changes)
    assert (line.do, line.why[: len(why)]) == (do, why)


def test_what_keeps_more_than_its_floor_is_said_to_be_under_its_reserve() -> None:
    kept = replace(sound().floor, always_ratio=0.85)
    line = done(floor=kept, charge=charged(0.8, 0.84))
    assert line.why == "It will be under its reserve of 85 %: 80 at the least."
    assert done(floor=kept, charge=charged(0.85, 0.9)).do is ChargeDo.TOP_UP


def test_a_battery_that_never_starts_its_engine_is_replaced_however_it_is_charged() -> None:
    assert sound().resistance is not None
    engine = Cranking(chemistry=Chemistry.AGM, resistance=sound().resistance, current_a=1400.0)
    line = done(floor=replace(sound().floor, cranking=engine), coldest_c=-12.0, charge=charged(0.3, 0.4))
    assert (line.do, line.why) == (ChargeDo.REPLACE, "Even full it does not start North in the cold.")


def test_what_may_freeze_is_charged_full_and_where_the_cold_is_not_known_nothing_is_said_of_frost() -> None:
    frost, unsaid = (replace(whole().trip, coldest_c=cold) for cold in (-25.0, None))
    low = charged(0.2, 0.3, 0.4)
    assert done(frost, charge=low).why == "It may freeze as it is."
    assert done(unsaid, charge=low).why.startswith("It will be under its floor")


def test_outside_the_bank_nothing_is_topped_up() -> None:
    trip = replace(whole().trip, bank=("north-main", "south-second"))
    assert done(trip, charge=GOOD, days_before_start=1).do is ChargeDo.LEAVE


def test_what_is_missing_is_counted_from_the_likely_charge_and_unknown_where_size_or_charge_is() -> None:
    line = done(charge=charged(0.6, 0.7, 0.9))
    assert (line.soc_ratio, line.back_ah) == (0.7, pytest.approx(24.0))
    assert (done(c20_ah=None, charge=GOOD).back_ah, done(charge=Charge(None, "no reading")).back_ah) == (None, None)
    assert done(c20_ah=None, charge=charged(0.6, 0.7)).most_a is None
    assert (done(charge=FULL).most_v, done(charge=FULL).most_a) == (None, None)


def test_only_under_11_6_v_a_charger_is_held_to_a_tenth_of_the_size() -> None:
    reading = sound().reading
    assert reading is not None
    flat, low = (done(charge=charged(0.1, 0.2), reading=replace(reading, volts_v=v)).most_a for v in (11.59, 11.6))
    assert (flat, low) == (pytest.approx(8.0), pytest.approx(24.0))
    assert done(charge=Charge(None, "no reading"), reading=None).most_a == pytest.approx(24.0)
    small = done(charge=charged(0.1, 0.2), reading=replace(reading, volts_v=11.0), c20_ah=40)
    assert small.most_a == pytest.approx(4.0)


def test_the_days_are_three_and_one_before_departure_and_never_past_and_what_needs_most_comes_first() -> None:
    lines = {
        "b": replace(sound(), charge=GOOD),
        "c": replace(sound(), charge=Charge(None, "no reading")),
        "a": replace(sound(), charge=charged(0.5, 0.59)),
        "d": replace(sound(), charge=charged(0.5, 0.59)),
    }
    trip = replace(whole().trip, bank=tuple(lines))
    outlook = Outlook(batteries=dict(lines), bank=None, rods=())
    plan = charge_plan(trip, outlook, on=trip.starts_on - timedelta(days=9))
    assert [line.name for line in plan.lines] == ["c", "a", "d", "b"]
    assert (plan.charge_by, plan.read_on) == (trip.starts_on - timedelta(days=3), trip.starts_on - timedelta(days=1))
    late = charge_plan(trip, outlook, on=trip.starts_on)
    assert (late.charge_by, late.read_on, late.rest) == (trip.starts_on, trip.starts_on, Rest.NONE)
