"""One battery from its readings: which of them counts, what is left at departure, its floor, and why it is unfit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, Chemistry, Condition, StartBatteries
from kitlist.kit import Battery, Reading, Trip, Vehicle
from kitlist.kit.limits import standard
from kitlist.outlook.battery import BatteryOutlook, battery_outlook, meter_of
from kitlist.outlook.refusal import Refusal, Why, not_now, unfit
from kitlist.physics import figures
from kitlist.physics.battery.charge import Way
from kitlist.physics.battery.cranking import charge_to_crank
from kitlist.physics.battery.resistance import Basis, LoadedReading, source_resistance
from kitlist.physics.battery.standing import NO_LOSS, Standing, carry_forward, standing_loss
from kitlist.rules.example import battery, reading, whole

NORTH = Vehicle(name="North", crank_a=250)
AT = datetime(2027, 3, 3, 8)  # noqa: DTZ001 - readings are kept in local time
ON = whole().on


def taken(hours: float = 0.0, **changes: Any) -> Reading:
    """A good reading, so many hours before the last one."""
    return reading("north-main", taken_at=AT - timedelta(hours=hours), **changes)


def seen(
    *readings: Reading, own: Battery | None = None, vehicle: Vehicle | None = NORTH, trip: Trip | None = None
) -> BatteryOutlook:
    """Readings newest first, as the kit has them."""
    return battery_outlook(
        own or battery("north-main", "North"),
        readings,
        trip or whole().trip,
        vehicle=vehicle,
        on=ON,
        limits=standard().limits,
    )


def counts(*readings: Reading) -> Reading | None:
    return seen(*readings).reading


def test_the_newest_reading_that_shows_a_charge_counts_else_the_newest_of_all() -> None:
    good, later = taken(30, volts_v=12.7), taken()
    assert counts(later, good) is later
    for none in ({"charging": True, "rested_h": None}, {"rested_h": 1.0}, {"note": "engine running"}):
        assert counts(replace(later, **none), good) is good
    assert counts(taken(rested_h=0.5), taken(5, rested_h=1)) == taken(rested_h=0.5)
    assert counts() is None
    tomorrow = taken(-48)
    assert counts(tomorrow, good) is good
    assert counts(taken(-30), good).taken_at.date() <= ON  # type: ignore[union-attr]
    assert counts(replace(later, load_a=100.0), good) is good


@pytest.mark.parametrize(
    ("bled_v", "rested_v", "hours", "earlier"),
    [
        (12.70, 12.60, 20.0, True),  # what was only bled shows no less: the rested one is surer
        (12.50, 12.60, 20.0, False),
        (12.70, 12.60, 25.0, False),  # too long before
    ],
)
def test_a_bled_reading_gives_way_to_a_rested_one_of_the_day_before_unless_it_shows_less(
    bled_v: float, rested_v: float, hours: float, earlier: bool
) -> None:
    bled, rested = taken(volts_v=bled_v, quick_load=True, rested_h=None), taken(hours, volts_v=rested_v)
    assert counts(bled, rested) is (rested if earlier else bled)
    assert counts(replace(bled, quick_load=False, rested_h=12), rested).volts_v == bled_v  # type: ignore[union-attr]
    other = replace(rested, quick_load=True, rested_h=None)
    assert counts(bled, other) is bled


def test_two_alike_readings_of_which_the_earlier_rested_keep_the_rested_one() -> None:
    bled, rested = taken(quick_load=True, rested_h=None, volts_v=12.55), taken(24, volts_v=12.5)
    assert counts(bled, rested) is rested


def test_the_way_of_a_reading_is_known_only_where_it_shows_a_charge() -> None:
    assert seen(taken()).way is Way.RESTED
    assert seen(taken(rested_h=3)).way is Way.SHORT
    assert seen(taken(quick_load=True, rested_h=None)).way is Way.BLED
    assert (seen(taken(rested_h=1)).way, seen().way) == (None, None)
    assert seen(taken(rested_h=1)).charge.known is False
    assert (seen().charge.reason, seen().days_before_start, seen().used_since) == ("no reading", None, "")


def test_a_meter_is_as_good_as_written_down_a_fair_one_if_not_and_never_worse_than_the_twentieth() -> None:
    assert meter_of(taken()) == figures.METER_RATIO.value == 0.005
    assert meter_of(taken(meter_accuracy_ratio=0.02)) == 0.02
    assert meter_of(taken(meter_accuracy_ratio=0.08)) == 0.05
    poor, good = (seen(taken(meter_accuracy_ratio=ratio)).charge.soc_ratio for ratio in (0.02, 0.001))
    assert poor is not None
    assert good is not None
    assert poor.low < good.low


@pytest.mark.parametrize(
    ("own", "standing"),
    [
        ({"stays_connected": None}, Standing.CONNECTED),
        ({"stays_connected": False}, Standing.DISCONNECTED),
        ({"stays_connected": None, "vehicle": None, "place": BatteryPlace.LOOSE}, Standing.DISCONNECTED),
        ({"stays_connected": True, "vehicle": None, "place": BatteryPlace.LOOSE}, Standing.CONNECTED),
    ],
)
@pytest.mark.parametrize(
    ("cold", "hot", "mean_c", "warm_c"), [(5, 25, 15, 25), (-10, None, -10, 20), (None, None, 20, 20), (30, 58, 44, 50)]
)
def test_the_charge_at_departure_is_that_of_a_battery_that_stood_so_long_so_warm_and_so_joined(
    own: dict[str, Any], standing: Standing, cold: float | None, hot: float | None, mean_c: float, warm_c: float
) -> None:
    trip = replace(whole().trip, coldest_c=cold, hottest_c=hot)
    found = seen(taken(), own=replace(battery("north-main", "North"), **own), trip=trip)
    facts = {"days": 3, "chemistry": Chemistry.AGM, "standing": standing, "capacity_ah": 80.0}
    assert found.days_before_start == 3
    assert found.charge == carry_forward(found.charge_when_read, mean_temp_c=mean_c, **facts)  # type: ignore[arg-type]
    assert found.loss == standing_loss(mean_temp_c=warm_c, **facts)  # type: ignore[arg-type]


def test_on_the_day_of_departure_and_after_it_standing_has_taken_nothing() -> None:
    for starts_on in (AT.date(), AT.date() - timedelta(days=1)):
        found = seen(taken(), trip=replace(whole().trip, starts_on=starts_on))
        assert (found.days_before_start, found.loss, found.charge) == (0, NO_LOSS, found.charge_when_read)


def test_without_a_capacity_the_drain_of_a_connected_battery_leaves_its_charge_unknown() -> None:
    found = seen(taken(), own=battery("north-main", "North", c20_ah=None, stays_connected=None))
    assert (found.charge.known, found.spare_ah) == (False, None)
    assert found.charge_when_read.known


def test_the_floor_is_what_is_kept_warm_and_cold_what_its_engine_needs_or_the_last_starter_keeps() -> None:
    plain = seen(taken(), own=battery("north-second", "North"))
    assert (plain.reserve_ratio, plain.reserve_for, plain.charge_to_crank) == (plain.floor_ratio, "its floor", None)
    assert plain.charge.soc_ratio is not None
    assert plain.spare_ah == pytest.approx((plain.charge.soc_ratio.best - plain.reserve_ratio) * 80)
    cold = replace(whole().trip, coldest_c=-15)
    own = battery("north-main", "North")
    starter = seen(taken(), own=own, trip=cold, vehicle=replace(NORTH, crank_a=600))
    needs = charge_to_crank(chemistry=Chemistry.AGM, resistance=starter.resistance, temp_c=-15.0, crank_a=600.0)
    assert starter.charge_to_crank == pytest.approx(needs)
    assert starter.reserve_ratio > starter.floor_ratio
    assert starter.reserve_for == "for its engine in the cold"
    last = replace(plain, floor=replace(plain.floor, always_ratio=0.85))
    assert (last.reserve_ratio, last.reserve_for) == (0.85, "as the bank takes every starting battery")
    assert last.floor_ratio == plain.floor_ratio
    assert replace(last, floor=replace(last.floor, always_ratio=0.999)).spare_ah == 0.0
    unknown = replace(plain, coldest_c=-40.0)
    assert (unknown.floor_ratio, unknown.reserve_ratio) == (1.0, 1.0)


def test_only_a_starter_in_its_vehicle_with_a_known_cold_keeps_charge_for_its_engine() -> None:
    own, trip = battery("north-main", "North"), whole().trip
    assert seen(taken(), own=own).floor.cranking is not None
    assert seen(taken(), own=own).crank is not None
    for changed in (
        seen(taken(), own=battery("north-second", "North")),
        seen(taken(), own=own, vehicle=None),
        seen(taken(), own=own, trip=replace(trip, coldest_c=None)),
    ):
        assert (changed.floor.cranking, changed.crank) == (None, None)
    blank = seen(taken(), own=replace(own, cranking_a=None, c20_ah=None))
    assert (blank.floor.cranking, blank.resistance, blank.rating) == (None, None, None)
    bare = seen(taken(), own=replace(own, cranking_a=None), vehicle=Vehicle(name="North"))
    assert bare.floor.cranking is None  # neither what the engine draws nor a rating


def test_an_engine_draws_what_was_measured_twins_half_of_it_and_else_half_of_the_rating() -> None:
    def drawn(vehicle: Vehicle) -> float:
        cranking = seen(taken(), vehicle=vehicle).floor.cranking
        assert cranking is not None
        return cranking.current_a

    assert drawn(NORTH) == 250
    assert drawn(replace(NORTH, start_batteries=StartBatteries.TWIN)) == 125
    assert drawn(Vehicle(name="North")) == 400  # of 800 A


def test_where_nobody_said_how_cold_it_gets_it_is_taken_as_ten_below() -> None:
    trip = whole().trip
    assert seen(taken(), trip=replace(trip, coldest_c=None)).coldest_c == -10.0
    assert seen(taken(), trip=replace(trip, coldest_c=0)).coldest_c == 0


LOADED = {"load_a": 100.0, "volts_v": 11.5, "rested_h": None}


def test_a_reading_on_load_with_a_rested_one_of_the_day_before_it_measures_the_resistance() -> None:
    rest, under = taken(2, volts_v=12.7, battery_temp_c=10), taken(battery_temp_c=12, **LOADED)
    for own_c, rest_c, taken_c in ((12, 10, 12), (None, 10, 10), (None, None, 25)):
        found = seen(replace(under, battery_temp_c=own_c), replace(rest, battery_temp_c=rest_c))
        soc = found.charge_when_read.soc_ratio
        assert soc is not None
        read = LoadedReading(rest_v=12.7, load_v=11.5, current_a=100.0, soc_ratio=soc.best, temp_c=taken_c)
        assert found.resistance == source_resistance(loaded=read)
        assert found.resistance.basis is Basis.LOADED


@pytest.mark.parametrize(
    ("rest", "under", "basis"),
    [
        ({}, {}, Basis.LOADED),
        ({"hours": 24.0}, {}, Basis.LOADED),
        ({"hours": 25.0}, {}, Basis.CRANKING),
        ({"hours": -1.0}, {}, Basis.CRANKING),  # read after it: perhaps not yet rested
        ({"charging": True, "rested_h": None}, {}, Basis.CRANKING),
        ({"rested_h": 0.5}, {}, Basis.CRANKING),
        ({}, {"volts_v": 13.0}, Basis.CRANKING),  # nonsense: volts rose on load
        ({}, {"load_a": 0.0}, Basis.CRANKING),
    ],
)
def test_a_reading_on_load_that_tells_nothing_is_passed_over_for_the_rating(
    rest: dict[str, Any], under: dict[str, Any], basis: Basis
) -> None:
    before = taken(**({"hours": 0.0, "volts_v": 12.7} | rest))
    loaded = taken(**(LOADED | under))
    found = seen(*sorted((loaded, before), key=lambda r: r.taken_at, reverse=True)).resistance
    assert found is not None
    assert found.basis is basis


def test_a_reading_on_load_of_tomorrow_counts_for_nothing_today() -> None:
    found = seen(taken(-48, **LOADED), taken(-47, volts_v=12.7)).resistance
    assert found is not None
    assert found.basis is Basis.CRANKING


def test_the_resistance_is_the_testers_where_there_is_one_and_of_a_blank_label_not_known() -> None:
    own = battery("north-main", "North", tester_mohm=6.0)
    tested = seen(taken(), own=own).resistance
    assert tested is not None
    assert tested.basis is Basis.TESTER
    size = seen(taken(), own=battery("north-main", "North", cranking_a=None)).resistance
    assert size is not None
    assert size.basis is Basis.CAPACITY


def refused(*readings: Reading, **own: Any) -> Why | None:
    found = seen(*readings, own=battery("north-main", "North", **own)).refusal
    return None if found is None else found.why


def test_a_low_reading_counts_until_a_load_test_after_it_and_only_where_the_battery_had_stood() -> None:
    low, good = taken(48, volts_v=10.4), taken(volts_v=12.6)
    tested = taken(24, **LOADED)
    assert refused(good) is None
    assert refused(replace(good, volts_v=10.4)) is Why.SHORTED
    assert refused(replace(good, volts_v=10.7)) is None
    assert refused(good, low) is Why.LOAD_TEST
    assert refused(good, replace(low, volts_v=10.7)) is None
    assert refused(good, tested, low) is None
    assert refused(good, replace(tested, taken_at=low.taken_at), low) is Why.LOAD_TEST  # not after it
    assert refused(good, low, replace(tested, taken_at=AT - timedelta(hours=72))) is Why.LOAD_TEST
    assert refused(good, replace(low, rested_h=0.1)) is None  # the volts of a crank
    assert refused(good, replace(low, charging=True, rested_h=None)) is None
    assert refused(replace(good, volts_v=10.4, charging=True, rested_h=None)) is None


def test_a_measured_resistance_over_six_volts_by_its_rating_is_worn_out_and_a_predicted_one_is_not() -> None:
    assert refused(taken(), tester_mohm=7.6) is Why.WORN  # at the most 6.0/800 = 7.5
    assert refused(taken(), tester_mohm=7.4) is None
    assert refused(taken(), tester_mohm=9.0, cranking_a=None) is None
    assert refused(taken(), c20_ah=20, cranking_a=None) is None
    found = seen(taken(), own=battery("north-main", "North", tester_mohm=9.0)).refusal
    assert found is not None
    assert (found.ohm, found.limit_ohm) == pytest.approx((0.009, 0.0075))


SOUND: dict[str, Any] = {"chemistry": Chemistry.AGM, "built_in_cutoff": False, "condition": Condition.SOUND}


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({"chemistry": Chemistry.LITHIUM, "built_in_cutoff": True}, Why.LITHIUM),
        ({"built_in_cutoff": True, "condition": Condition.CRACKED}, Why.CUT_OFF),
        ({"built_in_cutoff": None}, None),
        ({"condition": Condition.CRACKED, "words": "lithium"}, Why.DAMAGED),
        ({"words": "my LiFePO4 box", "rested_v": 9.0}, Why.LABEL),
        ({"words": "case is cracked", "rested_v": 9.0}, Why.NOTED),
        ({"rested_v": 10.69, "lowest_v": 10.0}, Why.SHORTED),
        ({"rested_v": 10.7, "lowest_v": 10.7}, None),
        ({"rested_v": 12.7, "lowest_v": 10.69}, Why.LOAD_TEST),
        ({"measured_ohm": 0.0076, "reject_ohm": 0.0075}, Why.WORN),
        ({"measured_ohm": 0.0075, "reject_ohm": 0.0075}, None),
        ({"measured_ohm": 0.0076}, None),
    ],
)
def test_the_gravest_reason_comes_first(facts: dict[str, Any], why: Why | None) -> None:
    found = unfit(**SOUND | facts)
    assert (None if found is None else found.why) is why


KNOWN: dict[str, Any] = {
    "chemistry": Chemistry.AGM,
    "capacity_ah": 70.0,
    "resistance_known": True,
    "soc_ratio": Span(0.6, 0.7, 0.8),
    "reserve_ratio": 0.5,
}


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({}, None),
        ({"chemistry": Chemistry.UNKNOWN, "capacity_ah": None}, Why.KIND_NOT_KNOWN),
        ({"capacity_ah": None, "resistance_known": False}, Why.CAPACITY_NOT_KNOWN),
        ({"resistance_known": False, "reserve_ratio": 2.0}, Why.RESISTANCE_NOT_KNOWN),
        ({"reserve_ratio": 2.0, "soc_ratio": None}, Why.NEVER_CRANKS),
        ({"reserve_ratio": 1.0}, Why.UNDER_RESERVE),
        ({"soc_ratio": None}, Why.CHARGE_NOT_KNOWN),
        ({"may_freeze": True, "reserve_ratio": 0.9}, Why.MAY_FREEZE),
        ({"reserve_ratio": 0.7}, Why.UNDER_RESERVE),
        ({"reserve_ratio": 0.69}, None),
    ],
)
def test_what_is_not_known_is_never_a_pass_and_a_charge_at_the_reserve_is_none_to_give(
    facts: dict[str, Any], why: Why | None
) -> None:
    found = not_now(**KNOWN | facts)
    assert (None if found is None else found.why) is why


def test_each_reason_says_its_numbers() -> None:
    said: Sequence[tuple[Refusal, str]] = (
        (Refusal(why=Why.WORN, ohm=0.0093, limit_ohm=0.0075), "worn out: 9.3 mΩ, 7.5 mΩ at the most"),
        (Refusal(why=Why.LOAD_TEST, volts_v=10.4), "10.40 V at rest lately, under 10.7 V"),
        (Refusal(why=Why.UNDER_RESERVE, charge_ratio=0.48, kept_ratio=0.5), "charge 48 % is at or under the 50 %"),
        (Refusal(why=Why.CHARGE_NOT_KNOWN, kept_ratio=0.6), "and 60 % must stay in it"),
    )
    for refusal, words in said:
        assert words in str(refusal)
    assert [why for why in Why if why.for_good] == list(Why)[:8]
    assert [why for why in Why if why.by_charge] == list(Why)[-3:]


def test_a_battery_that_would_freeze_as_it_is_is_in_no_bank() -> None:
    flat = seen(taken(volts_v=12.3, battery_temp_c=25), own=battery("north-second", "North"))
    assert flat.charge.soc_ratio is not None
    assert flat.not_now is None or flat.not_now.why is Why.UNDER_RESERVE
    frost = replace(flat, coldest_c=-28.0)
    assert frost.not_now is not None
    assert frost.not_now.why is Why.MAY_FREEZE
    unfit_too = replace(frost, refusal=Refusal(why=Why.SHORTED, volts_v=10.0))
    assert unfit_too.not_now is unfit_too.refusal
