"""Rod by rod: counts by hand, what ends it, what a pause does."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.span import Span
from kitlist.physics.bank.endurance import Ending, LeadHeat, RodUse, arc_of_band, burn_rods, rods_by_leads, shares_of
from kitlist.physics.bank.examples import in_series
from kitlist.physics.bank.rig import Rig
from kitlist.physics.battery.resistance import source_resistance

RIG = in_series(3)
ROD = RodUse(charge_ah=Span(1.64, 2.05, 2.46), count=60)


def run(rig: Rig = RIG, rod: RodUse = ROD, reserve=0.5, **more):
    return burn_rods(rig, rod, reserves={battery.name: reserve for battery in rig.batteries}, **more)


def with_soc(best, low=None, **changes):
    soc = Span(best if low is None else low, best, best)
    return replace(RIG, groups=(tuple(replace(b, soc_ratio=soc, **changes) for b in RIG.batteries),))


def test_with_pauses_the_plain_count_of_ampere_hours_governs():
    endurance = run(with_soc(0.9))
    assert endurance.ended_by is Ending.RESERVE
    assert endurance.rods == 13  # (0.9 - 0.5) x 70 Ah / 2.05 Ah = 13.66


def test_charge_falls_by_plain_ampere_hours():
    endurance = run(with_soc(0.9))
    expected = 0.9 - endurance.rods * 2.05 / 70
    assert list(endurance.soc_ratio.values()) == pytest.approx([expected] * 3)


def test_a_rod_is_counted_only_whole_and_only_if_it_leaves_the_reserve():
    endurance = run(with_soc(0.9), reserve=0.75)
    assert endurance.rods == 5  # 0.15 x 70 / 2.05 = 5.1
    assert all(soc >= 0.75 for soc in endurance.soc_ratio.values())


def test_current_falls_two_to_three_amps_a_rod_and_seven_to_ten_within_one():
    burns = run(with_soc(0.9)).burns
    for burn in burns[:5]:
        assert 5.0 < burn.start_a - burn.end_a < 11.0
    for before, after in pairwise(burns[2:8]):
        assert 1.0 < before.start_a - after.start_a < 3.5


def test_the_first_rod_runs_hottest():
    starts = [burn.start_a for burn in run().burns]
    assert starts == sorted(starts, reverse=True)


def test_a_longer_pause_never_costs_rods():
    counts = [run(with_soc(1.0), pause_s=pause).rods for pause in (0.0, 30.0, 300.0, 3600.0)]
    assert counts == sorted(counts)


def test_without_a_pause_the_charge_at_hand_ends_it_first_when_the_reserve_is_low():
    endurance = run(with_soc(1.0), reserve=0.05, pause_s=0.0)
    assert endurance.ended_by in (Ending.AT_HAND, Ending.LOAD_VOLTS)
    assert endurance.rods < 32  # (1.0 - 0.05) x 70 / 2.05 = 32.4


def test_a_tired_battery_falls_under_9_6_volts_and_is_named():
    tired = source_resistance(tester_mohm=16.0)
    batteries = list(RIG.batteries)
    batteries[1] = replace(batteries[1], resistance=tired)
    endurance = run(replace(RIG, groups=(tuple(batteries),)))
    assert endurance.ended_by is Ending.LOAD_VOLTS
    assert endurance.on == "battery 2"


def test_the_smallest_battery_bounds_the_string():
    batteries = list(RIG.batteries)
    batteries[2] = replace(batteries[2], capacity_ah=40.0)
    endurance = run(replace(RIG, groups=(tuple(batteries),)))
    assert endurance.rods < run().rods
    assert endurance.on == "battery 3"


def test_thin_leads_without_a_pause_end_it_by_their_heat():
    burns, thin = run().burns, LeadHeat(area_mm2=16.0, ambient_c=35.0)
    at_once, rested = (rods_by_leads(burns[0], thin, pause_s=pause) for pause in (0.0, 600.0))
    assert at_once is not None
    assert at_once < len(burns)
    cooler = rods_by_leads(burns[-1], thin, pause_s=0.0)
    assert cooler is None or cooler >= at_once
    assert rested is None or rested > at_once


def test_two_batteries_burn_with_the_short_arc_that_they_let_be_held():
    rig = in_series(2)
    endurance = run(rig, arc=arc_of_band(rig, None, middle_a=76.0))
    assert endurance.burns[0].start_a == pytest.approx(76.0, rel=0.06)
    assert endurance.ended_by is Ending.RESERVE


def test_in_plain_series_every_battery_carries_the_whole_current():
    assert list(shares_of(RIG, arc_of_band(RIG, None, middle_a=180.0)).values()) == pytest.approx([1.0] * 3)


def test_cold_leaves_less_at_hand_and_lets_it_forward_more_slowly():
    warm, cold = (replace(RIG, temp_c=Span.exactly(temp_c)) for temp_c in (25.0, -18.0))
    counts = [run(rig, reserve=0.05, pause_s=0.0).rods for rig in (warm, cold)]
    assert counts[1] < counts[0]


def test_a_small_packet_ends_with_its_rods():
    endurance = run(rod=replace(ROD, count=3))
    assert (endurance.rods, endurance.ended_by) == (3, Ending.RODS)


def test_the_middle_of_the_band_sets_the_first_current():
    first = run(arc=arc_of_band(RIG, None, middle_a=180.0)).burns[0]
    assert first.end_a < 180.0 + 8.0
    assert first.start_a == pytest.approx(180.0, abs=12.0)


def test_parallel_strings_give_about_twice_the_rods():
    twice = replace(RIG, groups=(RIG.groups[0], tuple(replace(b, name=f"{b.name} too") for b in RIG.groups[0])))
    assert run(twice).rods == pytest.approx(2 * run().rods, abs=1)


def test_what_cannot_be_reckoned_is_refused():
    nameless = replace(RIG, groups=(tuple(replace(b, capacity_ah=None) for b in RIG.batteries),))
    with pytest.raises(BadData, match="capacity"):
        run(nameless)
    with pytest.raises(BadData, match="reserve"):
        burn_rods(RIG, ROD, reserves={})
    with pytest.raises(OutOfRange):
        run(pause_s=-1.0)
    with pytest.raises(OutOfRange, match="-29"):
        run(replace(RIG, temp_c=Span.exactly(-30.0)))
