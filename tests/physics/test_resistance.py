"""Source resistance: expected values from the published limits and hand arithmetic."""

from __future__ import annotations

import math

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.span import Span
from kitlist.physics.battery.resistance import (
    Basis,
    LoadedReading,
    SourceResistance,
    Wear,
    effect_of_state,
    source_resistance,
    wear,
)


@pytest.mark.parametrize(
    ("cca", "nominal_mohm"), [(400, 7.5), (500, 6.0), (600, 5.0), (700, 4.3), (800, 3.8), (1000, 3.0)]
)
def test_nominal_resistance_by_cranking_rating_is_the_published_column(cca, nominal_mohm):
    found = source_resistance(cca_sae=Span.exactly(cca)).new_ohm.best * 1000
    assert found == pytest.approx(nominal_mohm, abs=0.06)


def test_without_a_rating_the_capacity_serves_and_says_so():
    by_size = source_resistance(capacity_ah=90.0)
    assert by_size.basis is Basis.CAPACITY
    assert by_size.new_ohm.best == pytest.approx(0.005)


def test_a_tester_replaces_the_label_and_a_load_replaces_the_tester():
    label = Span.exactly(600.0)
    assert source_resistance(cca_sae=label, tester_mohm=7.0).basis is Basis.TESTER
    loaded = LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0)
    assert source_resistance(cca_sae=label, tester_mohm=7.0, loaded=loaded).basis is Basis.LOADED


def test_a_measurement_narrows_the_band_and_needs_no_age():
    label = source_resistance(cca_sae=Span.exactly(600.0)).now_ohm
    measured = source_resistance(tester_mohm=5.0)
    assert measured.age_ratio.width == 0
    assert measured.now_ohm.width < label.width


def test_a_loaded_reading_takes_the_activation_drop_off_first():
    # 12.6 to 11.4 V at 100 A: 1.2 V less 0.40 V over 100 A is 8 mohm, less up to 10 % of slow polarisation.
    ohm = source_resistance(loaded=LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0)).new_ohm
    assert ohm.low < 0.008 / 1.1 <= ohm.best + 1e-12 < 0.008 < ohm.high


def test_a_loaded_reading_in_the_cold_is_brought_to_25_degrees():
    cold = LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0, temp_c=-10.0)
    warm = LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0)
    ratio = source_resistance(loaded=warm).new_ohm.best / source_resistance(loaded=cold).new_ohm.best
    assert ratio == pytest.approx(math.exp(0.011 * 35))


@pytest.mark.parametrize("load_v", [12.6, 12.9])
def test_volts_that_rise_under_load_are_refused(load_v):
    with pytest.raises(BadData, match="rose"):
        source_resistance(loaded=LoadedReading(rest_v=12.6, load_v=load_v, current_a=100.0))


@pytest.mark.parametrize(
    "reading",
    [LoadedReading(rest_v=12.6, load_v=12.2, current_a=100.0), LoadedReading(rest_v=12.6, load_v=11.0, current_a=10.0)],
)
def test_a_load_too_small_to_tell_is_refused(reading):
    with pytest.raises(OutOfRange):
        source_resistance(loaded=reading)


@pytest.mark.parametrize(
    "facts", [{"tester_mohm": 0.1}, {"tester_mohm": 300.0}, {"cca_sae": Span.exactly(5.0)}, {"capacity_ah": 0.0}]
)
def test_figures_that_no_battery_has_are_refused(facts):
    with pytest.raises(OutOfRange):
        source_resistance(**facts)


def test_with_nothing_known_there_is_no_number():
    with pytest.raises(BadData, match="not known"):
        source_resistance()


def test_cold_resistance_lies_between_the_two_published_bounds():
    # From 27 to -18 °C: AC resistance rises 1.5 times, the 30 s DC ability 2.5 times.
    ratio = effect_of_state(soc_ratio=1.0, temp_c=-18.0) / effect_of_state(soc_ratio=1.0, temp_c=27.0)
    assert 1.5 < ratio < 2.5


def test_a_flat_battery_has_more_resistance():
    assert effect_of_state(soc_ratio=0.0, temp_c=25.0) == pytest.approx(1.6)


@pytest.mark.parametrize(("soc", "temp"), [(1.2, 20.0), (-0.1, 20.0), (0.5, 80.0), (0.5, -60.0)])
def test_states_outside_the_model_are_refused(soc, temp):
    with pytest.raises(OutOfRange):
        effect_of_state(soc_ratio=soc, temp_c=temp)


@pytest.mark.parametrize(
    ("mohm", "expected"), [(5.0, Wear.GOOD), (6.4, Wear.WORN), (10.0, Wear.WORN), (10.01, Wear.REJECT)]
)
def test_wear_of_a_600_amp_battery_turns_at_the_published_limits(mohm, expected):
    assert wear(full_25_ohm=mohm / 1000, cca_sae_a=600.0) is expected


def test_20_amps_are_enough_of_a_load_and_less_is_not():
    assert source_resistance(loaded=LoadedReading(rest_v=12.6, load_v=11.8, current_a=20.0)).basis is Basis.LOADED
    with pytest.raises(OutOfRange, match="20 A"):
        source_resistance(loaded=LoadedReading(rest_v=12.6, load_v=11.8, current_a=19.9))


def test_age_multiplies_every_end():
    aged = SourceResistance(Span(2.0, 3.0, 4.0), Span(1.1, 1.2, 1.5), Basis.CRANKING).now_ohm
    assert (aged.low, aged.best, aged.high) == pytest.approx((2.2, 3.6, 6.0))


def test_what_was_measured_counts_as_it_was_measured():
    loaded = LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0)
    assert source_resistance(loaded=loaded).age_ratio == Span.exactly(1.0)
    tested = source_resistance(tester_mohm=5.0)
    assert (tested.age_ratio, tested.now_ohm.best) == (Span.exactly(1.0), 0.005)


def test_a_load_by_hand_at_every_end():
    # 1.2 V at 100 A: activation 0.55, 0.40, 0.25 V off it, and slow polarisation of 0.4, 0.1 and none of the rest
    ohm = source_resistance(loaded=LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0)).new_ohm
    assert (ohm.low, ohm.best, ohm.high) == pytest.approx((0.0065 / 1.4, 0.008 / 1.1, 0.0095))
    half_flat = LoadedReading(rest_v=12.6, load_v=11.4, current_a=100.0, soc_ratio=0.5)
    assert source_resistance(loaded=half_flat).new_ohm.high == pytest.approx(0.0095 / 1.3)


def test_at_3_8_over_its_amps_a_battery_is_still_good():
    assert wear(full_25_ohm=0.0038, cca_sae_a=1000.0) is Wear.GOOD
    assert wear(full_25_ohm=0.0039, cca_sae_a=1000.0) is Wear.WORN
