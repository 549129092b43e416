"""A bank on offer: what it is ranked by, what sets it behind another, and what is said of it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.terms import Covering, Fitting, LeadUse, StartBatteries
from kitlist.kit import Vehicle
from kitlist.outlook.lasting import RodsInHand
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.advice import Effort
from kitlist.outlook.options.invented import demand
from kitlist.outlook.options.offer import Offer, why_behind, with_bank
from kitlist.outlook.options.plan import BankPlan, packed_rod, plan_for
from kitlist.outlook.options.supposed import supposed
from kitlist.outlook.options.weighing import Key
from kitlist.outlook.refusal import Why
from kitlist.outlook.starters import Lent, Parted
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.endurance import Ending
from kitlist.physics.bank.rig import Leads
from kitlist.physics.bank.rods_by_volts import SureLikely
from kitlist.physics.bank.verdict import Fit
from kitlist.rules.example import Example, rod, whole, with_battery, with_kit, with_reading, with_trip
from kitlist.welding.rods.consumption import burn
from kitlist.welding.rods.currents import current_range


def planned(example: Example, **more: Any) -> BankPlan:
    return plan_for(example.kit, example.trip, on=example.on, **({"changes": False} | more))


@cache
def offers() -> tuple[Offer, ...]:
    return planned(with_kit(rods=(rod("thick"), rod("thin", diameter_mm=2.5)))).offers


@cache
def first() -> Offer:
    """A bank of three that holds its arc, whatever else is changed in it."""
    return next(offer for offer in offers() if len(offer.trip.bank) == 3)


def changed(**key: Any) -> Offer:
    option = first().option
    return replace(first(), option=replace(option, key=option.key._replace(**key)))


def giving(sure: int) -> Offer:
    count = RodsInHand(count=SureLikely(sure, sure + 2), ended_by=Ending.RESERVE, on="")
    return replace(first(), best=replace(first().best, rods=count))


def test_the_first_thing_that_sets_a_bank_behind_is_said() -> None:
    lent = Lent(vehicle=Vehicle(name="West"), taken=("half",), stays=(), parted=Parted.HALF_OF_24_V)
    last, parted = replace(first(), takes_every_start=True), replace(first(), parted=(lent,))
    assert why_behind(replace(parted, takes_every_start=True), parted).startswith("takes every starting battery")
    assert why_behind(parted, first()) == "takes half of West: one half of 24 V alone"
    hot = replace(first(), best=replace(first().best, fit=Fit.HOT))
    cold = replace(first(), best=replace(first().best, fit=Fit.COLD))
    assert why_behind(cold, hot) == f"{Fit.COLD} with {first().best.words}, not {Fit.HOT}"
    assert why_behind(replace(hot, takes_every_start=True), replace(hot, takes_every_start=True)).startswith("as good")
    unlike = replace(giving(5), option=replace(first().option, warnings=("of two ages",)))
    assert why_behind(unlike, giving(5)) == "less well matched: of two ages"
    assert why_behind(unlike, giving(4)) == "less well matched: of two ages"
    assert why_behind(unlike, giving(6)) == "5 rods sure, not 6"
    assert why_behind(giving(1), giving(6)) == "1 rod sure, not 6"
    assert why_behind(unlike, unlike) == "as good: either will do"
    assert why_behind(changed(links=3, mass_kg=9.0), changed(links=2)) == "needs 3 links, not 2"
    assert why_behind(changed(mass_kg=60.5), changed(mass_kg=54.0)) == "60.5 kg to lift, not 54"
    assert why_behind(last, last) == "as good: either will do"


def test_a_short_arc_is_said_only_against_a_bank_that_holds_a_long_one() -> None:
    short = next(offer for offer in offers() if offer.short_mm is not None)
    assert first().short_mm is None
    assert short.rank == Fit.HOT.rank + 0.5
    warm = replace(first(), best=replace(first().best, fit=Fit.WARM))
    assert why_behind(short, warm) == (
        f"short arc only, up to {short.short_mm:g} mm: it strikes hard and goes out when the hand lifts"
    )
    assert not why_behind(short, replace(short, best=replace(short.best, fit=Fit.COLD))).startswith("short arc")
    assert why_behind(warm, short).startswith(f"{Fit.WARM} with")
    other = replace(short, best=replace(short.best, fit=Fit.TOO_HOT))
    assert why_behind(other, short).startswith(f"{Fit.TOO_HOT} with")


def test_offers_are_ranked_by_starting_fit_worth_match_links_and_weight() -> None:
    found = replace(
        first(),
        takes_every_start=True,
        best=replace(giving(7).best, fit=Fit.IN_RANGE, rod=rod("few", count=5)),
        option=replace(first().option, key=Key(1, 3.0, -9.0, 2, 4, 55.5)),
    )
    assert found.key == (True, 0, 0.0, -5 * 0.8, 2, 4, 55.5)  # five packed, a fifth off for two mismatches
    keys = [offer.key for offer in offers()]
    assert keys == sorted(keys)


def test_what_is_shown_of_an_offer_is_what_is_expected_of_its_bank() -> None:
    one = first()
    assert one.expected.bank is not None
    assert one.rested_v == one.expected.bank.rested_v
    assert 38.0 < one.rested_v < 39.0
    assert (one.band, one.fit, one.rods, one.sure) == (one.best.band, one.best.fit, one.best.rods, one.best.rods.sure)
    assert one.shares == (1.0,)
    assert one.words == " → ".join(one.trip.bank)
    bare = replace(one, best=replace(one.best, band=None, fit=None, rods=None, lasting=None))
    assert (bare.band, bare.fit, bare.sure, bare.shares) == (Band(0.0, 0.0, 0.0, 1.0), Fit.NO_ARC, 0, ())
    gone = replace(bare, expected=replace(bare.expected, bank=None))
    assert (gone.rested_v, gone.short_mm) == (0.0, None)
    two = with_bank(whole().trip, (("a", "b"), ("c", "d")))
    assert (two.bank, two.bank_strings, with_bank(two, ()).bank_strings) == (("a", "b", "c", "d"), 2, 1)


@pytest.mark.parametrize(
    ("wet", "strip", "looked"), [(False, 0.0, False), (True, 100.0, False), (None, 100.0, False), (False, 100.0, True)]
)
def test_four_in_series_are_looked_at_only_where_it_stays_dry_and_with_a_strip(
    wet: bool | None, strip: float, looked: bool
) -> None:
    example = with_trip(wet=wet)
    if looked:
        found = planned(example, four=True, ballast_mohm=strip)
        assert any(len(offer.trip.bank) == 4 and offer.trip.bank_strings == 1 for offer in found.offers)
    else:
        with pytest.raises(BadData, match="about 50 V"):
            planned(example, four=True, ballast_mohm=strip)
    assert all(len(string) < 4 for offer in planned(whole()).offers for string in offer.strings)


def test_banks_out_for_their_volts_are_out_for_the_wet_or_because_nobody_said_and_others_for_their_own_reason() -> None:
    found = {}
    for wet in (True, None):
        example = with_trip(wet=wet)
        plan = planned(example)
        found[wet] = {missed.why: missed.count for missed in plan.missed}
    assert found[None] == {(Lost.WET_NOT_SAID if why is Lost.WET else why): count for why, count in found[True].items()}
    assert set(found[True]) >= {Lost.WET, Lost.LINKS}
    assert set(found[None]) >= {Lost.WET_NOT_SAID, Lost.LINKS}


def test_a_look_that_cannot_begin_says_what_is_missing_and_offers_nothing() -> None:
    no_rods = planned(with_kit(rods=()))
    assert (no_rods.begun, no_rods.offers) == (False, ())
    assert no_rods.not_known == ("rods: none is packed",)
    unknown = planned(with_kit(rods=(rod("odd", designation="X99"),)))
    assert unknown.not_known == ("a packed rod that is fit to weld with, and whose range is known",)
    away = planned(with_trip(vehicles=()))
    assert "batteries: none travels that may be in a bank" in away.not_known
    bare = planned(with_kit(leads=tuple(replace(x, length_m=None) for x in whole().kit.leads)))
    assert "length of link" in bare.not_known


def test_the_trip_s_own_bank_is_looked_at_though_its_current_is_too_hot_for_the_quick_search() -> None:
    thin = with_kit(rods=(rod("thin", diameter_mm=2.0),))
    found = planned(thin)
    assert all(set(offer.trip.bank) != set(thin.trip.bank) for offer in found.offers)
    assert Lost.FIT in {missed.why for missed in found.missed}


def test_one_vehicle_s_starter_among_two_is_taken_last() -> None:
    example = whole()
    twin = tuple(replace(v, start_batteries=StartBatteries.SINGLE) for v in example.kit.vehicles)
    found = planned(replace(example, kit=replace(example.kit, vehicles=twin)))
    takes = [offer.takes_every_start for offer in found.offers]
    assert takes == sorted(takes)
    assert not takes[0]
    assert found.begun


def test_the_trip_s_bank_is_looked_at_beside_the_few_that_the_search_found_and_only_of_sizes_looked_at() -> None:
    example = with_kit(rods=(rod("thin", diameter_mm=2.5),))
    bank = ("south-main", "south-second", "north-main")
    trip = replace(example.trip, bank=bank)
    shown = plan_for(example.kit, trip, on=example.on, few=1, changes=False)
    assert len(shown.offers) == 1
    every = plan_for(example.kit, trip, on=example.on, few=12, changes=False)
    assert len({offer.strings for offer in every.offers}) == len(every.offers) > 1
    four = replace(trip, bank=(*bank, "north-second"))
    assert plan_for(example.kit, four, on=example.on, changes=False).begun
    gone = replace(trip, bank=("south-main", "sold"))
    assert plan_for(example.kit, gone, on=example.on, changes=False).begun


def test_no_bank_is_offered_twice_though_it_is_the_trip_s_own() -> None:
    for few in (1, 3, 12):
        found = planned(whole(), few=few).offers
        banks = [frozenset(map(frozenset, offer.strings)) for offer in found]
        assert len(set(banks)) == len(banks)


def test_a_bank_that_the_packed_leads_do_not_join_up_or_that_may_not_be_linked_is_counted_with_its_reason() -> None:
    links = tuple(replace(x, end_b=Fitting.LUG_M8) if x.use is LeadUse.LINK else x for x in whole().kit.leads)
    found = planned(with_kit(leads=links))
    assert found.offers == ()
    missed = {one.why: one for one in found.missed}
    assert missed[Lost.JOIN].count > 1
    assert len(missed[Lost.JOIN].nearest) >= 1
    counts = [one.count for one in found.missed]
    assert counts == sorted(counts, reverse=True)
    offered = {frozenset(map(frozenset, offer.strings)) for offer in offers()}
    plan = planned(with_kit(rods=(rod("thick"), rod("thin", diameter_mm=2.5))))
    assert not any(frozenset(map(frozenset, one.nearest)) in offered for one in plan.missed if one.nearest)


def test_a_battery_that_may_never_weld_is_refused_and_in_no_offer() -> None:
    example = with_battery("north-second", built_in_cutoff=True)
    found = planned(example)
    assert [(one.name, one.why.why) for one in found.refused] == [("north-second", Why.CUT_OFF)]
    assert all("north-second" not in offer.trip.bank for offer in found.offers)
    low = with_reading("north-second", volts_v=12.0)
    refused = planned(low).refused
    assert [(one.name, one.why.why) for one in refused] == [("north-second", Why.UNDER_RESERVE)]


def test_a_change_that_is_named_gives_what_it_promises_and_a_better_first_choice() -> None:
    one_low = with_reading("north-second", volts_v=12.3)
    low = replace(one_low, kit=replace(one_low.kit, rods=(rod("rods", diameter_mm=3.2, count=90),)))
    found = plan_for(low.kit, low.trip, on=low.on)
    assert [one.change.words for one in found.changes] == [
        "charge north-second to full, alone",
        "bring one more battery like north-main",
        "pack 2.5 mm E6013 as well",
    ]
    assert planned(low).changes == ()
    for one in found.changes:
        assert one.offer.key < found.offers[0].key
        kit = supposed(low.kit, low.trip, one.change, on=low.on)
        assert kit is not None
        again = plan_for(kit, low.trip, on=low.on, changes=False).offers[0]
        assert (again.strings, again.key) == (one.offer.strings, one.offer.key)


def test_where_no_bank_serves_all_that_are_low_are_charged_together() -> None:
    low = with_kit(readings=tuple(replace(r, volts_v=12.5) for r in whole().kit.readings))
    found = plan_for(low.kit, low.trip, on=low.on)
    assert found.offers == ()
    assert [(one.change.words, one.change.effort) for one in found.changes] == [
        ("charge north-main, north-second and south-second full, each alone", Effort.CHARGE)
    ]
    (only,) = found.changes
    assert only.change.batteries == ("north-main", "north-second", "south-second")
    assert only.offer.sure > 0


def test_a_packet_is_planned_with_its_range_its_charge_and_its_number() -> None:
    one = packed_rod("4 mm", "E6013", covering=Covering.RUTILE, diameter_mm=4.0, length_mm=350.0, count=6)
    amps = current_range("E6013", diameter_mm=4.0)
    by_hand = burn("E6013", diameter_mm=4.0, length_mm=350.0, current_a=amps.start_a).charge_ah
    assert (one.range_low_a, one.range_high_a, one.charge_ah, one.count) == (amps.low_a, amps.high_a, by_hand, 6)
    assert [one.counted(rods) for rods in (5, 6, 7)] == [5, 6, 6]
    assert replace(one, count=None).counted(7) == 7
    for count, refused in ((1, False), (0, True)):
        if refused:
            with pytest.raises(OutOfRange, match="0 rods packed"):
                replace(demand(), rods=(replace(one, count=count),))
        else:
            assert replace(demand(), rods=(replace(one, count=count),)).rods


@pytest.mark.parametrize(
    ("changes", "refused"),
    [
        ({"in_series": (2, 3, 4)}, True),
        ({"in_series": (4,), "leads": Leads(conductor_ohm_20c=0.004, ballast_ohm=0.05)}, False),
        ({"in_series": (4,), "leads": Leads(conductor_ohm_20c=0.004, ballast_ohm=0.05), "most_v": 35.0}, True),
        ({"in_series": (2, 3), "most_v": 35.0}, False),
    ],
)
def test_a_demand_for_four_has_a_strip_and_no_limit_of_volts(changes: dict[str, Any], refused: bool) -> None:
    if refused:
        with pytest.raises(BadData, match="about 50 V"):
            replace(demand(), **changes)
    else:
        assert replace(demand(), **changes).in_series == changes["in_series"]
