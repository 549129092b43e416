"""What leads bear: expected values from the published tables and hand arithmetic."""

from __future__ import annotations

import math

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Conductor
from kitlist.physics.leads.warming import (
    after_pause,
    bears_a2s,
    cooling_s,
    duty_rating,
    jumper_limit,
    rise_per_rod,
)


@pytest.mark.parametrize(
    ("amps", "area", "kelvin_per_s"),
    [(120, 10, 0.75), (120, 16, 0.29), (120, 25, 0.12), (200, 16, 0.81), (200, 25, 0.33)],
)
def test_a_second_of_arc_warms_a_lead_as_worked_out_from_its_heat_capacity(amps, area, kelvin_per_s):
    # 1.79e-8 ohm m and 3.45 MJ/m3K, worked apart from IEC 60949's closed form.
    rise = rise_per_rod(current_a=amps, burn_s=1.0, area_mm2=area, start_c=30.0)
    assert rise == pytest.approx(kelvin_per_s, rel=0.03)


def test_thin_pvc_lead_reaches_its_70_degrees_in_about_2_3_minutes_at_120_a():
    rise = rise_per_rod(current_a=120, burn_s=2.3 * 60, area_mm2=16, start_c=30)
    assert rise == pytest.approx(40, rel=0.1)  # the published figure lets the resistance stay as it was cold


def test_aluminium_warms_faster_and_an_unnamed_metal_counts_as_aluminium():
    facts = {"current_a": 150, "burn_s": 60, "area_mm2": 25, "start_c": 30}
    copper = rise_per_rod(**facts)
    aluminium = rise_per_rod(**facts, conductor=Conductor.ALUMINIUM)
    assert aluminium > 2 * copper
    assert rise_per_rod(**facts, conductor=Conductor.UNKNOWN) == aluminium


def test_a_lead_that_would_melt_is_refused():
    with pytest.raises(OutOfRange, match="melts"):
        rise_per_rod(current_a=1000, burn_s=60, area_mm2=10, start_c=30)


@pytest.mark.parametrize(
    ("area", "duty", "expected", "basis"),
    [(25, 1.0, 180, "N"), (35, 0.6, 260, "N"), (25, 0.35, 244, "N"), (16, 0.2, 212, "N"), (50, 0.2, 529, "N")],
)
def test_at_30_degrees_the_lower_of_the_two_published_tables_governs(area, duty, expected, basis):
    rating = duty_rating(area_mm2=area, duty_ratio=duty, ambient_c=30.0)
    assert rating.current_a <= expected + 1e-9
    assert rating.current_a == pytest.approx(expected, rel=0.045)  # H at 30 °C is 0.96 of its 25 °C figure


def test_the_ambient_factor_is_the_published_one_at_40_degrees():
    at_25 = duty_rating(area_mm2=70, duty_ratio=1.0, ambient_c=25.0).current_a
    at_40 = duty_rating(area_mm2=70, duty_ratio=1.0, ambient_c=40.0).current_a
    assert at_40 / at_25 == pytest.approx(0.87, abs=0.01)


def test_between_areas_the_smaller_counts():
    assert duty_rating(area_mm2=33.6, duty_ratio=0.6).current_a == duty_rating(area_mm2=25, duty_ratio=0.6).current_a


def test_a_shorter_duty_never_lowers_the_rating():
    ratings = [duty_rating(area_mm2=25, duty_ratio=duty / 100).current_a for duty in range(100, 7, -4)]
    assert ratings == sorted(ratings)


@pytest.mark.parametrize(("area", "duty", "ambient"), [(6, 0.6, 30), (25, 0.01, 30), (25, 1.2, 30), (25, 0.6, 90)])
def test_outside_the_cable_tables_is_refused(area, duty, ambient):
    with pytest.raises(OutOfRange):
        duty_rating(area_mm2=area, duty_ratio=duty, ambient_c=ambient)


def test_thin_pvc_insulation_lowers_the_rating():
    full = duty_rating(area_mm2=25, duty_ratio=1.0).current_a
    assert duty_rating(area_mm2=25, duty_ratio=1.0, insulation_c=70).current_a < full


def test_thicker_leads_cool_more_slowly_and_a_pause_cools():
    assert cooling_s(area_mm2=70) > cooling_s(area_mm2=25) > cooling_s(area_mm2=16)
    assert 0 < after_pause(rise_k=50, pause_s=300, area_mm2=25) < after_pause(rise_k=50, pause_s=60, area_mm2=25) < 50


@pytest.mark.parametrize("area", [16.0, 25.0, 50.0])
def test_the_time_constant_reproduces_the_35_percent_column_of_the_table_it_was_not_fitted_to(area):
    tau = cooling_s(area_mm2=area)
    hundred = duty_rating(area_mm2=area, duty_ratio=1.0, ambient_c=30.0).current_a
    reckoned = hundred * math.sqrt((1 - math.exp(-300 / tau)) / (1 - math.exp(-105 / tau)))
    published = {16.0: 173, 25.0: 244, 50.0: 415}[area]
    assert reckoned == pytest.approx(published, rel=0.05)


@pytest.mark.parametrize(
    ("area", "conductor", "marked", "amps"),
    [
        (16, Conductor.COPPER, True, 0),
        (25, Conductor.COPPER, True, 120),
        (35, Conductor.COPPER, True, 150),
        (35, Conductor.COPPER_CLAD, False, 0),
        (35, Conductor.COPPER_CLAD, True, 0),
        (40, Conductor.COPPER_CLAD, True, 120),
        (10, Conductor.COPPER, True, 0),
    ],
)
def test_jumper_leads_carry_the_arc_only_from_25_square_millimetres(area, conductor, marked, amps):
    assert jumper_limit(area_mm2=area, conductor=conductor, marked=marked).allowed_a == amps


@pytest.mark.parametrize(("conductor", "k"), [(Conductor.COPPER, 115), (Conductor.ALUMINIUM, 76)])
def test_a_second_at_the_published_k_takes_pvc_from_70_to_160_degrees(conductor, k):
    # BS 7671: k = 115 for copper and 76 for aluminium in PVC, 70 to 160 °C, I² t = k² S².
    rise = rise_per_rod(current_a=k * 25, burn_s=1.0, area_mm2=25, start_c=70, conductor=conductor)
    assert rise == pytest.approx(90, rel=0.01)


@pytest.mark.parametrize("facts", [{"current_a": 3001}, {"burn_s": 601}, {"area_mm2": 0}, {"current_a": -1}])
def test_burns_outside_the_adiabatic_formula_are_refused(facts):
    with pytest.raises(OutOfRange):
        rise_per_rod(**({"current_a": 100, "burn_s": 60, "area_mm2": 25, "start_c": 30} | facts))


def test_just_at_the_end_of_the_adiabatic_formula_it_answers_and_past_it_it_melts():
    # I² t = (226 S)²
    assert rise_per_rod(current_a=2260, burn_s=1, area_mm2=10, start_c=30) == pytest.approx(264.5 * (math.e - 1))
    with pytest.raises(OutOfRange, match="melts"):
        rise_per_rod(current_a=2500, burn_s=1, area_mm2=10, start_c=30)


@pytest.mark.parametrize("conductor", [Conductor.COPPER, Conductor.ALUMINIUM, Conductor.UNKNOWN])
def test_what_a_lead_bears_takes_it_from_where_it_starts_to_its_limit(conductor):
    a2s = bears_a2s(area_mm2=25.0, conductor=conductor, limit_c=70.0, start_c=20.0)
    rise = rise_per_rod(current_a=100.0, burn_s=a2s / 100**2, area_mm2=25.0, start_c=20.0, conductor=conductor)
    assert rise == pytest.approx(50.0)


def test_a_lead_of_no_area_or_at_its_limit_already_bears_nothing():
    assert bears_a2s(area_mm2=0.0, conductor=Conductor.COPPER, limit_c=70.0) == 0.0
    assert bears_a2s(area_mm2=0.5, conductor=Conductor.COPPER, limit_c=31.0) > 0.0
    assert bears_a2s(area_mm2=25.0, conductor=Conductor.COPPER, limit_c=30.0) == 0.0
    assert bears_a2s(area_mm2=25.0, conductor=Conductor.COPPER, limit_c=20.0) == 0.0


@pytest.mark.parametrize(("area", "at_20", "at_100"), [(16.0, 212, 135), (25.0, 305, 180), (50.0, 529, 285)])
def test_the_time_constant_is_the_one_that_the_20_percent_column_of_five_minutes_implies(area, at_20, at_100):
    tau = cooling_s(area_mm2=area)
    assert (1 - math.exp(-300 / tau)) / (1 - math.exp(-60 / tau)) == pytest.approx((at_20 / at_100) ** 2, rel=1e-9)


def test_cooling_is_told_by_the_table_from_10_to_95_square_millimetres_and_held_outside():
    assert cooling_s(area_mm2=10) < cooling_s(area_mm2=13) < cooling_s(area_mm2=16)
    assert cooling_s(area_mm2=70) < cooling_s(area_mm2=95)
    assert (cooling_s(area_mm2=4), cooling_s(area_mm2=150)) == (cooling_s(area_mm2=10), cooling_s(area_mm2=95))


def test_between_two_duties_the_rating_runs_on_logarithms():
    # half way from 0.35 (244 A) to 0.60 (204 A) on logarithms
    rating = duty_rating(area_mm2=25, duty_ratio=math.sqrt(0.35 * 0.60))
    assert rating.current_a == pytest.approx(math.sqrt(244 * 204))


def test_an_aluminium_lead_carries_what_its_resistance_leaves():
    copper = duty_rating(area_mm2=25, duty_ratio=0.6).current_a
    assert duty_rating(area_mm2=25, duty_ratio=0.6, conductor=Conductor.ALUMINIUM).current_a == pytest.approx(
        copper / math.sqrt(1.64)
    )


def test_insulation_no_warmer_than_the_air_is_refused():
    for insulation_c in (40.0, 35.0):
        with pytest.raises(OutOfRange, match="cannot be used"):
            duty_rating(area_mm2=25, duty_ratio=0.6, ambient_c=40.0, insulation_c=insulation_c)


def test_only_a_conductor_that_may_be_clad_needs_its_mark():
    assert jumper_limit(area_mm2=25, conductor=Conductor.COPPER, marked=False).allowed_a == 120
    for conductor in (Conductor.COPPER_CLAD, Conductor.UNKNOWN):
        refused = jumper_limit(area_mm2=70, conductor=conductor, marked=False)
        assert refused.allowed_a == 0
        assert "unmarked" in refused.reason
        assert jumper_limit(area_mm2=70, conductor=conductor).allowed_a == 150
