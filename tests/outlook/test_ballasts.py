"""The ballast strip of a bank: its resistance follows the current, its cold strike counts for people, advice is fit."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from kitlist.base.terms import BallastMetal
from kitlist.kit import Ballast, Bead
from kitlist.outlook.ballasts import ballast_outlook, packed_ballast, strips_for
from kitlist.outlook.bank import learned_from
from kitlist.outlook.linkable import Bar
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
