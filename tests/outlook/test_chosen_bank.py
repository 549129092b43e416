"""The chosen bank: what its current cannot be told without, which practice weld counts, and what its links carry."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, Chemistry, Condition, Covering, Fitting, LeadUse
from kitlist.kit import Bead, Trip
from kitlist.outlook import look_out
from kitlist.outlook.bank import BankOutlook, bank_outlook, learned_from, starting, temperatures, with_starters_kept
from kitlist.outlook.leads import Lack, Missing, arc_leads, in_row, packed_links
from kitlist.physics.bank.endurance import RodUse
from kitlist.physics.bank.network import longest_held, stuck_rod
from kitlist.physics.leads.cable import ohm_per_m
from kitlist.rules.example import (
    Example,
    lead,
    whole,
    with_battery,
    with_kit,
    with_lead,
    with_reading,
    with_trip,
    without_lead,
)

THREE = ("north-main", "north-second", "south-second")
FOUR = (*THREE, "south-main")


def bank(example: Example) -> BankOutlook:
    found = look_out(example.kit, example.trip, on=example.on).bank
    assert found is not None
    return found


def middle_a(found: BankOutlook, covering: Covering | None = None) -> float:
    band = found.band(covering)
    assert band is not None
    return band.middle_a


def bead(name: str, **changes: Any) -> Bead:
    fields: dict[str, Any] = {
        "welded_on": whole().on,
        "bank": THREE,
        "rest_v": 37.9,
        "bank_v": 33.0,
        "current_a": 150,
        "holder_v": 31.5,
    }
    return Bead(name=name, **(fields | changes))


def taught_by(*beads: Bead) -> str | None:
    found = bank(with_kit(beads=beads)).bead
    return None if found is None else found.name


def test_the_newest_practice_weld_up_to_the_day_counts() -> None:
    on = whole().on
    old, today, tomorrow = (
        bead(name, welded_on=day)
        for name, day in (("old", date(2026, 5, 1)), ("today", on), ("next", date(2027, 3, 5)))
    )
    assert taught_by(tomorrow, old, today) == "today"
    assert taught_by(old) == "old"
    assert taught_by(tomorrow) is None


def test_only_a_weld_with_exactly_these_batteries_counts_in_whatever_order_they_were_linked() -> None:
    assert taught_by(bead("turned", bank=THREE[::-1])) == "turned"
    assert taught_by(bead("two", bank=THREE[:2], rest_v=25.3, bank_v=22.0, holder_v=None)) is None
    assert taught_by(bead("others", bank=FOUR[1:])) is None
    four = replace(with_kit(beads=(bead("row", bank=FOUR, rest_v=51.0, bank_v=45.0),)), trip=with_trip(bank=FOUR).trip)
    assert bank(four).bead is not None
    assert bank(replace(four, trip=replace(four.trip, bank_strings=2))).bead is None


def test_the_leads_that_a_practice_weld_found_stand_beside_the_most_that_sound_ones_have() -> None:
    found = bank(with_kit(beads=(bead("first"),))).external_ohm
    assert found is not None
    assert found[0] == pytest.approx((33.0 - 31.5) / 150)
    sound = in_row([one for one in whole().kit.leads if one.use is not LeadUse.LINK]).most_ohm
    assert found[1] == pytest.approx(sound + 2 * 0.003)  # a joint at each end of the bank, 3 mohm where it is poor
    thinner = with_lead("work lead", area_mm2=16)
    worse = bank(replace(thinner, kit=replace(thinner.kit, beads=(bead("first"),)))).external_ohm
    assert worse is not None
    assert worse[0] == found[0]
    assert worse[1] > found[1] > 12 * 0.554 / 1000  # 12 m of 35 mm2 by the table, without any joint
    longer_link = with_lead("link", length_m=20.0)
    same = bank(replace(longer_link, kit=replace(longer_link.kit, beads=(bead("first"),)))).external_ohm
    assert same == found  # links are inside the bank


def test_without_a_weld_or_its_volts_at_the_holder_nothing_is_said_of_the_leads() -> None:
    assert bank(whole()).external_ohm is None
    assert bank(with_kit(beads=(bead("first", holder_v=None),))).external_ohm is None


def test_meters_of_which_nobody_said_how_good_they_are_count_as_usual_ones() -> None:
    usual = learned_from(bead("first"))
    assert learned_from(bead("first", meter_accuracy_ratio=0.005, clamp_accuracy_ratio=0.03)) != learned_from(
        bead("first", meter_accuracy_ratio=0.0, clamp_accuracy_ratio=0.0)
    )
    assert learned_from(bead("first", meter_accuracy_ratio=0.0)) != usual
    assert learned_from(bead("first", clamp_accuracy_ratio=0.0)) != usual


@pytest.mark.parametrize(
    ("example", "missing"),
    [
        (whole(), ()),
        (with_trip(vehicles=("North",)), (Missing(Lack.NOT_ALONG, "south-second"),)),
        (with_battery("north-second", chemistry=Chemistry.LITHIUM), (Missing(Lack.LITHIUM, "north-second"),)),
        (with_battery("north-second", c20_ah=None, cranking_a=None), (Missing(Lack.RATING, "north-second"),)),
        (with_trip(ballast="strip"), (Missing(Lack.BALLAST, "strip"),)),
        (without_lead("work lead"), (Missing(Lack.ARC_LEAD, "work"),)),
        (with_lead("link", length_m=None), (Missing(Lack.LENGTH, "link"),)),
    ],
)
def test_each_thing_that_the_current_cannot_be_told_without_is_named(
    example: Example, missing: tuple[Missing, ...]
) -> None:
    found = bank(example)
    assert found.not_known == missing
    for told in (found.rig, found.band(None), found.stuck_a, found.rested_v, found.longest_mm):
        assert (told is None) is bool(missing)


def test_three_in_a_row_need_two_links_and_a_third_of_unknown_length_is_a_spare() -> None:
    good, odd = (lead(name, LeadUse.LINK, Fitting.POST_CLAMP) for name in ("good", "odd"))
    unknown = replace(odd, length_m=None, area_mm2=25)
    for count, missing in ((2, ()), (1, (Missing(Lack.LENGTH, "odd"),))):
        found = bank(without_lead("link", also=(unknown, replace(good, count=count))))
        assert found.not_known == missing
        assert len([one for one in found.leads_used if one.use is LeadUse.LINK]) == 2


def test_two_strings_use_a_link_and_a_tie_for_every_battery() -> None:
    links = replace(lead("links", LeadUse.LINK, Fitting.POST_CLAMP), count=9, length_m=1.0)
    example = without_lead("link", also=(links,))
    found = bank(replace(example, trip=replace(example.trip, bank=FOUR, bank_strings=2)))
    assert len([one for one in found.leads_used if one.use is LeadUse.LINK]) == 4
    assert found.rig is not None
    # a string of two has one link and one tie, each 1 m of 35 mm2: 0.554 mohm a metre by IEC 60228
    assert found.rig.link_ohm_20c * 1000 == pytest.approx(2 * 0.554)
    assert found.rig.leads.conductor_ohm_20c * 1000 == pytest.approx(12 * 0.554)
    row = bank(replace(example, trip=replace(example.trip, bank=FOUR)))
    assert row.rig is not None
    assert row.rig.link_ohm_20c == 0.0
    assert row.rig.leads.conductor_ohm_20c * 1000 == pytest.approx((3 + 12) * 0.554)


def test_rods_are_counted_wherever_the_current_is_known_and_the_thinnest_lead_of_all_warms() -> None:
    use, example = RodUse(charge_ah=Span(1.64, 2.05, 2.46), count=6), with_lead("link", area_mm2=4)
    band = bank(whole()).band(None)
    assert band is not None
    counted, thin = bank(whole()).lasting(use, band), bank(example).lasting(use, band)
    assert counted is not None
    assert thin is not None
    assert set(counted.kept) == set(THREE)
    assert (counted.in_a_row, thin.in_a_row) == (None, 0)
    assert bank(without_lead("work lead")).lasting(use, band) is None


def test_volts_add_up_along_one_string_only() -> None:
    three, two = bank(whole()), bank(with_trip(bank=FOUR, bank_strings=2))
    assert three.rested_v is not None
    assert two.rested_v is not None
    assert three.rested_v == pytest.approx(3 * 12.8, abs=0.2)
    assert two.rested_v == pytest.approx(2 * 12.8, abs=0.15)
    assert three.full_v == pytest.approx(1.5 * two.full_v)


def test_a_stuck_rod_draws_more_than_any_arc_and_two_batteries_hold_only_a_short_one() -> None:
    three, two = bank(whole()), bank(with_trip(bank=THREE[:2]))
    band = three.band(None)
    assert band is not None
    assert three.stuck_a is not None
    assert three.stuck_a > band.high_a
    assert (three.short_arc, two.short_arc) == (False, True)
    assert three.longest_mm is not None
    assert two.longest_mm is not None
    assert three.longest_mm > two.longest_mm


def test_only_a_cellulosic_covering_has_an_arc_of_its_own() -> None:
    found = bank(whole())
    assert middle_a(found, Covering.CELLULOSIC) < middle_a(found)
    assert {middle_a(found, one) for one in Covering if one is not Covering.CELLULOSIC} == {middle_a(found)}


@pytest.mark.parametrize(
    ("changes", "low", "best", "high"),
    [({"coldest_c": -6, "hottest_c": 24}, -6, 9, 24), ({"coldest_c": 5, "hottest_c": 25}, 5, 15, 25)],
)
def test_the_batteries_are_anywhere_between_coldest_and_hottest_most_likely_halfway(
    changes: dict[str, float], low: float, best: float, high: float
) -> None:
    found = temperatures(with_trip(**changes).trip)
    assert (found.low, found.best, found.high) == (low, best, high)


@pytest.mark.parametrize("changes", [{"coldest_c": None}, {"hottest_c": None}])
def test_where_either_end_was_not_said_the_usual_temperatures_stand_for_both(changes: dict[str, None]) -> None:
    usual = temperatures(with_trip(coldest_c=None, hottest_c=None).trip)
    assert temperatures(with_trip(**changes).trip) == usual
    assert usual.low < usual.best < usual.high


def test_a_battery_low_in_charge_lowers_the_current() -> None:
    assert middle_a(bank(with_reading("north-second", volts_v=12.2))) < middle_a(bank(whole()))


def test_a_broken_starting_battery_starts_nothing() -> None:
    for condition, starts in ((Condition.SOUND, True), (Condition.CRACKED, False)):
        example = with_battery("south-main", condition=condition)
        batteries = look_out(example.kit, example.trip, on=example.on).batteries
        assert ("south-main" in starting(batteries)) is starts
        assert "north-main" in starting(batteries)
        assert all(batteries[name].battery.place is BatteryPlace.START for name in starting(batteries))


def test_only_a_bank_that_takes_every_start_keeps_the_more_and_only_its_own_batteries() -> None:
    example = whole()
    batteries = look_out(example.kit, example.trip, on=example.on).batteries
    assert with_starters_kept(example.kit, example.trip, batteries) == batteries
    every: Trip = replace(example.trip, bank=("north-main", "south-main"))
    kept = with_starters_kept(example.kit, every, batteries)
    raised = {name for name in kept if kept[name] != batteries[name]}
    assert raised == {"north-main", "south-main"}
    assert kept["north-main"].floor.always_ratio == example.kit.limits.every_starter_ratio


def test_without_a_day_no_practice_weld_narrows_the_band() -> None:
    example = with_kit(beads=(bead("first"),))
    batteries = look_out(example.kit, example.trip, on=example.on).batteries
    bare = bank_outlook(example.kit, example.trip, batteries)
    taught = bank_outlook(example.kit, example.trip, batteries, on=example.on)
    assert bank_outlook(example.kit, example.trip, batteries, on=date(2027, 3, 3)).bead is None
    assert bare.bead is None
    assert bare.band(None) == taught.band(None, taught=False)
    assert bare.band(None) != taught.band(None)


def test_one_string_has_its_links_in_the_row_and_two_have_them_and_a_tie_inside_each() -> None:
    one, two = bank(whole()).rig, bank(with_trip(bank=FOUR, bank_strings=2)).rig
    assert one is not None
    assert two is not None
    links = packed_links(whole().kit)
    assert one.link_ohm_20c == 0.0
    assert one.leads == in_row((*links[:2], *arc_leads(whole().kit)))
    assert two.link_ohm_20c == pytest.approx(2 * 3.0 * ohm_per_m(area_mm2=35))
    assert two.leads == in_row(arc_leads(whole().kit))
    assert [[b.name for b in group] for group in two.groups] == [list(FOUR[:2]), list(FOUR[2:])]


def test_what_is_shown_of_a_bank_is_its_network_s_and_the_arc_it_holds_is_rounded_down() -> None:
    two = bank(with_trip(bank=THREE[:2]))
    assert two.rig is not None
    assert two.longest_mm == longest_held(two.rig.network())
    assert two.holds_mm is not None
    assert two.longest_mm is not None
    assert 0.0 <= two.longest_mm - two.holds_mm < 0.1
    assert round(two.holds_mm * 10, 6).is_integer()
    assert two.stuck_a == stuck_rod(two.rig.network()).current_a
    assert two.rested_v == pytest.approx(sum(b.volts(temp_c=15.0) for b in two.rig.groups[0]))
    assert two.full_v == pytest.approx(2 * 12.8)
    unknown = bank(with_lead("work lead", length_m=None))
    assert (unknown.rig, unknown.longest_mm, unknown.holds_mm, unknown.stuck_a, unknown.rested_v) == (None,) * 5
    assert (unknown.short_arc, unknown.external_ohm, unknown.band(None)) == (False, None, None)
