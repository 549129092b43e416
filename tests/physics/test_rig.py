"""Leads in a row, the middle of what is known, and its agreement with the band."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Conductor, Fitting
from kitlist.outlook.options.fleet import Traveller
from kitlist.physics.bank.band import current_band
from kitlist.physics.bank.examples import in_series, sound_battery
from kitlist.physics.bank.network import feed
from kitlist.physics.bank.rig import Leads, Rig, leads_in_row
from kitlist.physics.leads.cable import LeadRun, joint, lead_resistance


def test_leads_in_a_row_add_conductors_and_joints():
    # 2 m of 25 mm2 and 3 m of 16 mm2: 1.56 + 3.63 mohm; two poles of plugs at 0.15 mohm.
    row = leads_in_row(
        [
            LeadRun(length_m=2.0, area_mm2=25.0, joints=(Fitting.PLUG,)),
            LeadRun(length_m=3.0, area_mm2=16.0, joints=(Fitting.PLUG,)),
        ]
    )
    assert row.conductor_ohm_20c * 1000 == pytest.approx(5.19)
    assert row.more_joints_ohm.best * 1000 == pytest.approx(0.30)
    assert row.factor == Span.exactly(1.0)


def test_a_measured_lead_goes_in_as_measured():
    row = leads_in_row([LeadRun(length_m=9.0, area_mm2=25.0, measured_ohm=0.004), LeadRun(length_m=1.0, area_mm2=25.0)])
    assert row.conductor_ohm_20c * 1000 == pytest.approx(0.78)
    assert row.more_joints_ohm.best == pytest.approx(0.004)


def test_every_joint_and_measured_lead_adds_at_each_end():
    one = LeadRun(length_m=1.0, area_mm2=25.0, joints=(Fitting.PLUG,))
    both = LeadRun(length_m=2.0, area_mm2=25.0, joints=(Fitting.PLUG, Fitting.POST_CLAMP))
    measured = LeadRun(length_m=9.0, area_mm2=25.0, measured_ohm=0.004)
    row, known = leads_in_row([one, measured, both, measured]), lead_resistance(measured)
    plug, clamp = joint(Fitting.PLUG), joint(Fitting.POST_CLAMP)
    for end in ("low", "best", "high"):
        ends = 2 * getattr(plug, end) + getattr(clamp, end) + 2 * getattr(known, end)
        assert getattr(row.more_joints_ohm, end) == pytest.approx(ends)


def test_leads_of_two_metals_have_the_range_of_each_by_its_ohms():
    clad = LeadRun(length_m=2.0, area_mm2=25.0, conductor=Conductor.COPPER_CLAD)
    row = leads_in_row([LeadRun(length_m=1.0, area_mm2=25.0), clad, clad])
    assert row.conductor_ohm_20c == pytest.approx(0.00078 * (1 + 4 * 1.6))
    assert row.factor.low == pytest.approx((1 + 4 * 1.4) / (1 + 4 * 1.6))
    assert row.factor.high == pytest.approx((1 + 4 * 1.7) / (1 + 4 * 1.6))


def test_leads_are_as_warm_and_their_ends_as_good_as_somebody_says_or_as_usual():
    run = [LeadRun(length_m=1.0, area_mm2=25.0)]
    said = leads_in_row(run, temp_c=Span(20, 30, 40), end_joints_ohm=Span(0.001, 0.002, 0.003))
    assert (said.temp_c, said.end_joints_ohm) == (Span(20, 30, 40), Span(0.001, 0.002, 0.003))
    usual = leads_in_row(run)
    assert usual.temp_c == Span(15.0, 45.0, 75.0)
    assert usual.end_joints_ohm.high == pytest.approx(0.006)
    assert usual.more_joints_ohm is None
    assert leads_in_row([LeadRun(length_m=9.0, area_mm2=25.0, measured_ohm=0.004)]).factor == Span.exactly(1.0)


def test_the_likely_and_the_most_ohms_of_leads_by_hand():
    leads = Leads(
        conductor_ohm_20c=0.004,
        factor=Span(0.9, 1.0, 1.1),
        more_joints_ohm=Span(0.001, 0.002, 0.004),
        temp_c=Span(10, 40, 70),
        ballast_ohm=0.05,
    )
    assert leads.best_ohm == pytest.approx(0.004 * (1 + 0.00393 * 20) / 0.875 + 0.00205 + 0.002 + 0.05)
    assert leads.most_ohm == pytest.approx(0.0044 * (1 + 0.00393 * 50) / 0.75 + 0.006 + 0.004 + 0.05)
    measured = replace(leads, measured_ohm=Span(0.005, 0.006, 0.008))
    assert (measured.best_ohm, measured.most_ohm) == pytest.approx((0.056, 0.058))


def test_copper_clad_widens_the_factor_of_the_whole_row():
    row = leads_in_row([LeadRun(length_m=1.0, area_mm2=25.0, conductor=Conductor.COPPER_CLAD)])
    assert row.factor.low == pytest.approx(1.4 / 1.6)
    assert row.factor.high == pytest.approx(1.7 / 1.6)


def test_measured_leads_and_ballast_by_hand():
    leads = Leads(conductor_ohm_20c=1.0, measured_ohm=Span.exactly(0.006), ballast_ohm=0.05)
    assert leads.best_ohm == pytest.approx(0.056)


def test_a_read_battery_shows_its_reading_and_moves_with_temperature():
    battery = replace(sound_battery(), ocv_25_v=Span(12.5, 12.6, 12.7))
    assert battery.volts(temp_c=25.0) == 12.6
    assert battery.volts(temp_c=5.0) == pytest.approx(12.575)


def test_an_unknown_chemistry_takes_the_lowest_table():
    unknown = replace(sound_battery(), chemistry=Chemistry.UNKNOWN)
    assert unknown.volts(temp_c=25.0) == sound_battery().volts(temp_c=25.0)


def test_each_string_has_its_own_links():
    plain = in_series(3)
    twice = Rig(
        groups=(plain.groups[0], tuple(replace(b, name=b.name + " too") for b in plain.groups[0])),
        leads=plain.leads,
        link_ohm_20c=0.001,
    )
    network = twice.network()
    assert len(network.group_ohm) == 2
    assert network.group_ohm[0] == pytest.approx(0.001 * (1 + 0.00393 * 25) / 0.875)
    assert current_band(twice).middle_a < current_band(replace(twice, link_ohm_20c=0.0)).middle_a


@pytest.mark.parametrize("count", [3, 4])
def test_the_middle_of_what_is_known_meets_the_arc_near_the_middle_of_the_band(count):
    rig = in_series(count)
    assert feed(rig.network()).point.current_a == pytest.approx(current_band(rig).middle_a, rel=0.05)


def test_a_battery_out_of_the_network_needs_a_resistance():
    with pytest.raises(ValueError, match="resistance"):
        Traveller(name="a", chemistry=Chemistry.AGM, capacity_ah=70.0, resistance=None).as_bank_battery()
