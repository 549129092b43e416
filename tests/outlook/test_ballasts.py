"""The ballast strip of a bank: its resistance follows the current, its cold strike counts for people, advice is fit."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from kitlist.base.errors import BadData
from kitlist.base.terms import BallastMetal
from kitlist.kit import Ballast, Bead
from kitlist.outlook.ballasts import ballast_outlook, cold_rig, packed_ballast, strips_for, with_strip
from kitlist.outlook.bank import learned_from
from kitlist.outlook.linkable import Bar
from kitlist.physics.arc.arc import Arc
from kitlist.physics.bank.network import feed
from kitlist.physics.leads.ballast import Strip, heat_of_strip, length_for
from kitlist.readiness import assess
from kitlist.rules.four_without_ballast import with_four

STRIP = Ballast(name="strip", metal=BallastMetal.STAINLESS, width_mm=30, thickness_mm=1, length_m=2.5)


def bank(example):
    return assess(example.kit, example.trip, on=example.on).outlook


def test_a_strip_of_the_check_table_has_its_74_mohm_when_hot():
    strip = ballast_outlook(STRIP, current_a=150)
    assert strip.hot_ohm == pytest.approx(0.074, rel=0.005)
    assert strip.cold_ohm == pytest.approx(0.074 * 0.82, rel=0.01)
    assert strip.fit_for_use
    assert strip.heat_w == pytest.approx(150**2 * 0.074, rel=0.01)


def test_a_measured_strip_of_known_section_warms_and_one_of_unknown_section_cannot_be_told():
    measured = ballast_outlook(replace(STRIP, measured_mohm=60), current_a=150)
    assert (measured.cold_ohm, measured.hot_ohm) == (0.06, pytest.approx(0.06 / 0.82, rel=0.01))
    bare = ballast_outlook(Ballast(name="wire", measured_mohm=60), current_a=150)
    assert (bare.hot_ohm, bare.heat, bare.fit_for_use) == (0.06, None, None)


def test_strip_and_current_settle_together_and_less_flows_than_without():
    hot, without = bank(with_four("strip")).bank, bank(with_four(None)).bank
    assert hot.ballast is not None
    again = ballast_outlook(hot.ballast.ballast, current_a=hot.ballast.current_a)
    assert hot.rig.leads.ballast_ohm == pytest.approx(again.hot_ohm, rel=1e-3)
    assert hot.band(None).high_a < without.band(None).low_a


def test_shade_and_a_stuck_rod_are_judged_by_the_cold_strip():
    outlook = bank(with_four("strip"))
    (rod,) = outlook.rods
    assert rod.struck.high_a > rod.band.high_a
    assert outlook.highest_a == rod.struck.high_a
    ohm = outlook.bank.ballast
    assert outlook.bank.stuck_a * (ohm.hot_ohm - ohm.cold_ohm) > 0
    warm = replace(outlook.bank, ballast=None).stuck_a
    assert outlook.bank.stuck_a > warm


def test_more_ballast_is_never_hotter():
    last = None
    for metres in (3.0, 5.0, 8.0, 12.0):
        example = with_four("strip")
        strips = tuple(replace(b, length_m=metres) for b in example.kit.ballasts)
        (rod,) = bank(replace(example, kit=replace(example.kit, ballasts=strips))).rods
        assert last is None or all(now < then for now, then in zip(_three(rod.band), last, strict=True))
        last = _three(rod.band)


def _three(band):
    return band.low_a, band.middle_a, band.high_a


def test_four_need_a_strip_that_is_named_and_packed():
    def lacks(example):
        return Bar.BALLAST in {found.bar for found in bank(example).bank.bars}

    assert [lacks(with_four(None)), lacks(with_four("strip", count=0)), lacks(with_four("strip"))] == [
        True,
        True,
        False,
    ]
    assert packed_ballast(with_four("strip").kit, with_four("strip").trip).name == "strip"


def test_advice_names_only_strips_that_bear_it_the_shortest_first():
    strips = tuple(strips_for(ohm=0.074, current_a=150))
    assert [round(s.length_m, 1) for s in strips] == sorted(round(s.length_m, 1) for s in strips)
    assert all(s.heat.fit_for_use for s in strips)
    assert strips[0].words.startswith("2.5 m of stainless strip 30 x 1 mm, bare, on edge: 74 mΩ hot, 335 °C")
    assert not any(s.strip.width_mm == 25 for s in strips)
    assert list(strips_for(ohm=0.05, current_a=600)) == []


def test_a_bead_welded_with_a_strip_teaches_nothing_about_the_leads():
    bead = Bead(name="b", welded_on=date(2027, 3, 1), bank=("a", "b", "c"), rest_v=37.9, bank_v=33, current_a=150)
    bead = replace(bead, holder_v=26.0)
    assert learned_from(bead).lead_drop_v is not None
    with_strip = learned_from(replace(bead, ballast="strip"))
    assert with_strip.lead_drop_v is None
    assert with_strip.drop_v == learned_from(bead).drop_v
    assert with_strip.arc_v == learned_from(bead).arc_v
    assert learned_from(replace(bead, ballast="strip", holder_v=None)).arc_v is None


def test_a_strip_s_resistance_is_by_its_section_and_length_cold_at_30_degrees_or_as_it_was_measured():
    section = Strip(BallastMetal.STAINLESS, 30, 1)
    cold = section.ohm_per_m(temp_c=30.0) * 2.5
    for amps in (0.0, 0.9):
        idle = ballast_outlook(STRIP, current_a=amps)
        assert (idle.cold_ohm, idle.hot_ohm, idle.heat, idle.melts) == (pytest.approx(cold), idle.cold_ohm, None, False)
    for amps in (1.0, 1.5):
        assert ballast_outlook(STRIP, current_a=amps).heat == heat_of_strip(section, current_a=amps)
    for nothing in ({"length_m": None}, {"metal": None}, {"width_mm": None}, {"thickness_mm": None}):
        with pytest.raises(BadData, match="is known"):
            ballast_outlook(replace(STRIP, **nothing), current_a=100)
        bare = ballast_outlook(replace(STRIP, measured_mohm=50, **nothing), current_a=100)
        assert bare.cold_ohm == 0.05
        assert (bare.heat is None) is (nothing != {"length_m": None})


def test_a_strip_that_burns_through_is_not_fit_and_has_no_hot_resistance():
    thin = ballast_outlook(replace(STRIP, width_mm=10, thickness_mm=0.5), current_a=300)
    assert (thin.melts, thin.fit_for_use, thin.hot_ohm) == (True, False, thin.cold_ohm)
    assert thin.words == "strip: burns through at 300 A"


def test_a_strip_s_words_say_what_it_has_and_how_hot_it_gets_in_rods_and_held_on():
    strip = ballast_outlook(STRIP, current_a=150)
    assert strip.words.startswith(f"strip: 74 mΩ at 150 A when hot, {strip.cold_ohm * 1000:.0f} cold; ")
    assert f"{strip.heat.peak_c:.0f} °C in the third rod" in strip.words
    assert strip.words.endswith(f"{strip.heat.held_c:.0f} °C with the arc held on")
    hotter = ballast_outlook(STRIP, current_a=372)
    assert (hotter.heat.held_c, hotter.melts) == (None, False)
    assert hotter.words.endswith("burns through with the arc held on")
    bare = ballast_outlook(Ballast(name="wire", measured_mohm=60), current_a=150)
    assert bare.words == "wire: 60 mΩ at 150 A, 1.4 kW; how hot it gets is not known"


def test_a_strip_has_the_resistance_of_the_current_that_then_flows_through_it():
    seen = bank(with_four("strip")).bank
    flows_a = feed(seen.rig.network(), Arc()).point.current_a
    assert seen.ballast.current_a == pytest.approx(flows_a, abs=1.0)
    assert seen.rig.leads.ballast_ohm == seen.ballast.hot_ohm > seen.ballast.cold_ohm * 1.05
    cold = with_strip(cold_rig(seen.rig, seen.ballast), seen.ballast.ballast)
    assert cold[1].current_a == pytest.approx(seen.ballast.current_a)  # wherever it begins
    thin = replace(seen.ballast.ballast, width_mm=5, thickness_mm=0.3, length_m=0.2, measured_mohm=None)
    assert with_strip(seen.rig, thin)[1].melts


def test_advice_has_the_length_for_its_ohms_at_the_current_and_says_where_a_strip_burns_through():
    for strip in strips_for(ohm=0.06, current_a=120):
        assert strip.length_m == pytest.approx(length_for(ohm=0.06, heat=strip.heat))
        assert strip.heat == heat_of_strip(strip.strip, current_a=120)
        metal = "stainless" if strip.strip.metal is BallastMetal.STAINLESS else "mild steel"
        assert f"m of {metal} strip" in strip.words
        assert "60 mΩ hot" in strip.words
        held = "burns through" if strip.heat.held_c is None else f"{strip.heat.held_c:.0f} °C"
        assert f", {held} with the arc held on" in strip.words
    kinds = {strip.strip.metal for strip in strips_for(ohm=0.06, current_a=90)}
    assert kinds == set(BallastMetal)
