"""How many rods of a kind a bank gives: the weakest battery counts, the warm lead counts, and go volts follow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.outlook import look_out
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.lasting import CARD_WAY, Lasting, RodsInHand, lasting, table
from kitlist.physics.bank.endurance import Ending, RodUse
from kitlist.physics.bank.rods_by_volts import RodBattery, SureLikely, rods_by_volts
from kitlist.physics.battery.charge import Way
from kitlist.physics.battery.cold import Floor
from kitlist.physics.battery.standing import NO_LOSS, Loss
from kitlist.rules.example import Example, whole, with_lead, with_reading, with_trip

FLOODED = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
ROD_AH = Span(1.64, 2.05, 2.46)
"""The rod and the battery of the worked examples: 12.65 V at 0 °C after a night's rest are 8 sure, likely 12."""


def made(*, in_a_row: int | None = None, coldest_c: float = 0.0, **kept: RodBattery) -> Lasting:
    kept = kept or {"a": FLOODED, "b": FLOODED}
    ended = {name: Ending.RESERVE if name == "a" else Ending.LOAD_VOLTS for name in kept}
    return Lasting(kept=kept, charge_ah=ROD_AH, coldest_c=coldest_c, ended_by=ended, in_a_row=in_a_row)


def read(volts_v: float, **changes: Any) -> BatteryOutlook:
    """A battery at 0 °C after a night's rest, from which standing has taken nothing."""
    seen = look_out(whole().kit, whole().trip, on=whole().on).batteries["north-second"]
    assert seen.reading is not None
    reading = replace(seen.reading, volts_v=volts_v, battery_temp_c=changes.pop("battery_temp_c", 0.0))
    return replace(seen, **({"reading": reading, "way": Way.RESTED, "loss": NO_LOSS} | changes))


def counted(lasting: Lasting, **read_as: BatteryOutlook) -> RodsInHand:
    found = lasting.rods(read_as)
    assert found is not None
    return found


def test_the_battery_with_the_fewest_rods_counts_and_is_named_with_what_ends_it() -> None:
    full, low = read(12.65), read(12.50)
    alone = counted(made(b=FLOODED), b=low)
    found = counted(made(), a=full, b=low)
    assert (found.count, found.on, found.ended_by) == (alone.count, "b", Ending.LOAD_VOLTS)
    assert found.count < SureLikely(8, 12)
    turned = counted(made(), a=low, b=full)
    assert (turned.count, turned.on, turned.ended_by) == (found.count, "a", Ending.RESERVE)


def test_a_full_battery_gives_what_the_worked_example_gives_and_of_two_alike_the_first_is_named() -> None:
    found = counted(made(), b=read(12.65), a=read(12.65))
    assert (found.sure, found.likely, found.on) == (8, 12, "a")


@pytest.mark.parametrize(
    ("in_a_row", "sure", "likely", "ended_by", "on"),
    [
        (7, 7, 7, Ending.LEAD_HEAT, ""),
        (8, 8, 8, Ending.RESERVE, "a"),
        (10, 8, 10, Ending.RESERVE, "a"),
        (0, 0, 0, Ending.LEAD_HEAT, ""),
        (None, 8, 12, Ending.RESERVE, "a"),
    ],
)
def test_warm_leads_end_it_only_where_they_bear_fewer_than_the_charge_gives(
    in_a_row: int | None, sure: int, likely: int, ended_by: Ending, on: str
) -> None:
    found = counted(made(in_a_row=in_a_row), a=read(12.65), b=read(12.65))
    assert (found.sure, found.likely, found.ended_by, found.on) == (sure, likely, ended_by, on)


def test_leads_that_bear_no_rod_end_it_though_the_charge_is_sure_of_none_but_likely_gives_some() -> None:
    low = read(12.42)
    some = counted(made(b=FLOODED), b=low)
    assert (some.sure, some.likely > 1) == (0, True)
    for in_a_row, ended_by in ((0, Ending.LEAD_HEAT), (1, Ending.LOAD_VOLTS)):
        found = counted(made(in_a_row=in_a_row, b=FLOODED), b=low)
        assert (found.sure, found.likely, found.ended_by) == (0, in_a_row, ended_by)


@pytest.mark.parametrize(
    "lacks",
    [{}, {"b": read(12.65, reading=None)}, {"b": read(12.65, way=None)}, {"b": "unknown charge"}],
)
def test_one_battery_of_which_nothing_is_known_leaves_all_rods_unknown(lacks: Mapping[str, Any]) -> None:
    batteries = {"a": read(12.65)} | dict(lacks)
    if batteries.get("b") == "unknown charge":
        seen = read(12.65)
        batteries["b"] = replace(seen, charge=replace(seen.charge, soc_ratio=None))
    assert made().rods(batteries) is None
    assert made().spare_ah(batteries, sure=True) is None


def test_colder_than_anybody_knows_no_rod_is_sure_and_no_charge_is_spare() -> None:
    cold = made(coldest_c=-60.0, b=FLOODED)
    assert counted(cold, b=read(12.65)).count == SureLikely(0, 0)
    assert cold.spare_ah({"b": read(12.65)}, sure=False) == 0.0


def test_a_poor_meter_and_days_of_standing_take_sure_rods() -> None:
    def sure(battery: BatteryOutlook) -> int:
        return counted(made(b=FLOODED), b=battery).sure

    good = read(12.65)
    assert good.reading is not None
    poor = replace(good, reading=replace(good.reading, meter_accuracy_ratio=0.02))
    stood = replace(good, loss=Loss(Span(0.8, 0.9, 1.0), Span.exactly(0.0)))
    assert sure(poor) < sure(good) == 8
    assert sure(stood) < sure(good)


def test_spare_charge_of_a_bank_is_that_of_its_poorest_battery_through_the_whole_bank() -> None:
    # full at 25 °C: half of 70 Ah over the floor; at half of the bank's current the bank gives twice as much
    full = read(12.65, battery_temp_c=25.0)
    whole_ah = made(coldest_c=25.0, b=FLOODED).spare_ah({"b": full}, sure=False)
    assert whole_ah == pytest.approx(35.0)
    shared = replace(FLOODED, share_ratio=0.5)
    assert made(coldest_c=25.0, b=shared).spare_ah({"b": full}, sure=False) == pytest.approx(70.0)
    for a, b in ((shared, FLOODED), (FLOODED, shared)):
        both = made(coldest_c=25.0, a=a, b=b)
        assert both.spare_ah({"a": full, "b": full}, sure=False) == pytest.approx(35.0)
    none = made(coldest_c=25.0, b=replace(FLOODED, share_ratio=0.0))
    assert none.spare_ah({"b": full}, sure=False) == float("inf")
    sure_ah = made(coldest_c=25.0, b=FLOODED).spare_ah({"b": full}, sure=True)
    assert sure_ah is not None
    assert 0.0 < sure_ah < 35.0


def test_go_volts_are_those_of_the_thirstiest_rod_rounded_up() -> None:
    cold = made(coldest_c=-6.0)
    fine, coarse = cold.marks("a", rods=3, step_v=0.01), cold.marks("a", rods=3)
    assert (fine.go_v, fine.after_v, fine.shows_v) == (12.58, 12.36, 12.49)
    assert (coarse.go_v, coarse.after_v, coarse.shows_v) == (12.60, 12.40, 12.50)


@pytest.mark.parametrize("rods", range(1, 5))
def test_go_volts_show_their_rods_and_a_hundredth_less_does_not(rods: int) -> None:
    cold = made(coldest_c=-6.0)
    go_v = cold.marks("a", rods=rods, step_v=0.01).go_v
    assert go_v is not None
    assert cold.rods_shown("a", volts_v=go_v) >= rods > cold.rods_shown("a", volts_v=round(go_v - 0.01, 2))


def test_more_rods_are_never_at_fewer_volts_and_more_than_a_full_battery_shows_have_none() -> None:
    cold = made(coldest_c=-6.0)
    go_v = [cold.marks("a", rods=rods, step_v=0.01).go_v for rods in range(1, 40)]
    known = [volts_v for volts_v in go_v if volts_v is not None]
    assert known == sorted(known)
    assert go_v == known + [None] * (39 - len(known))
    assert known[-1] > known[0]
    assert len(known) == cold.marks("a", rods=1).sure < 39


def test_rods_shown_are_the_sure_ones_and_a_battery_is_as_cold_as_the_trip_unless_it_was_measured() -> None:
    cold = made(coldest_c=-6.0)
    by_hand = rods_by_volts(FLOODED, volts_v=12.6, charge_ah=ROD_AH, way=CARD_WAY, temp_c=-6.0, battery_temp_c=-6.0)
    assert by_hand.sure < by_hand.likely
    assert cold.rods_shown("a", volts_v=12.6) == by_hand.sure
    assert cold.rods_shown("a", volts_v=12.6, battery_temp_c=20.0) < by_hand.sure
    assert cold.rods_shown("a", volts_v=12.6, way=Way.RESTED) > by_hand.sure


def test_a_table_has_each_kind_by_itself_and_nothing_where_one_has_run_out() -> None:
    kind, thirsty = made(), replace(made(), charge_ah=ROD_AH.times(3.0))
    lines = list(table([kind, thirsty], "a", way=Way.RESTED))
    turned = list(table([thirsty, kind], "a", way=Way.RESTED))
    assert [line.volts_v for line in lines] == [line.volts_v for line in turned]
    assert [line.rods for line in lines] == [line.rods[::-1] for line in turned]
    for line in lines:
        for one, count in zip((kind, thirsty), line.rods, strict=True):
            assert count == one.rods_shown("a", volts_v=line.volts_v, way=Way.RESTED)
    assert lines[-1].rods == (0, 0)
    assert lines[-2].rods[0] > 0 == lines[-2].rods[1]
    assert lines[0].volts_v - lines[1].volts_v == pytest.approx(0.05)


def lasting_of(example: Example) -> Lasting:
    found = look_out(example.kit, example.trip, on=example.on).rods[0].lasting
    assert found is not None
    return found


def test_a_thin_lead_bears_no_rod_and_a_thick_one_all() -> None:
    assert lasting_of(with_lead("holder lead", area_mm2=4)).in_a_row == 0
    assert lasting_of(whole()).in_a_row is None


def test_a_battery_that_gives_out_on_load_keeps_the_charge_at_which_it_does() -> None:
    found = lasting_of(whole())
    for name, kept in found.kept.items():
        assert found.ended_by[name] is Ending.AT_HAND
        assert kept.floor.always_ratio > Floor().at(found.coldest_c)
        assert kept.share_ratio == pytest.approx(1.0)
        assert kept.capacity_ah == 80


def test_in_parallel_strings_each_battery_gives_its_own_part_of_the_current() -> None:
    four = with_trip(bank=("north-main", "north-second", "south-second", "south-main"), bank_strings=2)
    assert {round(kept.share_ratio, 6) for kept in lasting_of(four).kept.values()} == {0.5}


def on_changed(middle_a: float | None = None, **changes: Any) -> Lasting | None:
    """The whole kit's bank and rod, with something of the battery north-main, or the likely current, changed."""
    example = whole()
    seen = look_out(example.kit, example.trip, on=example.on)
    (rod,) = seen.rods
    assert seen.bank is not None
    assert rod.burn is not None
    assert rod.band is not None
    batteries = dict(seen.bank.batteries)
    batteries["north-main"] = replace(batteries["north-main"], **changes)
    band = rod.band if middle_a is None else replace(rod.band, middle_a=middle_a)
    return replace(seen.bank, batteries=batteries).lasting(RodUse(charge_ah=rod.burn.charge_ah, count=6), band)


def test_what_a_starter_has_to_keep_is_never_lowered_by_what_the_load_leaves() -> None:
    floor = look_out(whole().kit, whole().trip, on=whole().on).batteries["north-main"].floor
    found = on_changed(floor=replace(floor, always_ratio=0.9))
    assert found is not None
    assert found.kept["north-main"].floor.always_ratio == 0.9
    assert found.kept["north-second"].floor.always_ratio < 0.9


def test_the_coldest_battery_sets_the_cold_of_the_bank() -> None:
    found = on_changed(coldest_c=-9.0)
    assert found is not None
    assert found.coldest_c == -9.0


def test_without_an_arc_no_rods_are_counted() -> None:
    assert on_changed(middle_a=0.0) is None
    assert on_changed(middle_a=150.0) is not None


def test_colder_than_anybody_knows_the_rods_are_ended_by_the_reserve_alone() -> None:
    found = lasting_of(with_trip(coldest_c=-45, hottest_c=0))
    assert set(found.ended_by.values()) == {Ending.RESERVE}
    assert found.in_a_row is None
    assert {kept.share_ratio for kept in found.kept.values()} == {1.0}


def test_it_is_counted_at_the_coldest_of_the_trip_and_from_full_whatever_was_read() -> None:
    assert lasting_of(with_trip(coldest_c=-9)).coldest_c == -9
    low, full = lasting_of(with_reading("north-second", volts_v=12.5)), lasting_of(whole())
    assert {name: kept.floor.always_ratio for name, kept in low.kept.items()} == pytest.approx(
        {name: kept.floor.always_ratio for name, kept in full.kept.items()}, abs=0.05
    )


def test_without_a_capacity_no_rods_are_counted() -> None:
    kit = whole().kit
    blank = tuple(replace(b, c20_ah=None) if b.name == "north-second" else b for b in kit.batteries)
    (rod,) = look_out(replace(kit, batteries=blank), whole().trip, on=whole().on).rods
    assert rod.band is not None
    assert (rod.lasting, rod.rods) == (None, None)


def test_an_arc_that_a_practice_weld_taught_is_burned_at_its_own_current() -> None:
    """A weaker arc asks less of the batteries' volts on load, which so keep less."""
    seen = look_out(whole().kit, whole().trip, on=whole().on)
    (rod,) = seen.rods
    assert seen.bank is not None
    assert seen.bank.rig is not None
    assert rod.band is not None
    assert rod.burn is not None
    weak = replace(rod.band, middle_a=60.0)
    use = RodUse(charge_ah=rod.burn.charge_ah, count=6)
    usual, taught = (
        lasting(seen.bank.rig, seen.bank.batteries, use, weak, lead=None, taught=bead) for bead in (False, True)
    )
    assert usual is not None
    assert taught is not None
    assert taught.kept["north-main"].floor.always_ratio < usual.kept["north-main"].floor.always_ratio - 0.01
