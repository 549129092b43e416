"""What ends each battery of a bank that starts full, whatever ends the first: by hand, and beside the plain count."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Covering
from kitlist.physics.arc.arc import Arc, arc_for
from kitlist.physics.bank.endurance import (
    Burn,
    Ending,
    LeadHeat,
    LoadLimits,
    RodUse,
    arc_of_band,
    burn_rods,
    first_rod,
    load_limits,
    rods_by_leads,
    shares_of,
)
from kitlist.physics.bank.examples import in_series
from kitlist.physics.bank.network import feed, thevenin
from kitlist.physics.bank.rig import Rig
from kitlist.physics.battery.resistance import source_resistance
from kitlist.physics.leads.warming import after_pause, rise_per_rod

ROD = RodUse(charge_ah=Span(1.64, 2.05, 2.46), count=60)
FULL = Span.exactly(1.0)


def full(rig: Rig, **second: object) -> Rig:
    """Charged full, with something of the second battery changed."""
    batteries = [replace(battery, soc_ratio=FULL) for battery in rig.batteries]
    batteries[1] = replace(batteries[1], **second)  # type: ignore[arg-type]
    return replace(rig, groups=(tuple(batteries),))


def limits(rig: Rig, reserve: float = 0.5, **more: object) -> LoadLimits:
    return load_limits(rig, ROD, reserves={b.name: reserve for b in rig.batteries}, **more)  # type: ignore[arg-type]


def test_where_nothing_gives_out_the_rods_are_those_of_the_plain_count_down_to_the_reserve() -> None:
    rig = full(in_series(3))
    for reserve in (0.5, 0.7, 1 - 5 * 2.05 / 70):  # the last leaves just the reserve
        found = limits(rig, reserve)
        run = burn_rods(rig, ROD, reserves={b.name: reserve for b in rig.batteries})
        assert (dict(found.ended_by), dict(found.soc_ratio)) == ({}, {})
        assert found.burns == run.burns
        assert len(found.burns) == int((1 - reserve) * 70 / 2.05 + 1e-9)
    assert limits(rig, 1.0).burns == ()


def test_a_tired_battery_gives_out_on_load_at_the_charge_before_that_rod_and_the_others_go_on() -> None:
    rig = full(in_series(3), resistance=source_resistance(tester_mohm=8.5))
    found = limits(rig)
    assert dict(found.ended_by) == {"battery 2": Ending.LOAD_VOLTS}
    rods = round((1 - found.soc_ratio["battery 2"]) * 70 / 2.05, 6)
    assert rods.is_integer()
    assert len(found.burns) == rods > 0
    run = burn_rods(rig, ROD, reserves={b.name: 0.5 for b in rig.batteries})
    assert (run.rods, run.on, run.ended_by) == (rods, "battery 2", Ending.LOAD_VOLTS)
    last = next(state for state in run.burns[-1].batteries if state.name == "battery 2")
    assert last.soc_ratio == pytest.approx(found.soc_ratio["battery 2"])
    assert last.least_v >= 9.6


def test_the_others_rest_between_the_rods_though_one_gave_out_in_the_first() -> None:
    found = limits(full(in_series(3), resistance=source_resistance(tester_mohm=12.5)))
    assert (dict(found.ended_by), dict(found.soc_ratio)) == ({"battery 2": Ending.LOAD_VOLTS}, {"battery 2": 1.0})
    assert found.burns == ()


def test_a_small_battery_is_at_its_reserve_first_and_its_end_is_none_of_the_load() -> None:
    found = limits(full(in_series(3), capacity_ah=30.0), 0.5)
    assert found.ended_by.get("battery 2") in (None, Ending.AT_HAND, Ending.LOAD_VOLTS)
    assert len(found.burns) <= 7  # half of 30 Ah is seven rods


def test_without_a_pause_the_charge_at_hand_gives_out_and_a_rest_leaves_more() -> None:
    rig = full(in_series(3), capacity_ah=70.0)
    at_once, rested = (limits(rig, 0.02, pause_s=pause) for pause in (0.0, 1800.0))
    assert set(at_once.ended_by) == {"battery 1", "battery 2", "battery 3"}
    assert set(at_once.ended_by.values()) <= {Ending.AT_HAND, Ending.LOAD_VOLTS}
    assert len(set(at_once.soc_ratio.values())) == 1  # alike batteries have alike limits
    assert len(rested.burns) > len(at_once.burns)


def test_a_bank_whose_arc_goes_out_ends_for_all_that_are_still_over_their_reserve() -> None:
    far = in_series(2, length_m=80, area_mm2=16)
    found = limits(full(far), 0.05)
    assert set(found.ended_by.values()) == {Ending.NO_ARC}
    assert len(found.burns) == round((1 - found.soc_ratio["battery 1"]) * 70 / 2.05)
    lone = in_series(1)
    none = load_limits(replace(lone), ROD, reserves={"battery 1": 0.5})
    assert (dict(none.ended_by), none.burns, dict(none.share_ratio)) == ({"battery 1": Ending.NO_ARC}, (), {})
    assert none.soc_ratio["battery 1"] == pytest.approx(0.875)


def test_the_first_rod_is_that_of_the_whole_run_and_there_is_none_without_an_arc() -> None:
    rig = full(in_series(3))
    arc = arc_for(None)
    assert first_rod(rig, ROD, arc=arc) == limits(rig).burns[0]
    assert first_rod(in_series(1), ROD, arc=arc) is None
    burn = first_rod(rig, ROD, arc=arc)
    assert burn is not None
    amps = (burn.start_a + burn.end_a) / 2
    assert burn.burn_s == pytest.approx(3600 * 2.05 / amps, rel=0.01)
    for state in burn.batteries:
        assert state.soc_ratio == pytest.approx(1 - 2.05 / 70)
        assert 9.6 < state.least_v < 12.0
    assert arc_for(Covering.CELLULOSIC).foot_v == arc.foot_v + 3.5


def test_the_arc_of_a_band_is_met_at_its_middle_as_long_as_it_is_held() -> None:
    for count in (2, 3):
        rig = in_series(count)
        arc = arc_of_band(rig, None, middle_a=80.0)
        seen = thevenin(rig.network())
        assert feed(rig.network(), arc).point.current_a == pytest.approx(80.0)
        assert arc.length_mm <= arc_for(None).length_mm
        assert arc.foot_v == pytest.approx(
            seen.emf_v - seen.ohm * 80 - 0.04 * 80 - arc.slope_v_per_mm * arc.length_mm - arc.power_w / 80
        )
    assert arc_of_band(in_series(2), None, middle_a=80.0).length_mm < 3.0
    lone = arc_of_band(in_series(1), None, middle_a=20.0)
    assert lone.length_mm == arc_for(None).length_mm  # it holds none: as usual
    assert shares_of(in_series(3), Arc(foot_v=60.0)) == {}


def test_leads_warm_rod_by_rod_by_the_larger_current_and_cool_in_the_pause() -> None:
    burn, lead = Burn(1, 180.0, 200.0, 60.0, ()), LeadHeat(area_mm2=16.0)
    lead_c, rods = lead.ambient_c, 0
    while True:
        if rods:
            lead_c = lead.ambient_c + after_pause(rise_k=lead_c - lead.ambient_c, pause_s=120.0, area_mm2=16.0)
        lead_c += rise_per_rod(current_a=200.0, burn_s=60.0, area_mm2=16.0, start_c=lead_c, conductor=lead.conductor)
        if lead_c > lead.limit_c:
            break
        rods += 1
    assert rods_by_leads(burn, lead) == rods > 0
    assert rods_by_leads(replace(burn, start_a=200.0, end_a=180.0), lead) == rods
    at_once = rods_by_leads(burn, lead, pause_s=0.0)
    assert at_once is not None
    assert at_once <= rods
    assert rods_by_leads(burn, replace(lead, area_mm2=50.0)) is None
    assert rods_by_leads(replace(burn, end_a=5000.0), lead) == 0  # hotter than any formula goes
