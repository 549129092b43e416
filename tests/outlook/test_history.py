"""A battery over time, in words."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, Chemistry
from kitlist.kit import Battery, Reading
from kitlist.outlook.history import BatteryHistory, Fall, battery_history

START = datetime(2027, 3, 1, 8)  # noqa: DTZ001 - readings are kept in local time
LOOSE = Battery(name="spare", place=BatteryPlace.LOOSE, chemistry=Chemistry.AGM, c20_ah=80, stays_connected=False)


def read(day: float, volts_v: float, *, load_a: float | None = None) -> Reading:
    rested_h = None if load_a else 24
    at = START + timedelta(days=day)
    return Reading(battery="spare", volts_v=volts_v, taken_at=at, rested_h=rested_h, battery_temp_c=25, load_a=load_a)


def history(*readings: Reading) -> BatteryHistory:
    return battery_history(LOOSE, sorted(readings, key=lambda r: r.taken_at, reverse=True))


def words(fall: float, should: Span | None, *, told: bool = True) -> str:
    found = Fall(
        since=date(2027, 3, 1), until=date(2027, 3, 15), fall_a_week_ratio=fall, should_a_week_ratio=should, told=told
    )
    return BatteryHistory(volts=(), fall=found, resistance_mohm=()).words[0]


@pytest.mark.parametrize(
    ("fall", "said"),
    [
        (0.04, "Losing 4 % a week, 2027-03-01 to 2027-03-15: twice what its kind should."),
        (0.10, "5 times what its kind should"),
        (0.031, "more than what its kind should"),
        (0.025, "as its kind should (1.0 % to 3 %)"),
        (0.009, "0.9 % a week, 2027-03-01 to 2027-03-15: no more than its kind should (1.0 % to 3 %)"),
    ],
)
def test_a_fall_is_told_against_what_its_kind_should_lose(fall: float, said: str) -> None:
    assert said in words(fall, Span(0.01, 0.02, 0.03))


def test_a_fall_that_no_meter_tells_is_no_fall() -> None:
    assert words(0.0, None, told=False) == "Holding its charge from 2027-03-01 to 2027-03-15."


def test_the_fall_begins_at_the_newest_charge() -> None:
    fall = history(read(0, 12.40), read(10, 12.90), read(24, 12.60)).fall
    assert fall is not None
    assert (fall.since, fall.until) == (date(2027, 3, 11), date(2027, 3, 25))


def test_a_sound_battery_on_the_shelf_holds_and_a_bad_one_is_told_from_it() -> None:
    assert "Holding its charge" in history(read(0, 12.86), read(30, 12.85)).words[1]
    assert "times what its kind should" in history(read(0, 12.86), read(21, 12.40)).words[1]


def test_welding_between_two_readings_is_no_fall() -> None:
    readings = (read(21, 12.40), read(0, 12.86))
    assert battery_history(LOOSE, readings, welded_on=(date(2027, 3, 9),)).fall is None
    assert battery_history(LOOSE, readings, welded_on=(date(2027, 4, 9),)).fall is not None


def test_one_reading_says_nothing() -> None:
    assert history(read(0, 12.8)).words == ()
    assert history(read(0, 12.8), read(0.5, 12.7)).fall is None


def test_resistance_is_the_fall_of_volts_beyond_the_first_four_tenths_over_the_amps() -> None:
    # by hand: (12.80 - 0.40 - 11.80) V / 100 A = 6.0 mΩ, later (12.80 - 0.40 - 11.60) / 100 = 8.0 mΩ, a third more
    found = history(read(0, 12.8), read(0.1, 11.8, load_a=100), read(60, 12.8), read(60.1, 11.6, load_a=100))
    assert [round(mohm, 6) for _, mohm in found.resistance_mohm] == [6.0, 8.0]
    assert "Resistance up 33 %: 6.0 mΩ on 2027-03-01, 8.0 on 2027-04-30." in found.words


def test_a_reading_on_load_without_a_rested_one_of_that_day_tells_no_resistance() -> None:
    assert history(read(0, 12.8), read(5, 11.8, load_a=100)).resistance_mohm == ()


def test_nonsense_on_load_is_passed_over() -> None:
    assert history(read(0, 12.8), read(0.1, 12.9, load_a=100)).resistance_mohm == ()
