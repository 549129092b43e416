"""A reading counts for departure only while nothing happened to the battery since."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from kitlist.kit import Kit
from kitlist.outlook import look_out
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.charging import charge_plan
from kitlist.readiness import assess
from kitlist.rules import Severity
from kitlist.rules.example import whole

READ_AT = datetime(2027, 3, 3, 8, 0)  # noqa: DTZ001 - readings are kept in local time


def driven(at: datetime) -> Kit:
    kit = whole().kit
    return replace(kit, vehicles=tuple(replace(v, driven_at=at if v.name == "North" else None) for v in kit.vehicles))


def welded(day: date) -> Kit:
    return replace(whole().kit, welded=(("north-main", day),))


def seen(kit: Kit, name: str = "north-main") -> BatteryOutlook:
    return look_out(kit, whole().trip, on=whole().on).batteries[name]


def test_a_reading_from_before_a_drive_counts_no_more_and_one_from_after_it_does() -> None:
    assert seen(driven(READ_AT - timedelta(hours=12))).charge.known
    after = seen(driven(READ_AT + timedelta(minutes=1)))
    assert (after.charge.known, after.charge_when_read.known) == (False, True)
    assert "driven since, until 2027-03-03 08:01" in after.charge.reason
    assert seen(driven(READ_AT + timedelta(minutes=1)), "south-main").charge.known


def test_a_drive_that_is_still_to_come_spoils_nothing() -> None:
    assert seen(driven(datetime.combine(whole().on, datetime.min.time()) + timedelta(days=1))).charge.known


@pytest.mark.parametrize(("drove_h_before", "known"), [(2.5, True), (1.5, False)])
def test_no_battery_has_rested_for_longer_than_its_vehicle_has_stood(drove_h_before: float, known: bool) -> None:
    assert seen(driven(READ_AT - timedelta(hours=drove_h_before))).charge.known is known


def test_a_battery_that_welded_is_read_again_from_the_next_day_on() -> None:
    assert seen(welded(READ_AT.date() - timedelta(days=1))).charge.known
    day_after = "it welded on 2027-03-03, and what is read counts from the day after"
    assert seen(welded(READ_AT.date())).charge.reason == day_after


@pytest.mark.parametrize(
    ("kit", "said", "do"),
    [
        (driven(READ_AT + timedelta(hours=1)), "counts no more: it was driven since", "read again"),
        (welded(READ_AT.date() + timedelta(days=1)), "counts no more: it welded since", "charge, then read"),
    ],
)
def test_the_gap_says_what_happened_and_the_plan_what_to_do(kit: Kit, said: str, do: str) -> None:
    case = whole()
    judged = assess(kit, case.trip, on=case.on)
    (gap,) = [g for g in judged.gaps if g.rule == "charge-not-known" and g.subject == "north-main"]
    assert (gap.weight, gap.known, said in gap.what) == (Severity.STOP, False, True)
    plan = {line.name: line.do for line in charge_plan(case.trip, judged.outlook, on=case.on).lines}
    assert plan["north-main"] == do


def test_the_charge_plan_calls_no_battery_good_that_the_judgement_finds_under_its_floor_or_unable_to_start() -> None:
    for volts_v in (12.3, 12.4, 12.5, 12.6, 12.7):
        case = whole()
        readings = tuple(replace(r, volts_v=volts_v, rested_h=3) for r in case.kit.readings)
        trip = replace(case.trip, coldest_c=-15, starts_on=case.trip.starts_on + timedelta(days=2))
        judged = assess(replace(case.kit, readings=readings), trip, on=case.on)
        low = {g.subject for g in judged.gaps if g.rule in ("battery-under-floor", "engine-may-not-start")}
        plan = {line.name: line.do for line in charge_plan(trip, judged.outlook, on=case.on).lines}
        assert all(plan[name] not in ("read again", "leave as it is") for name in low), (volts_v, low, plan)


def test_the_charge_plan_keeps_three_quarters_too_where_the_bank_takes_every_starting_battery() -> None:
    case = whole()
    readings = tuple(replace(r, volts_v=12.55) for r in case.kit.readings)
    trip = replace(case.trip, bank=("north-main", "north-second", "south-main"))
    judged = assess(replace(case.kit, readings=readings), trip, on=case.on)
    low = {g.subject for g in judged.gaps if g.rule == "battery-under-floor"}
    assert low == set(trip.bank)
    plan = {line.name: line for line in charge_plan(trip, judged.outlook, on=case.on).lines}
    assert {name: plan[name].do for name in low} == dict.fromkeys(low, "charge full")
    assert "reserve of 75 %" in plan["south-main"].why


@pytest.mark.parametrize("volts_v", [12.82, 12.6])
def test_nothing_sends_to_the_charger_a_battery_that_does_not_start_its_engine_even_full(volts_v: float) -> None:
    case = whole()
    vehicles = tuple(replace(v, crank_a=900 if v.name == "North" else 250) for v in case.kit.vehicles)
    readings = tuple(replace(r, volts_v=volts_v) for r in case.kit.readings)
    judged = assess(replace(case.kit, vehicles=vehicles, readings=readings), case.trip, on=case.on)
    plan = {line.name: line.do for line in charge_plan(case.trip, judged.outlook, on=case.on).lines}
    assert plan["north-main"] == "replace or test"
    (gap,) = [g for g in judged.gaps if g.rule == "engine-may-not-start" and g.subject == "north-main"]
    assert gap.remedy.startswith("Even full")


def test_a_reading_that_is_both_old_and_from_before_a_drive_is_no_mere_matter_of_age() -> None:
    kit = driven(READ_AT + timedelta(hours=1))
    later = replace(whole().trip, starts_on=date(2027, 3, 20), ends_on=date(2027, 3, 22))
    found = {(g.rule, g.subject) for g in assess(kit, later, on=date(2027, 3, 19)).gaps}
    assert {("charge-not-known", "north-main"), ("reading-stale", "north-main")} <= found


def test_a_drive_of_this_very_day_counts_and_so_does_a_weld() -> None:
    today = datetime.combine(whole().on, datetime.min.time()) + timedelta(hours=9)
    assert not seen(driven(today)).charge.known
    assert not seen(welded(whole().on)).charge.known
    assert seen(welded(whole().on + timedelta(days=1))).charge.known
    assert seen(driven(READ_AT)).used_since == ""  # it stopped as it was read, and has not rested
