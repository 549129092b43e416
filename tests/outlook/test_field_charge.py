"""Charging between repairs: each battery by its own ways, as a band, with what forbids it said."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta

import pytest

from kitlist.base.terms import Chemistry, Condition, StartBatteries, ToolKind
from kitlist.faces.words.field_text import field_lines
from kitlist.outlook.field_charge import field_charge, hardest, kept_ratio, ways_to_charge
from kitlist.outlook.recharging import CHARGING_H_A_DAY, charges_needed
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.charge import charge_at
from kitlist.physics.battery.gas import spark_distance_m
from kitlist.physics.battery.recharge import Feed, most_volts
from kitlist.readiness import assess
from kitlist.rules.example import tool, whole, with_repair
from kitlist.rules.halves_not_level import apart
from kitlist.rules.starting_pair_parted import BOTH, with_two


def equipped(example=None, *, alternator_a=100.0, volts=12.45, tools=()):
    """A kit whose vehicles have alternators and whose batteries are low."""
    example = example or whole()
    kit = example.kit
    kit = replace(
        kit,
        vehicles=tuple(replace(v, alternator_a=alternator_a) for v in kit.vehicles),
        readings=tuple(replace(r, volts_v=volts, battery_temp_c=25) for r in kit.readings),
        tools=(*kit.tools, *tools),
    )
    return replace(example, kit=kit)


CHARGER = tool("charger", ToolKind.CHARGER, rating_a=10)
PANEL = tool("panel", ToolKind.SOLAR_PANEL, power_w=100)


def planned(example, **more):
    outlook = assess(example.kit, example.trip, on=example.on).outlook
    return {line.name: line for line in field_charge(example.kit, example.trip, outlook, **more).lines}


def test_a_battery_has_the_engine_of_its_own_vehicle_and_every_charger_and_panel():
    lines = planned(equipped(tools=(CHARGER, PANEL)), rods=3)
    ways = [(time.way.of, time.way.feed) for time in lines["north-main"].times]
    assert ways == [
        ("North", Feed.IDLE),
        ("North", Feed.FAST_IDLE),
        ("charger", Feed.CHARGER),
        ("panel", Feed.PANEL),
    ]


def test_more_rods_colder_or_a_weaker_engine_take_longer():
    def likely(rods=2, temp_c=25.0, **kit):
        line = planned(equipped(**kit), rods=rods, temp_c=temp_c)["north-main"]
        return next(time.takes.likely_h for time in line.times if time.way.feed is Feed.IDLE)

    assert likely(rods=3) > likely(rods=2) > 0
    assert likely(temp_c=-5.0) > likely()
    assert likely(alternator_a=60.0) > likely(alternator_a=100.0)


def test_the_aim_is_what_the_trip_needs_over_the_reserve_unless_rods_are_asked_for():
    line = planned(equipped(volts=12.2))["north-main"]
    assert line.to_ratio > 0.5
    asked = planned(equipped(), rods=2)["north-main"]
    assert asked.put_back_ah == pytest.approx((asked.to_ratio - asked.soc_ratio.best) * 80)
    over = planned(equipped(), rods=60)["north-main"]
    assert over.full_first
    assert over.to_ratio == pytest.approx(0.98)


def test_frost_damage_lithium_and_an_unread_battery_are_said_and_have_no_time():
    frozen = planned(equipped(volts=11.6, tools=(CHARGER,)), temp_c=-20.0)["north-main"]
    assert frozen.times == ()
    assert "frozen" in frozen.why_not

    def changed(**fields):
        example = equipped(tools=(CHARGER,))
        batteries = tuple(replace(b, **fields) if b.name == "north-main" else b for b in example.kit.batteries)
        return planned(replace(example, kit=replace(example.kit, batteries=batteries)))["north-main"]

    assert "cracked" in changed(condition=Condition.CRACKED).why_not
    assert "its own charger" in changed(chemistry=Chemistry.LITHIUM).why_not
    assert "capacity" in changed(c20_ah=None).why_not
    example = equipped(tools=(CHARGER,))
    unread = replace(example, kit=replace(example.kit, readings=()))
    assert "not known" in planned(unread)["north-main"].why_not


def test_nothing_recorded_that_charges_is_said():
    example = equipped()
    bare = replace(example, kit=replace(example.kit, vehicles=whole().kit.vehicles))
    assert ways_to_charge(bare.kit, bare.trip) == ()
    assert "no way to charge" in planned(bare, rods=2)["north-main"].why_not


def test_a_half_of_24_v_has_its_engine_only_level_and_twins_share_it():
    def feeds(example):
        line = planned(example, rods=2)["west-main"]
        return {time.way.feed: time.takes.likely_h for time in line.times}, line.remark

    def set_apart(volts):
        made = apart(12.82)
        made = replace(made, trip=replace(made.trip, bank=BOTH))
        low = equipped(made, tools=(CHARGER,))
        readings = tuple(replace(r, volts_v=volts) if r.battery == "west-other" else r for r in low.kit.readings)
        return replace(low, kit=replace(low.kit, readings=readings))

    level, said = feeds(set_apart(12.48))
    assert Feed.IDLE in level
    assert "level" in said
    apart_ways, said = feeds(set_apart(12.55))
    assert set(apart_ways) == {Feed.CHARGER}
    assert "alone on a charger" in said
    twins, said = feeds(equipped(with_two(StartBatteries.TWIN, bank=BOTH), alternator_a=60.0))
    one, _ = feeds(equipped(with_two(StartBatteries.SINGLE, bank=BOTH), alternator_a=60.0))
    assert twins[Feed.IDLE] > one[Feed.IDLE]
    assert "half" in said


def test_rods_beyond_one_charge_need_so_many_charges():
    example = equipped(tools=(CHARGER,))
    outlook = assess(example.kit, example.trip, on=example.on).outlook

    def needed(kit=example.kit, total_ah=0.0):
        return charges_needed(kit, example.trip, outlook, total_ah=total_ah, one_charge_ah=25.0)

    assert needed(total_ah=25.0) is None
    assert needed(total_ah=26.0).charges == 1
    found = needed(total_ah=76.0)
    assert found.charges == 3
    assert found.takes_each.low_h < found.takes_each.likely_h < found.takes_each.high_h
    assert needed(total_ah=30.0).takes_each.likely_h < found.takes_each.likely_h
    assert needed(kit=whole().kit, total_ah=76.0) is None


def test_charges_start_at_what_volts_on_load_ask_to_be_kept_where_that_is_over_the_reserve():
    example = equipped(tools=(CHARGER,))
    outlook = assess(example.kit, example.trip, on=example.on).outlook

    def raised(ratio):
        def lifted(rod):
            kept = {
                name: replace(one, floor=replace(one.floor, always_ratio=ratio))
                for name, one in rod.lasting.kept.items()
            }
            return replace(rod, lasting=replace(rod.lasting, kept=kept))

        return replace(outlook, rods=tuple(lifted(rod) if rod.lasting else rod for rod in outlook.rods))

    def hours(seen):
        return charges_needed(example.kit, example.trip, seen, total_ah=40.0, one_charge_ah=10.0).takes_each.likely_h

    battery = outlook.batteries["north-main"]
    assert kept_ratio(battery, raised(0.8).rods) == 0.8
    assert kept_ratio(battery, ()) == battery.reserve_ratio
    # The last of a charge goes in slowest: from a higher start the same ampere-hours take longer.
    assert hours(raised(0.8)) > hours(outlook)


def test_more_charging_than_the_days_of_the_trip_have_hours_for_is_said_not_to_fit():
    example = equipped(tools=(CHARGER,))
    outlook = assess(example.kit, example.trip, on=example.on).outlook

    def needed(days, total_ah):
        trip = replace(example.trip, ends_on=example.trip.starts_on + timedelta(days=days - 1))
        return charges_needed(example.kit, trip, outlook, total_ah=total_ah, one_charge_ah=10.0)

    one = needed(1, 15.0)
    assert one.charges == 1
    most = int(CHARGING_H_A_DAY.value * 2 // (needed(9, 30.0).takes_each.likely_h + 1.0))
    assert (needed(2, 10.0 * (most + 1)).charges, needed(2, 10.0 * (most + 1)).fits) == (most, True)
    assert needed(2, 10.0 * (most + 2)).fits is False
    assert needed(4, 10.0 * (most + 2)).fits is True


def test_a_battery_that_has_enough_is_said_to_have_enough_and_none_is_both_full_and_without_a_way():
    full = equipped(volts=12.82, tools=(CHARGER,))
    outlook = assess(full.kit, full.trip, on=full.on).outlook
    text = "\n".join(field_lines(field_charge(full.kit, full.trip, outlook), columns=200))
    for line in text.splitlines():
        found = re.match(r"\S+: (\d+) % to (\d+) %", line)
        assert found is None or int(found[1]) < int(found[2]), line
    assert "has enough for that: nothing to put back" in text
    bare = equipped(volts=12.45)
    bare = replace(bare, kit=replace(bare.kit, vehicles=whole().kit.vehicles))
    outlook = assess(bare.kit, bare.trip, on=bare.on).outlook
    text = "\n".join(field_lines(field_charge(bare.kit, bare.trip, outlook, rods=90), columns=200))
    assert "not charged: no way" in text
    assert "full" not in text.partition("First:")[0]


def test_colder_than_anybody_knows_what_a_battery_gives_there_is_no_time_and_no_error():
    example = equipped(tools=(CHARGER,))
    cold = replace(example, trip=replace(example.trip, coldest_c=-29.5))
    line = planned(cold, temp_c=0.0)["north-main"]
    assert line.times == ()
    assert "under −29 °C is not known" in line.why_not
    known = replace(example, trip=replace(example.trip, coldest_c=-29.0))
    assert planned(known, temp_c=0.0)["north-main"].times
    outlook = assess(cold.kit, cold.trip, on=cold.on).outlook
    assert kept_ratio(outlook.batteries["north-main"], outlook.rods) == 1.0


def test_a_battery_in_parallel_strings_is_charged_for_its_own_part_of_the_rods():
    example = equipped(tools=(CHARGER,))
    four = ("north-main", "north-second", "south-second", "south-main")
    trip = replace(example.trip, bank=four, bank_strings=2)
    outlook = assess(example.kit, trip, on=example.on).outlook
    (rod,) = outlook.rods
    for lasting in (rod.lasting, None):
        seen = replace(outlook, rods=(replace(rod, lasting=lasting),))
        line = field_charge(example.kit, trip, seen, rods=2).lines[0]
        half_ah = 2 * rod.burn.charge_ah.high * 0.5
        assert line.to_ratio - line.soc_ratio.best == pytest.approx(half_ah / 80, rel=1e-6)
        assert line.put_back_ah == pytest.approx(half_ah)
        assert line.go_v is None


def test_the_aim_without_rods_asked_for_is_the_go_volts_of_the_card_at_its_charge():
    example = equipped(volts=12.3, tools=(CHARGER,))
    outlook = assess(example.kit, example.trip, on=example.on).outlook
    (rod,) = outlook.rods
    line = field_charge(example.kit, example.trip, outlook).lines[0]
    go_v = rod.lasting.marks("north-main", rods=1, step_v=0.01).go_v
    assert line.go_v == go_v
    # AGM at 5 °C reads 0.025 V less than at 25
    assert line.to_ratio == pytest.approx(charge_at(volts_25_v=go_v + 0.025, chemistry=Chemistry.AGM))
    assert not line.full_first
    many = field_charge(example.kit, replace(example.trip, bank=()), outlook)
    assert [one.name for one in many.lines] == list(outlook.batteries)


def test_without_what_the_load_leaves_the_aim_is_the_reserve_and_the_rods_over_it():
    example = equipped(volts=12.3, tools=(CHARGER,))
    outlook = assess(example.kit, example.trip, on=example.on).outlook
    (rod,) = outlook.rods
    line = field_charge(example.kit, example.trip, replace(outlook, rods=(replace(rod, lasting=None),))).lines[0]
    kept = outlook.batteries["north-main"].reserve_ratio
    assert line.to_ratio == pytest.approx(kept + rod.burn.charge_ah.high / 80)


def test_each_line_says_how_far_sparks_keep_and_the_most_volts_and_what_is_not_known():
    line = planned(equipped(tools=(CHARGER,)), rods=2)["north-main"]
    assert (line.spark_m, line.most_v) == (max(0.5, spark_distance_m(capacity_ah=80)), most_volts(Chemistry.AGM))
    example = equipped(tools=(CHARGER,))
    blank = tuple(replace(b, c20_ah=None, vehicle=None) for b in example.kit.batteries)
    unsized = planned(replace(example, kit=replace(example.kit, batteries=blank)))["north-main"]
    assert (unsized.spark_m, unsized.vehicle, unsized.put_back_ah) == (0.5, "", None)
    outlook = assess(example.kit, example.trip, on=example.on).outlook
    none = field_charge(example.kit, example.trip, replace(outlook, rods=()), rods=2)
    assert (none.rod, none.lines[0].why_not, none.lines[0].times) == ("", "what a rod takes is not known", ())
    warm = replace(example, trip=replace(example.trip, coldest_c=None))
    for trip, temp_c, found in ((warm.trip, None, (25.0, False)), (warm.trip, 7.0, (7.0, True))):
        seen = field_charge(example.kit, trip, outlook, temp_c=temp_c, rods=2)
        assert (seen.temp_c, seen.temp_known, seen.asked) == (*found, True)
    seen = field_charge(example.kit, example.trip, outlook)
    assert (seen.temp_c, seen.temp_known, seen.asked, seen.rods) == (5, True, False, 1)


def test_a_tool_that_is_not_packed_or_not_rated_is_no_way():
    tools = (replace(CHARGER, count=0), replace(CHARGER, name="other", rating_a=None), PANEL, replace(PANEL, count=0))
    ways = ways_to_charge(replace(whole().kit, tools=tools), whole().trip)
    assert [(way.feed, way.rating, way.words, way.batteries_at_once) for way in ways] == [
        (Feed.PANEL, 100, f"panel, {Feed.PANEL}", 1)
    ]


def test_the_aim_is_the_repair_that_takes_most_charge_and_without_one_a_rod_of_the_best_kind():
    example = equipped(with_repair(), volts=12.82, tools=(CHARGER,))
    (first,) = example.kit.repairs
    kit = replace(example.kit, repairs=tuple(replace(first, name=f"r{mm}", weld_length_mm=mm) for mm in (40, 400, 200)))
    trip = replace(example.trip, repairs=("r40", "r400", "r200"))
    outlook = assess(kit, trip, on=example.on).outlook
    needs = {repair.repair.name: repair.best.needs.rods.to_pack for repair in outlook.repairs}
    assert needs["r400"] > needs["r200"] > needs["r40"]
    (rod,) = outlook.rods
    assert hardest(outlook) == (rod, needs["r400"])
    assert (field_charge(kit, trip, outlook).rods, field_charge(kit, trip, outlook).rod) == (needs["r400"], rod.words)
    assert hardest(replace(outlook, repairs=())) == (rod, 1)
    assert hardest(replace(outlook, repairs=(), rods=(replace(rod, burn=None),))) == (None, 1)
    hot = replace(rod, fit=Fit.TOO_HOT)  # none welds: the first that burns
    assert hardest(replace(outlook, repairs=(), rods=(replace(rod, burn=None), hot))) == (hot, 1)


def test_only_the_starting_batteries_of_a_pair_or_twins_are_remarked_on():
    for how, words in ((StartBatteries.PAIR, "bridged, both halves"), (StartBatteries.TWIN, "beside its twin")):
        example = equipped(with_two(how, bank=BOTH), tools=(CHARGER,))
        second = replace(
            next(b for b in example.kit.batteries if b.name == "north-second"), name="west-second", vehicle="West"
        )
        kit = replace(example.kit, batteries=(*example.kit.batteries, second))
        trip = replace(example.trip, bank=())
        outlook = assess(kit, trip, on=example.on).outlook
        remarks = {line.name: line.remark for line in field_charge(kit, trip, outlook, rods=2).lines}
        assert remarks["west-main"].startswith(words)
        assert {name for name, remark in remarks.items() if remark} == {"west-main", "west-other"}
