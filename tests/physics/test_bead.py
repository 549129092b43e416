"""A practice bead: what it says by hand arithmetic, and the nonsense it refuses."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.errors import KitlistError, OutOfRange
from kitlist.physics.arc.arc import Arc
from kitlist.physics.arc.bead import BeadReadings, learn, work_out
from kitlist.physics.bank.band import current_band
from kitlist.physics.bank.examples import in_series

GOOD = BeadReadings(rest_v=37.9, bank_v=33.0, current_a=150.0, in_series=3, holder_v=31.5)


def wide(band):
    return band.high_a - band.low_a


def test_by_hand():
    # (37.9 - 1.2 - 33.0)/150 = 24.67 mohm; (33.0 - 31.5)/150 = 10 mohm; 31.5 - 6.0 - 54.5/150 = 25.137 V
    seen = work_out(GOOD)
    assert seen.source_ohm == pytest.approx(0.024667, abs=1e-6)
    assert seen.external_ohm == pytest.approx(0.010)
    assert seen.arc_level_v == pytest.approx(25.1367, abs=1e-3)


def test_the_plain_secant_overstates_the_resistance_by_about_a_quarter():
    secant = (GOOD.rest_v - GOOD.bank_v) / GOOD.current_a
    assert 1.15 < secant / work_out(GOOD).source_ohm < 1.40


def test_without_the_holder_only_the_source_is_told():
    seen = work_out(replace(GOOD, holder_v=None))
    assert seen.external_ohm is None
    assert seen.arc_level_v is None


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"bank_v": 38.0}, "rose"),
        ({"bank_v": 37.9}, "rose"),
        ({"bank_v": 36.9}, "too small"),
        ({"current_a": 5.0}, "amps|A is outside"),
        ({"current_a": 900.0}, "A is outside"),
        ({"in_series": 2}, "do not fit"),
        ({"in_series": 5}, "batteries in series"),
        ({"rest_v": 12.6}, "do not fit"),
        ({"bank_v": 20.0}, "stuck"),
        ({"holder_v": 33.5}, "more volts at the holder"),
        ({"holder_v": 3.0}, "no arc"),
        ({"current_a": 21.0, "bank_v": 22.0, "holder_v": 21.0}, "wrong reading"),
        ({"current_a": 20.0, "bank_v": 36.0, "holder_v": 22.0}, "leads"),
    ],
)
def test_nonsense_is_refused_with_its_reason(changes, word):
    for call in (work_out, learn):
        with pytest.raises(KitlistError, match=word):
            call(replace(GOOD, **changes))


def test_a_bead_halves_the_band_of_the_same_rig_and_lands_on_its_current():
    rig = in_series(3)
    before = current_band(rig)
    bead = BeadReadings(rest_v=37.7, bank_v=31.9, holder_v=30.0, current_a=190.0, in_series=3)
    after = current_band(rig, learned=learn(bead))
    assert wide(after) < 0.5 * wide(before)
    assert after.low_a < 190.0 < after.high_a


def test_without_the_holder_it_still_narrows():
    bead = BeadReadings(rest_v=37.7, bank_v=31.9, current_a=190.0, in_series=3)
    assert wide(current_band(in_series(3), learned=learn(bead))) < 0.6 * wide(current_band(in_series(3)))


def test_other_leads_keep_the_batteries():
    known = learn(GOOD)
    assert known.with_other_leads().lead_drop_v is None
    assert known.with_other_leads().drop_v is not None
    assert learn(replace(GOOD, holder_v=None)).with_other_leads().arc_v is None


def test_a_colder_bank_than_at_the_bead_gives_less_current():
    known = learn(BeadReadings(rest_v=37.7, bank_v=31.9, holder_v=30.0, current_a=190.0, in_series=3))
    rig = in_series(3)
    assert (
        current_band(rig, learned=replace(known, scale_ratio=1.3)).middle_a < current_band(rig, learned=known).middle_a
    )


def test_what_is_learned_carries_the_accuracy_of_the_meters():
    known = learn(GOOD, meter_ratio=0.01, clamp_ratio=0.02)
    assert (known.current_a.low, known.current_a.high) == pytest.approx((147.0, 153.0))
    assert (known.drop_v.low, known.drop_v.high) == pytest.approx((4.9 - 0.109, 4.9 + 0.109))  # 1 % and 3 x 0.02 V
    assert (known.lead_drop_v.low, known.lead_drop_v.high) == pytest.approx((1.5 - 0.035, 1.5 + 0.035))
    assert (known.arc_v.low, known.arc_v.high) == pytest.approx((31.185, 31.815))


@pytest.mark.parametrize(("bank_v", "taken"), [(31.4, True), (31.2, False)])
def test_over_60_mohm_a_battery_is_a_wrong_reading(bank_v, taken):
    # 30 A on three: (37.9 - 1.2 - 31.3)/30/3 = 60 mohm.
    bead = BeadReadings(rest_v=37.9, bank_v=bank_v, current_a=30.0, in_series=3)
    if taken:
        assert work_out(bead).source_ohm / 3 == pytest.approx(0.0589, abs=1e-4)
    else:
        with pytest.raises(OutOfRange, match="wrong reading"):
            work_out(bead)


def test_a_bead_on_two_parallel_strings_tells_twice_the_resistance_a_battery():
    rig = in_series(3)
    one = learn(BeadReadings(rest_v=37.7, bank_v=34.0, holder_v=31.0, current_a=190.0, in_series=3))
    two = learn(BeadReadings(rest_v=37.7, bank_v=34.0, holder_v=31.0, current_a=190.0, in_series=3, in_parallel=2))
    twice = replace(rig, groups=(rig.groups[0], tuple(replace(b, name=b.name + " too") for b in rig.groups[0])))
    assert current_band(twice, learned=two).middle_a == pytest.approx(current_band(rig, learned=one).middle_a, rel=0.01)
    with pytest.raises(OutOfRange):
        learn(replace(GOOD, in_parallel=0))


def test_the_arc_of_the_rod_that_was_burnt_counts():
    # 31.5 - 0.03 x 150 - 90/150
    arc = Arc(rise_ohm=0.03, c_w=90.0, d_w_per_mm=0.0)
    assert work_out(GOOD, arc=arc).arc_level_v == pytest.approx(26.4)


@pytest.mark.parametrize(("bank_v", "taken"), [(21.0, True), (20.9, False)])
def test_seven_volts_a_battery_are_a_bead_and_less_is_a_stuck_rod(bank_v, taken):
    bead = replace(GOOD, bank_v=bank_v, holder_v=None)
    if taken:
        assert work_out(bead).source_ohm == pytest.approx((37.9 - 1.2 - 21.0) / 150)
    else:
        with pytest.raises(OutOfRange, match="stuck"):
            work_out(bead)


@pytest.mark.parametrize(
    ("holder_v", "refused"), [(33.01, ""), (32.99, ""), (33.03, "more volts"), (12.0, ""), (11.9, "no arc")]
)
def test_volts_at_the_holder_may_stand_two_hundredths_over_the_bank_s_and_from_12_up(holder_v, refused):
    bead = replace(GOOD, holder_v=holder_v)
    if refused:
        with pytest.raises(KitlistError, match=refused):
            work_out(bead)
    else:
        assert work_out(bead).external_ohm == pytest.approx((33.0 - holder_v) / 150)


def test_an_arc_that_was_read_at_the_holder_holds_with_other_leads():
    known = learn(GOOD)
    assert known.with_other_leads().arc_v == known.arc_v
