"""Leads: expected values from the standard's table and from hand arithmetic."""

from __future__ import annotations

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.fields import fields_of
from kitlist.base.terms import Conductor, Fitting
from kitlist.kit import Lead
from kitlist.physics.leads.cable import (
    LeadRun,
    conductor_factor,
    joint,
    lead_resistance,
    ohm_per_m,
    warmed,
)


def mohm(area, conductor=Conductor.COPPER):
    return ohm_per_m(area_mm2=area, conductor=conductor) * 1000


@pytest.mark.parametrize(("area", "expected"), [(8.37, 2.30), (21.2, 0.925), (33.6, 0.578), (67.4, 0.283)])
def test_awg_sizes_lie_close_to_the_product_of_area_and_resistance_of_their_neighbours(area, expected):
    assert mohm(area) == pytest.approx(expected, rel=0.02)


def test_resistance_falls_as_the_area_grows():
    values = [mohm(area) for area in range(6, 96)]
    assert values == sorted(values, reverse=True)


@pytest.mark.parametrize("area", [1.4, 0.5, 150.1, 185.0])
def test_areas_outside_the_table_are_refused_with_the_range(area):
    with pytest.raises(OutOfRange, match=r"1\.5 to 150"):
        mohm(area)


def test_copper_clad_has_about_1_6_times_the_resistance():
    assert mohm(25, Conductor.COPPER_CLAD) == pytest.approx(1.248)


def test_a_conductor_nobody_named_gives_the_current_of_copper():
    assert mohm(25, Conductor.UNKNOWN) == mohm(25, Conductor.COPPER)
    assert conductor_factor(Conductor.UNKNOWN) == conductor_factor(Conductor.COPPER)


@pytest.mark.parametrize(("temp", "factor"), [(40, 0.926), (60, 0.862), (70, 0.833)])
def test_warming_agrees_with_the_standards_correction_factors(temp, factor):
    # The published factors convert back to 20 °C: 254.5 / (234.5 + T).
    assert 1 / warmed(ohm_at_20c=1.0, temp_c=temp) == pytest.approx(factor, abs=0.004)


def test_a_glowing_lead_is_refused():
    with pytest.raises(OutOfRange):
        warmed(ohm_at_20c=1.0, temp_c=400)


def test_lugs_of_every_size_are_one_kind_of_joint():
    assert joint(Fitting.LUG_M6) == joint(Fitting.LUG_M10)
    assert joint(Fitting.LUG_M8).best == pytest.approx(0.05e-3)


def test_a_spring_clamp_with_one_jaw_wired_is_twice_as_bad_as_a_bonded_one():
    assert joint(Fitting.SPRING_CLAMP).best == 2 * joint(Fitting.SPRING_CLAMP_BONDED).best


def test_a_bare_end_is_no_joint():
    with pytest.raises(BadData, match="no joint"):
        joint(Fitting.BARE)


def test_a_lead_with_joints_adds_each_joint_once():
    bare = lead_resistance(LeadRun(length_m=5, area_mm2=25)).best
    fitted = lead_resistance(LeadRun(length_m=5, area_mm2=25, joints=(Fitting.LUG_M8, Fitting.SPRING_CLAMP))).best
    assert fitted - bare == pytest.approx(0.00105)


def test_the_bounds_hold_length_area_and_poor_joints():
    span = lead_resistance(LeadRun(length_m=5, area_mm2=25, joints=(Fitting.WORK_CLAMP,)), temp_c=20.0)
    assert span.low == pytest.approx(0.9 * 3.9e-3 + 0.2e-3)
    assert span.high == pytest.approx(1.1 / 0.75 * 3.9e-3 + 3e-3)


def test_a_measured_lead_needs_no_table():
    assert lead_resistance(LeadRun(length_m=999, area_mm2=1, measured_ohm=0.004)).best == 0.004


def test_a_lead_of_a_kilometre_is_refused():
    with pytest.raises(OutOfRange):
        lead_resistance(LeadRun(length_m=1000, area_mm2=25))


def test_a_measured_lead_is_good_to_a_twentieth():
    span = lead_resistance(LeadRun(length_m=5, area_mm2=25, measured_ohm=0.010))
    assert (span.low, span.high) == pytest.approx((0.0095, 0.0105))


def test_every_area_that_entry_accepts_is_in_the_conductor_table():
    (area,) = (field for field in fields_of(Lead) if field.name == "area_mm2")
    low, high = area.about.low, area.about.high
    assert (low, high) == (1.5, 150)
    assert ohm_per_m(area_mm2=low) > ohm_per_m(area_mm2=high) > 0


def test_tinned_copper_has_its_own_column_and_no_factor():
    # IEC 60228, class 5, 25 mm²: 0.795 mohm a metre tinned, 0.780 plain
    assert (mohm(25, Conductor.TINNED_COPPER), mohm(25)) == pytest.approx((0.795, 0.780))


def test_copper_clad_is_1_4_to_1_7_of_copper_at_the_ends():
    span = lead_resistance(LeadRun(length_m=5, area_mm2=25, conductor=Conductor.COPPER_CLAD), temp_c=20.0)
    assert span.low == pytest.approx(0.9 * 1.4 * 3.9e-3)
    assert span.best == pytest.approx(1.6 * 3.9e-3)
    assert span.high == pytest.approx(1.1 / 0.75 * 1.7 * 3.9e-3)
