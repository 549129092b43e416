"""Which banks may not be linked: each bar with the volts and the limit that it stands on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import Chemistry
from kitlist.kit.limits import standard
from kitlist.outlook import look_out
from kitlist.outlook.linkable import BankBar, Bar, barred, full_v, most_v
from kitlist.outlook.refusal import Refusal, Why
from kitlist.rules.example import Example, with_battery, with_trip

TWO, THREE = ("north-main", "north-second"), ("north-main", "north-second", "south-second")
FOUR = (*THREE, "south-main")


def bars(example: Example) -> dict[Bar, tuple[float | None, float | None]]:
    bank = look_out(example.kit, example.trip, on=example.on).bank
    return {} if bank is None else {bar.bar: (bar.volts_v, bar.limit_v) for bar in bank.bars}


@pytest.mark.parametrize(("wet", "limit_v"), [(False, None), (True, 35.0), (None, 35.0)])
def test_only_where_somebody_said_that_it_stays_dry_is_there_no_limit(wet: bool | None, limit_v: float | None) -> None:
    assert most_v(with_trip(wet=wet).trip, standard().limits) == limit_v


def test_three_are_barred_in_the_wet_and_where_nobody_said_and_two_are_not() -> None:
    assert bars(with_trip(bank=THREE, wet=True)).keys() == {Bar.WET}
    assert bars(with_trip(bank=THREE, wet=None)).keys() == {Bar.WET_NOT_SAID}
    assert bars(with_trip(bank=THREE, wet=False)) == {}
    assert bars(with_trip(bank=TWO, wet=True)) == {}
    volts_v, limit_v = bars(with_trip(bank=THREE, wet=True))[Bar.WET]
    assert limit_v == 35.0
    assert volts_v is not None
    assert volts_v > 38.0


def test_one_battery_and_four_without_a_strip_are_barred() -> None:
    assert Bar.ONE_BATTERY in bars(with_trip(bank=TWO[:1]))
    assert Bar.BALLAST in bars(with_trip(bank=FOUR))
    assert Bar.BALLAST not in bars(with_trip(bank=FOUR, bank_strings=2))


def test_a_refused_battery_bars_its_bank_and_parallel_strings_of_two_kinds_are_barred() -> None:
    assert Bar.BATTERY in bars(with_battery("north-main", chemistry=Chemistry.LITHIUM))
    mixed = with_battery("south-main", chemistry=Chemistry.FLOODED)
    kit = mixed.kit
    trip = with_trip(bank=FOUR, bank_strings=2).trip
    bank = look_out(kit, trip, on=mixed.on).bank
    assert bank is not None
    assert Bar.MIXED in {bar.bar for bar in bank.bars}


def test_a_battery_of_unknown_kind_is_as_full_as_the_fullest() -> None:
    known = [full_v(kind) for kind in Chemistry if kind not in (Chemistry.UNKNOWN, Chemistry.LITHIUM)]
    assert full_v(Chemistry.UNKNOWN) == max(known)


@pytest.mark.parametrize(
    ("bar", "for_good", "for_today"),
    [
        (BankBar(bar=Bar.APART, volts_v=0.5, limit_v=0.2), False, True),  # charging levels them
        (BankBar(bar=Bar.MIXED), True, True),
        (BankBar(bar=Bar.BATTERY, battery="low", refusal=Refusal(why=Why.UNDER_RESERVE)), False, False),
        (BankBar(bar=Bar.BATTERY, battery="worn", refusal=Refusal(why=Why.WORN)), True, True),
    ],
)
def test_what_charging_lifts_bars_no_card_and_strings_apart_bar_the_steps_of_today(
    bar: BankBar, for_good: bool, for_today: bool
) -> None:
    assert (bar.for_good, bar.for_today) == (for_good, for_today)


def test_strings_are_apart_from_just_past_two_tenths_and_where_one_is_not_read_nothing_is_said() -> None:
    def apart(low_v: float, **unread: object) -> BankBar | None:
        example = with_trip(bank=FOUR, bank_strings=2)
        readings = tuple(
            replace(r, volts_v=low_v, battery_temp_c=25) if r.battery == "south-main" else replace(r, battery_temp_c=25)
            for r in example.kit.readings
            if r.battery not in unread
        )
        kit = replace(example.kit, readings=readings)
        trip = replace(example.trip, starts_on=example.kit.readings[0].taken_at.date())
        bank = look_out(kit, trip, on=example.on).bank
        assert bank is not None
        return next((bar for bar in bank.bars if bar.bar is Bar.APART), None)

    assert apart(12.62) is None
    bar = apart(12.61)
    assert bar is not None
    assert (bar.volts_v, bar.limit_v) == (pytest.approx(0.21), 0.2)
    assert str(bar) == "parallel strings too far apart in volts: 0.21 V, 0.2 V at the most"
    assert apart(12.2, **{"north-main": None}) is None


def test_one_bar_says_its_battery_and_reason_or_its_volts_and_limit_or_itself_alone() -> None:
    assert str(BankBar(bar=Bar.BATTERY, battery="low", refusal=Refusal(why=Why.CUT_OFF))) == (
        "low: it has a built-in cut-off"
    )
    assert str(BankBar(bar=Bar.WET, volts_v=38.4)) == str(BankBar(bar=Bar.WET, limit_v=35)) == str(Bar.WET)


def test_the_most_volts_of_any_string_count_and_at_the_limit_it_may_be_linked() -> None:
    three = with_trip(bank=THREE, wet=True)
    batteries = look_out(three.kit, three.trip, on=three.on).batteries
    for limit_v, over in ((38.39, True), (38.41, False)):
        limits = replace(standard().limits, wet_limit_v=limit_v)
        assert (Bar.WET in {bar.bar for bar in barred(three.trip, batteries, limits=limits)}) is over
    assert full_v(Chemistry.LITHIUM) == 12.8
    assert full_v(Chemistry.FLOODED) < full_v(Chemistry.CALCIUM)
