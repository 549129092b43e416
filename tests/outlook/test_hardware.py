"""What a bank promises before anything is read: as hot as full, as many rods as the hardest repair asks, one shade."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Any

import pytest

from kitlist.base.terms import LeadUse, Polarity, RodCondition, Steel
from kitlist.kit import Repair
from kitlist.kit.limits import standard
from kitlist.outlook import look_out
from kitlist.outlook.hardware import (
    HardwareOutlook,
    allowed_polarities,
    hardware_outlook,
    least_shade,
    one_polarity,
    polarity_not_said,
    said_polarity,
)
from kitlist.outlook.linkable import Bar
from kitlist.outlook.rods import RodOutlook, rod_outlook
from kitlist.physics.bank.verdict import Fit
from kitlist.rules.example import Example, reading, rod, whole, with_kit, with_reading, with_repair, with_trip
from kitlist.rules.four_without_ballast import with_four
from kitlist.welding.rods.shades import RULES, minimum_shade

THREE = ("north-main", "north-second", "south-second")


def hardware(example: Example) -> HardwareOutlook:
    return hardware_outlook(example.kit, example.trip, on=example.on)


def packets(*designations: str) -> tuple[RodOutlook, ...]:
    return tuple(rod_outlook(rod(name, designation=name), None, whole().trip) for name in designations)


def repair(name: str, weld_length_mm: float, **changes: Any) -> Repair:
    fields: dict[str, Any] = {
        "part": "spring hanger",
        "steel": Steel.MILD,
        "thickness_mm": 8,
        "load_bearing": True,
        "behind": "nothing",
    }
    return Repair(name=name, weld_length_mm=weld_length_mm, **(fields | changes))


def with_repairs(*repairs: Repair, **changes: Any) -> Example:
    example = with_kit(repairs=repairs, **changes)
    return replace(example, trip=replace(example.trip, repairs=tuple(one.name for one in repairs)))


def test_a_full_bank_is_hotter_than_a_held_one_and_the_rod_is_for_the_steel_that_takes_it() -> None:
    (seen,) = hardware(with_kit(rods=(rod("rods", diameter_mm=3.2),))).rods
    assert seen.band is not None
    assert seen.full is not None
    assert seen.range is not None
    assert seen.steel_mm is not None
    assert seen.full.low_a > seen.band.low_a
    assert seen.full.middle_a > seen.band.middle_a
    held_mm, full_mm = (4.0 * (band.middle_a / seen.range.high_a) ** (4 / 3) for band in (seen.band, seen.full))
    assert held_mm <= 7.0 < full_mm <= 7.5
    assert seen.steel_mm[0] == 7.5


def test_the_fit_is_the_worse_of_held_and_full() -> None:
    example = with_kit(rods=(rod("rods", diameter_mm=3.2),))
    (seen,) = hardware(example).rods
    assert seen.band is not None
    assert seen.full is not None
    # an owner's hot limit between the cool end of a held bank and that of a full one
    limit = (seen.band.low_a + seen.full.low_a) / 2 / 130
    kit = replace(example.kit, rulebook=standard().changed(f"hot_limit_ratio = {limit}", name="own limits"))
    (judged,) = hardware(replace(example, kit=kit)).rods
    assert (seen.fit, judged.fit) == (Fit.HOT, Fit.TOO_HOT)


def test_no_reading_changes_what_the_hardware_promises() -> None:
    low = with_reading("north-second", volts_v=12.3)
    assert hardware(low) == hardware(whole())
    assert hardware(with_kit(readings=())) == hardware(whole())
    assert look_out(low.kit, low.trip, on=low.on).bank != look_out(whole().kit, whole().trip, on=whole().on).bank


def test_every_battery_of_the_bank_has_its_marks_and_no_other() -> None:
    seen = hardware(whole())
    assert set(seen.marks) == set(THREE)
    for mark in seen.marks.values():
        assert mark.go_v is not None
        assert mark.after_v < mark.shows_v < mark.go_v <= mark.full_v
    assert seen.stop_v == 9.6


def test_where_no_repair_is_named_the_go_volts_are_for_one_rod_of_the_best_kind() -> None:
    thick, thin = rod("thick"), rod("thin", diameter_mm=2.5)
    assert hardware(with_kit(rods=(thin, thick))).asked == (("thick", 1),)
    assert hardware(with_kit(rods=(thin,))).asked == (("thin", 1),)


def test_where_no_rod_welds_the_go_volts_are_for_the_one_that_comes_nearest() -> None:
    hot, cold = rod("thin", diameter_mm=2.5), rod("thick", designation="E7018", diameter_mm=5.0)
    for rods in ((hot, cold), (cold, hot)):
        seen = hardware(with_kit(rods=rods))
        assert {one.rod.name: one.fit for one in seen.rods} == {"thin": Fit.TOO_HOT, "thick": Fit.COLD}
        nearest = min(seen.rods, key=lambda one: one.fit.rank if one.fit else 99)
        assert seen.asked == ((nearest.rod.name, 1),)


def test_an_empty_packet_is_not_on_the_card_and_without_rods_there_are_no_marks() -> None:
    seen = hardware(with_kit(rods=(rod("none", count=0), rod("one", count=1))))
    assert [one.rod.name for one in seen.rods] == ["one"]
    bare = hardware(with_kit(rods=()))
    assert (bare.rods, dict(bare.marks), bare.asked) == ((), {}, ())
    assert bare.polarity is Polarity.DCEP


def test_of_two_repairs_with_one_kind_the_harder_sets_the_go_volts_in_either_order() -> None:
    small, large = repair("small", 40), repair("large", 200)
    short, long = (hardware(with_repairs(one)).asked[0][1] for one in (small, large))
    assert short < long
    for order in ((small, large), (large, small)):
        assert hardware(with_repairs(*order)).asked == (("thick rods", long),)


def test_more_rods_are_never_begun_at_fewer_volts() -> None:
    one, more = (hardware(with_repairs(repair("weld", mm))).marks["north-second"] for mm in (40, 110))
    assert one.go_v is not None
    assert more.go_v is None or more.go_v > one.go_v
    assert (one.after_v, one.full_v) == (more.after_v, more.full_v)


def test_rods_that_no_full_battery_shows_have_no_go_volts() -> None:
    seen = hardware(with_repairs(repair("long", 600)))
    assert {mark.go_v for mark in seen.marks.values()} == {None}
    assert all(mark.sure < seen.asked[0][1] for mark in seen.marks.values())


def two_kinds(*named: str, thin_weld_mm: float) -> HardwareOutlook:
    """Leads so long that thin rods serve 4 mm steel, and thick ones, which take more out of a battery, 12 mm steel."""
    repairs = (repair("thin", thin_weld_mm, thickness_mm=4), repair("thick", 40, thickness_mm=12))
    leads = tuple(one if one.use is LeadUse.LINK else replace(one, length_m=30.0) for one in whole().kit.leads)
    example = with_kit(rods=(rod("thick rods"), rod("thin rods", diameter_mm=3.2)), repairs=repairs, leads=leads)
    return hardware(replace(example, trip=replace(example.trip, repairs=named)))


def test_of_two_kinds_the_harder_sets_the_go_volts_and_the_one_that_keeps_more_the_after_volts() -> None:
    thin, thick = (two_kinds(name, thin_weld_mm=900) for name in ("thin", "thick"))
    assert {name for name, _ in thin.asked} == {"thin rods"}
    assert thick.asked == (("thick rods", 1),)
    both = two_kinds("thick", "thin", thin_weld_mm=900)
    assert set(both.asked) == {*thin.asked, *thick.asked}
    for name, mark in both.marks.items():
        easy, hard = thick.marks[name], thin.marks[name]
        assert easy.go_v is not None
        assert hard.go_v is not None
        assert mark.go_v == hard.go_v > easy.go_v
        assert (mark.after_v, mark.shows_v) == (easy.after_v, easy.shows_v)
        assert easy.after_v > hard.after_v
        assert mark.sure == hard.sure


def test_where_one_of_two_kinds_has_no_go_volts_the_battery_has_none() -> None:
    for order in (("thick", "thin"), ("thin", "thick")):
        both = two_kinds(*order, thin_weld_mm=2000)
        assert len(both.asked) == 2
        assert {mark.go_v for mark in both.marks.values()} == {None}


def test_a_repair_that_takes_nobody_knows_how_many_rods_asks_for_one_of_the_best_kind() -> None:
    unsaid = Repair(name="unsaid", part="spring hanger", steel=Steel.MILD, thickness_mm=8, behind="nothing")
    wheel = repair("wheel", 40, part="wheel")
    assert hardware(with_repairs(unsaid, wheel)).asked == (("thick rods", 1),)


def test_without_a_capacity_nothing_can_be_asked_of_a_battery() -> None:
    blank = tuple(replace(one, c20_ah=None) for one in whole().kit.batteries)
    for example in (with_kit(batteries=blank), with_repairs(repair("weld", 40), batteries=blank)):
        seen = hardware(example)
        assert (seen.asked, dict(seen.marks)) == ((), {})
        assert seen.rods[0].band is not None


def test_rods_that_no_source_has_a_range_for_are_not_asked_for() -> None:
    assert hardware(with_kit(rods=(rod("odd", designation="E7018", diameter_mm=2.0),))).asked == ()


def test_a_bar_that_a_reading_lifts_is_not_the_hardwares_and_one_for_good_is() -> None:
    assert hardware(with_reading("north-second", volts_v=11.9)).bars == ()
    wet = with_trip(wet=True)
    assert [bar.bar for bar in hardware(wet).bars] == [Bar.WET]


def test_what_was_written_by_a_slip_of_the_pen_does_not_count() -> None:
    later = reading("north-second", volts_v=12.2, taken_at=datetime(2027, 3, 30, 8, 0))  # noqa: DTZ001 - readings are kept in local time
    assert hardware(with_kit(readings=(later, *whole().kit.readings))) == hardware(whole())


def test_a_starting_battery_whose_vehicles_all_weld_keeps_what_the_limits_ask() -> None:
    every = with_trip(bank=("north-main", "south-main"))
    kept = hardware(every).bank.batteries
    assert {one.floor.always_ratio for one in kept.values()} == {every.kit.limits.every_starter_ratio}
    assert {one.floor.always_ratio for one in hardware(whole()).bank.batteries.values()} == {0.0}


def test_only_a_battery_that_starts_an_engine_keeps_what_its_engine_needs() -> None:
    kept = hardware(whole()).bank.batteries
    assert {name for name, one in kept.items() if one.floor.cranking is not None} == {"north-main"}


def test_the_shade_is_for_the_highest_current_of_the_hottest_rod() -> None:
    example = with_kit(rods=(rod("rutile"), rod("cellulosic", designation="E6010")))
    seen = hardware(replace(example, trip=replace(example.trip, bank=THREE[:2])))
    hot_a, cool_a = (one.highest_a or 0.0 for one in seen.rods)
    # the strictest minimum goes from 9 to 10 at 80 A
    assert cool_a < 80.0 < hot_a
    assert seen.shade == 10


def test_the_card_asks_for_no_lighter_a_filter_than_the_sheet_of_a_full_bank() -> None:
    # the strictest minimum goes from 10 to 11 at 175 A: the held bank stays under it, the full one does not
    leads = tuple(one if one.use is LeadUse.LINK else replace(one, length_m=26.0) for one in whole().kit.leads)
    example = with_kit(leads=leads)
    seen, sheet = hardware(example), look_out(example.kit, example.trip, on=example.on)
    (packet,) = seen.rods
    assert packet.band is not None
    assert packet.full is not None
    assert packet.band.high_a < 175.0 < packet.full.high_a
    assert packet.highest_a == packet.full.high_a
    assert sheet.highest_a is not None
    assert seen.shade >= least_shade(example.kit.limits, current_a=sheet.highest_a).shade == 11


def test_the_first_strike_on_a_cold_strip_is_that_of_the_full_bank() -> None:
    four = with_four("strip")
    (card,), (sheet,) = hardware(four).rods, look_out(four.kit, four.trip, on=four.on).rods
    assert card.struck is not None
    assert sheet.struck is not None
    assert card.struck.middle_a > sheet.struck.middle_a
    assert card.highest_a == card.struck.high_a


def test_without_a_current_the_shade_is_the_least_that_is_worn_at_an_arc() -> None:
    assert hardware(with_kit(rods=())).shade == 8


@pytest.mark.parametrize("amps", [55.0, 110.0, 160.0, 200.0])
def test_the_shade_is_that_of_the_owners_region_or_the_strictest(amps: float) -> None:
    limits = standard().limits
    assert limits.shade_region == "strictest"
    own = [least_shade(replace(limits, shade_region=region), current_a=amps) for region in RULES]
    assert own == [minimum_shade(region, current_a=amps) for region in RULES]
    assert least_shade(limits, current_a=amps).shade == max(one.shade for one in own)


def test_no_current_and_more_than_the_table_has_get_the_shades_at_its_ends() -> None:
    limits = standard().limits
    assert least_shade(limits, current_a=0.0) == least_shade(limits, current_a=1.0)
    assert least_shade(limits, current_a=2000.0) == least_shade(limits, current_a=550.0)
    assert least_shade(limits, current_a=550.0).shade > least_shade(limits, current_a=1.0).shade


@pytest.mark.parametrize(
    ("designations", "polarity", "why"),
    [
        (("E6010",), Polarity.DCEP, ""),
        (("E6012",), Polarity.DCEN, ""),
        (("E6013", "E6012"), Polarity.DCEN, ""),
        (("E6013",), Polarity.DCEP, ""),
        (("E6013", "E7018"), Polarity.DCEP, ""),
        (("E6010", "E6012"), None, "the packed rods need different ones"),
        (("junk",), None, "no packed rod says one"),
        ((), None, "no packed rod says one"),
        (("E6012", "junk"), Polarity.DCEN, ""),
    ],
)
def test_the_polarity_is_what_every_packed_rod_allows_the_rod_positive_where_there_is_a_choice(
    designations: tuple[str, ...], polarity: Polarity | None, why: str
) -> None:
    rods = packets(*designations)
    assert polarity_not_said(rods) == why
    assert said_polarity(rods) is polarity
    assert said_polarity(iter(rods)) is polarity
    assert one_polarity(rods) is (polarity or Polarity.DCEP)


def test_wet_rods_are_scrap_and_have_no_say_in_the_polarity() -> None:
    sound, wet = (
        rod_outlook(rod("rods", designation=name, condition=condition), None, whole().trip)
        for name, condition in (("E6010", RodCondition.DRY), ("E6012", RodCondition.WET))
    )
    assert said_polarity((sound, wet)) is Polarity.DCEP
    assert one_polarity((wet, sound)) is Polarity.DCEP
    assert allowed_polarities((sound, wet)) == {Polarity.DCEP}
    assert said_polarity((wet,)) is None


def test_a_rod_that_does_not_state_its_polarity_leaves_both_and_is_named() -> None:
    (known,) = packets("E6012")
    assert known.designation is not None
    silent = replace(known, rod=replace(known.rod, name="odd"), designation=replace(known.designation, polarities=()))
    assert allowed_polarities((silent,)) == set(Polarity)
    assert polarity_not_said((known, silent)) == "that of odd is not known"
    assert said_polarity((known, silent)) is None
    assert allowed_polarities((known, silent)) == {Polarity.DCEN}


def test_a_repair_on_the_card_counts_the_rods_of_that_repair() -> None:
    example = with_repair(weld_length_mm=200)
    (cell,) = look_out(example.kit, example.trip, on=example.on).repairs[0].cells
    assert cell.needs is not None
    assert hardware(example).asked == (("thick rods", cell.needs.rods.to_pack),)
