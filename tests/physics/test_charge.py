"""State of charge: expected values from the published tables and worked figures, not from this code."""

from __future__ import annotations

import re

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.charge import (
    Way,
    kinds_of,
    limits_of,
    no_reading,
    ocv_points,
    rested_volts,
    state_of_charge,
    temperature_offset,
    way_of,
)


def read(volts: float, chemistry: Chemistry = Chemistry.FLOODED, **circumstances):
    facts = {"rested_h": 12.0, "temp_c": 25.0, "chemistry": chemistry} | circumstances
    return state_of_charge(rested_v=volts, **facts)


@pytest.mark.parametrize(
    ("volts", "percent"), [(12.00, 16.2), (12.20, 44.4), (12.40, 69.0), (12.50, 81.3), (12.53, 85.0), (12.60, 93.7)]
)
def test_flooded_volts_give_the_charge_worked_out_by_hand(volts, percent):
    assert read(volts).soc_ratio.best == pytest.approx(percent / 100, abs=0.0006)


def test_a_calcium_battery_at_12_65_is_about_81_percent_and_not_full():
    charge = read(12.65, Chemistry.CALCIUM)
    assert charge.soc_ratio.best == pytest.approx(0.81, abs=0.005)
    assert charge.soc_ratio.low <= 0.75
    assert charge.soc_ratio.high >= 0.88


def test_agm_columns_differ_from_flooded_at_the_same_volts():
    assert read(12.6, Chemistry.AGM).soc_ratio.best == pytest.approx(0.75)
    assert read(12.6).soc_ratio.best > 0.9


@pytest.mark.parametrize(
    "chemistry", [Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.EFB, Chemistry.AGM, Chemistry.GEL]
)
@pytest.mark.parametrize("soc", [0.0, 0.1, 0.25, 0.4, 0.5, 0.9, 1.0])
def test_volts_and_charge_are_inverses_of_each_other(chemistry, soc):
    volts = rested_volts(soc_ratio=soc, chemistry=chemistry, temp_c=25.0)
    assert read(volts, chemistry).soc_ratio.best == pytest.approx(soc, abs=1e-9)


def test_the_middle_of_a_reading_rises_with_its_volts():
    middles = [read(11.8 + 0.02 * step).soc_ratio.best for step in range(46)]
    assert middles == sorted(middles)


@pytest.mark.parametrize(
    ("circumstances", "word"),
    [
        ({"on_charge": True}, "on charge"),
        ({"rested_h": 1.9}, "under 2 h"),
        ({"rested_h": None}, "not written down"),
    ],
)
def test_a_reading_that_cannot_tell_is_not_known_and_says_why(circumstances, word):
    charge = read(12.5, **circumstances)
    assert not charge.known
    assert word in charge.reason


def test_two_hours_of_rest_are_enough_and_a_minute_less_is_not():
    assert read(12.5, rested_h=2.0).known
    assert not read(12.5, rested_h=1.98).known


def test_lithium_is_never_known():
    assert "lithium" in read(13.2, Chemistry.LITHIUM).reason


def test_the_quick_load_does_instead_of_two_hours():
    assert read(12.5, rested_h=0.1, quick_load=True).known
    assert read(12.5, rested_h=None, quick_load=True).known


def test_a_short_rest_widens_the_band_downwards_only_as_surface_charge_reads_high():
    short, long = read(12.5, rested_h=3).soc_ratio, read(12.5, rested_h=8).soc_ratio
    assert short.low < long.low
    assert short.high == long.high


def test_an_unknown_chemistry_gives_the_widest_band():
    unknown = read(12.55, Chemistry.UNKNOWN).soc_ratio
    for chemistry in (Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.AGM, Chemistry.GEL):
        known = read(12.55, chemistry).soc_ratio
        assert unknown.low <= known.low
        assert unknown.high >= known.high


@pytest.mark.parametrize(
    ("chemistry", "fresh"),
    [
        (Chemistry.FLOODED, 12.70),
        (Chemistry.CALCIUM, 12.90),
        (Chemistry.EFB, 12.90),
        (Chemistry.AGM, 13.05),
        (Chemistry.GEL, 13.05),
        (Chemistry.UNKNOWN, 12.70),
    ],
)
def test_over_what_a_full_battery_settles_at_a_fresh_reading_shows_no_charge(chemistry, fresh):
    assert read(fresh, chemistry, rested_h=23).known
    over = read(fresh + 0.02, chemistry, rested_h=23)
    assert (over.known, over.surface_charge_suspected) == (False, True)
    settled = read(fresh + 0.02, chemistry, rested_h=24)
    bled = read(fresh + 0.02, chemistry, rested_h=1, quick_load=True)
    full = read(fresh, chemistry, rested_h=24)
    assert settled.soc_ratio.low == full.soc_ratio.low  # counts as full and no more
    assert bled.known


def test_over_half_a_volt_above_full_is_refused_and_names_the_volts():
    assert read(13.14, rested_h=24).known
    with pytest.raises(OutOfRange, match=r"13\.2"):
        read(13.2, rested_h=24)


def test_an_unknown_chemistry_may_be_an_agm_and_takes_13_2():
    assert read(13.2, Chemistry.UNKNOWN, rested_h=24).soc_ratio.best > 0.8


def test_a_worse_meter_widens_the_band():
    assert read(12.4, meter_ratio=0.02).soc_ratio.width > read(12.4, meter_ratio=0.001).soc_ratio.width


def test_temperature_not_written_down_widens_the_band():
    assert read(12.4, temp_c=None).soc_ratio.width > read(12.4, temp_c=25.0).soc_ratio.width


def test_the_cold_offset_holds_both_the_linear_term_and_the_reported_table():
    offset = temperature_offset(temp_c=-17.8)
    assert offset.best == pytest.approx(-0.0535, abs=1e-4)  # 1.25 mV/K by hand
    assert offset.low == pytest.approx(-0.134 + 0.0021, abs=1e-3)  # the table, brought from 26.7 to 25 °C


def test_the_reading_for_the_bank_is_brought_to_25_degrees():
    assert read(12.5, temp_c=5.0).ocv_25_v.best == pytest.approx(12.525)


@pytest.mark.parametrize(("volts", "hours"), [(-1.0, 5.0), (24.9, 5.0), (12.5, -1.0)])
def test_nonsense_is_refused(volts, hours):
    with pytest.raises(OutOfRange):
        read(volts, rested_h=hours)


def test_a_meter_as_bad_as_one_in_ten_is_refused():
    with pytest.raises(OutOfRange, match="meter"):
        read(12.5, meter_ratio=0.1)


def test_lithium_has_no_table():
    with pytest.raises(BadData):
        ocv_points(Chemistry.LITHIUM)


def test_charge_outside_nought_to_one_is_refused():
    with pytest.raises(OutOfRange, match="state of charge"):
        rested_volts(soc_ratio=1.1, chemistry=Chemistry.FLOODED)


def test_without_a_reading_the_charge_runs_from_half_to_full():
    assert (no_reading().low, no_reading().high) == (0.5, 1.0)
    assert no_reading().best == 0.75


def test_a_temperature_that_nobody_wrote_down_is_said_with_what_is_taken():
    assert any("25 °C" in note for note in read(12.5, temp_c=None).notes)
    assert not any("not written down" in note for note in read(12.5, temp_c=20.0).notes)


def test_six_hours_are_a_good_rest():
    assert way_of(rested_h=6.0, bled=False) is Way.RESTED
    assert way_of(rested_h=5.9, bled=False) is Way.SHORT


@pytest.mark.parametrize("temp_c", [-17.9, 49.0, -30.0])
def test_outside_the_reported_table_of_temperatures_the_linear_term_stands_alone(temp_c):
    assert temperature_offset(temp_c=temp_c) == Span.exactly(0.00125 * (temp_c - 25))


def test_at_either_end_of_the_reported_table_both_count():
    hot = temperature_offset(temp_c=48.9)
    assert hot.high == pytest.approx(0.00125 * 23.9)
    assert hot.low == pytest.approx(0.013 + 0.007 * 1.7 / 5.6, abs=1e-6)  # the table, brought from 26.7 to 25 °C


@pytest.mark.parametrize(
    ("volts", "circumstances", "said"),
    [
        (12.4, {}, ()),
        (12.4, {"rested_h": 3}, ("2 to 6 h",)),
        (12.4, {"rested_h": 1, "quick_load": True}, ("bleed",)),
        (12.9, {"rested_h": 30}, ("full, rested",)),
        (12.4, {"chemistry": Chemistry.UNKNOWN}, ("chemistry not known",)),
        (
            12.9,
            {"rested_h": 1, "quick_load": True, "chemistry": Chemistry.UNKNOWN},
            ("bleed", "full, rested", "not known"),
        ),
    ],
)
def test_each_doubt_of_a_reading_is_said_and_none_that_is_not_there(volts, circumstances, said):
    notes = read(volts, **circumstances).notes
    assert len(notes) == len(said)
    assert all(word in note for word, note in zip(said, notes, strict=True))


def test_the_volts_for_the_bank_hold_the_meter_and_half_of_what_surface_charge_may_be():
    rested, short = read(12.5).ocv_25_v, read(12.5, rested_h=3).ocv_25_v
    assert (rested.low, rested.best, rested.high) == pytest.approx((12.5 - 0.0625, 12.5, 12.5625))
    assert (short.low, short.best, short.high) == pytest.approx((12.5 - 0.0625 - 0.15, 12.5 - 0.075, 12.5625))


def test_a_temperature_that_nobody_wrote_down_counts_as_25_degrees_and_only_the_best_case_is_colder():
    known, not_known = read(12.4), read(12.4, temp_c=None)
    assert (not_known.soc_ratio.low, not_known.soc_ratio.best) == (known.soc_ratio.low, known.soc_ratio.best)
    # the reported table at -5 °C, and the meter
    assert not_known.ocv_25_v.high == pytest.approx(12.4 - temperature_offset(temp_c=-5.0).low + 0.062)


def test_half_a_volt_over_full_itself_is_still_taken():
    assert read(13.15, rested_h=24).known


def test_what_no_chemistry_shows_is_refused_with_the_volts_of_the_one_that_shows_most():
    most_v = max(rested_volts(soc_ratio=1.0, chemistry=kind) for kind in kinds_of(Chemistry.UNKNOWN))
    with pytest.raises(OutOfRange, match=re.escape(f"({most_v:.2f} V)")):
        read(most_v + 0.52, Chemistry.UNKNOWN, rested_h=24)


def test_an_unknown_chemistry_has_the_widest_spread_and_the_least_fresh_volts():
    each = [limits_of(kind) for kind in kinds_of(Chemistry.UNKNOWN)]
    assert limits_of(Chemistry.UNKNOWN) == (max(spread for spread, _ in each), 12.70)


def test_no_hours_of_rest_are_no_error_and_tell_nothing():
    assert "rested 0 h" in read(12.5, rested_h=0.0).reason
