"""A battery over time, in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, Chemistry
from kitlist.kit import Battery, Reading
from kitlist.outlook.history import BatteryHistory, Fall, battery_history
from kitlist.physics.battery.charge import state_of_charge
from kitlist.physics.battery.standing import monthly_loss

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


def fall_of(*readings: Reading, battery: Battery = LOOSE) -> Fall:
    found = battery_history(battery, sorted(readings, key=lambda r: r.taken_at, reverse=True)).fall
    assert found is not None
    return found


def test_a_fall_is_counted_a_week_by_the_table_against_what_carrying_forward_leaves() -> None:
    found = fall_of(read(0, 12.80), read(14, 12.65))
    soc = [
        state_of_charge(chemistry=Chemistry.AGM, rested_v=v, rested_h=24, temp_c=25).soc_ratio for v in (12.8, 12.65)
    ]
    assert soc[0] is not None
    assert soc[1] is not None
    assert found.fall_a_week_ratio == pytest.approx((soc[0].best - soc[1].best) / 2)
    lost = [
        soc[0].best * (1 - monthly_loss(chemistry=Chemistry.AGM, temp_c=25.0).at(q)) ** (14 / 30) for q in (0.0, 1.0)
    ]
    assert found.should_a_week_ratio is not None
    should = found.should_a_week_ratio
    assert (should.low, should.high) == pytest.approx([(soc[0].best - left) / 2 for left in lost], rel=0.05)
    assert found.told


def test_a_connected_battery_should_lose_its_vehicle_s_drain_too_and_unknown_temperatures_are_those_at_home() -> None:
    two = (read(0, 12.80), read(14, 12.65))
    home = Battery(name="spare", vehicle="North", chemistry=Chemistry.AGM, c20_ah=80)
    loose = fall_of(*two).should_a_week_ratio
    joined = fall_of(*two, battery=home).should_a_week_ratio
    said = fall_of(*two, battery=replace(home, stays_connected=False)).should_a_week_ratio
    alone = fall_of(*two, battery=replace(LOOSE, stays_connected=None)).should_a_week_ratio
    assert loose is not None
    assert joined is not None
    assert joined.best == pytest.approx(loose.best + 0.030 * 24 * 7 / 80, rel=0.02)
    assert (said, alone) == (loose, loose)
    warm, unsaid = (fall_of(*(replace(r, battery_temp_c=t) for r in two)).should_a_week_ratio for t in (20.0, None))
    assert warm is not None
    assert unsaid is not None
    assert unsaid.best == pytest.approx(warm.best, rel=0.05)
    assert fall_of(*two, battery=replace(home, c20_ah=None)).should_a_week_ratio is None


def test_a_fall_is_told_from_three_days_on_and_from_three_hundredths() -> None:
    assert history(read(0, 12.80), read(2.9, 12.60)).fall is None
    assert history(read(0, 12.80), read(3, 12.60)).fall is not None
    assert fall_of(read(0, 12.80), read(14, 12.79)).told is False
    rising = fall_of(read(0, 12.800), read(14, 12.802))
    assert (rising.fall_a_week_ratio, rising.told) == (0.0, False)


def test_readings_on_load_or_that_show_no_charge_are_no_rested_volts() -> None:
    found = history(read(0, 12.8), read(1, 11.5, load_a=100), replace(read(5, 12.7), rested_h=0.5), read(7, 12.6))
    assert [volts for _, volts in found.volts] == [12.8, 12.6]
    assert found.words[0] == "Rested volts: 12.80 on 2027-03-01, 12.60 on 2027-03-08."
    many = history(*(read(day, 12.8 - day / 100) for day in range(7)))
    assert many.words[0].count(" on ") == 5
    assert many.trend_words == many.words[1:]
    bare = BatteryHistory(volts=many.volts[:1], fall=many.fall, resistance_mohm=())
    assert bare.trend_words == bare.words != ()


@pytest.mark.parametrize(
    ("loaded_v", "said"),
    [
        (11.72, "Resistance steady: 6.0 mΩ on 2027-03-01, 6.8 on 2027-04-30."),
        (11.70, "Resistance up 17 %: 6.0 mΩ on 2027-03-01, 7.0 on 2027-04-30."),
        (11.95, "Resistance down 25 %: 6.0 mΩ on 2027-03-01, 4.5 on 2027-04-30."),
    ],
)
def test_a_resistance_is_steady_within_three_twentieths_and_else_up_or_down(loaded_v: float, said: str) -> None:
    found = history(read(0, 12.8), read(0.1, 11.8, load_a=100), read(60, 12.8), read(60.1, loaded_v, load_a=100))
    assert found.words[-1] == said
    one = history(read(0, 12.8), read(0.1, 11.8, load_a=100))
    assert not any("Resistance" in words for words in one.words)


def test_a_reading_on_load_goes_with_the_rested_one_nearest_to_it_within_six_hours_on_either_side() -> None:
    for at, seen in ((0.25, 1), (0.26, 0), (-0.25, 1)):
        found = history(read(0, 12.8), read(at, 11.8, load_a=100))
        assert len(found.resistance_mohm) == seen
    near = history(read(0, 12.8), read(0.2, 12.6), read(0.21, 11.6, load_a=100))
    assert near.resistance_mohm[0][1] == pytest.approx(6.0)
    charging = replace(read(0.2, 14.2), charging=True, rested_h=None)
    assert history(read(0, 12.8), charging, read(0.21, 11.8, load_a=100)).resistance_mohm[0][1] == pytest.approx(6.0)


def test_a_weld_on_the_day_of_either_reading_parts_them_and_one_before_or_after_does_not() -> None:
    readings = (read(21, 12.40), read(0, 12.86))
    for day, parted in ((1, True), (22, True), (23, False)):
        found = battery_history(LOOSE, readings, welded_on=(date(2027, 3, day),)).fall
        assert (found is None) is parted
    assert battery_history(LOOSE, readings, welded_on=(date(2027, 2, 28),)).fall is not None


def test_the_words_of_a_fall_are_twice_from_seven_quarters_and_unknown_where_its_kind_is() -> None:
    assert "more than what" in words(0.43, Span(0.1, 0.25, 0.3))
    assert "twice what" in words(0.4375, Span(0.1, 0.25, 0.3))
    assert "twice what" in words(0.62, Span(0.1, 0.25, 0.3))
    assert "2 times what" in words(0.625, Span(0.1, 0.25, 0.3))
    assert "as its kind should" in words(0.3, Span(0.1, 0.25, 0.3))
    assert "as its kind should" in words(0.1, Span(0.1, 0.25, 0.3))
    assert words(0.02, None).endswith(
        "Losing 2 % a week, 2027-03-01 to 2027-03-15; what its kind should lose is not known."
    )
    assert "1.9 %" in words(0.019, None)
