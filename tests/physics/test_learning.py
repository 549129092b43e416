"""What own welds teach: the check value, that readings narrow and outliers do not pull, and an honest count of hits."""

from __future__ import annotations

import random
from math import exp

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.terms import Chemistry
from kitlist.physics.bank.learning import (
    HitRate,
    Learnable,
    OwnReading,
    ah_from_volts,
    hit_rate,
    learn_from,
    narrows_by,
    rod_ah_reading,
)

WELDS = [rod_ah_reading(used_ah=ah, rods=rods, capacity_ah=70) for ah, rods in ((9.1, 4), (14.0, 6), (18.9, 8))]


def test_three_welds_by_the_check_value():
    taught = learn_from(Learnable.ROD_AH, prior=2.05, readings=WELDS)
    assert taught.best == pytest.approx(2.245, abs=0.002)
    assert taught.next_weld.low == pytest.approx(1.91, abs=0.005)
    assert taught.next_weld.high == pytest.approx(2.64, abs=0.005)


def test_nothing_read_leaves_the_prior():
    assert learn_from(Learnable.ARC_V, prior=20.0, readings=()).best == 20.0


def test_every_reading_narrows():
    spreads = [learn_from(Learnable.ROD_AH, prior=2.05, readings=WELDS[:n]).sd for n in range(4)]
    assert spreads == sorted(spreads, reverse=True)
    assert len(set(spreads)) == 4


def test_one_wild_reading_in_four_is_set_aside_and_shown_but_never_one_in_three():
    good = [OwnReading(0.0250 * k, 0.124) for k in (0.98, 1.0, 1.02)]
    wild = OwnReading(0.060, 0.124, "stuck rod")
    taught = learn_from(Learnable.RESISTANCE_OHM, prior=0.025, readings=[*good, wild])
    assert taught.set_aside == (wild,)
    assert taught.best == pytest.approx(0.025, rel=0.01)
    pulled = learn_from(Learnable.RESISTANCE_OHM, prior=0.025, readings=[*good[:2], wild])
    assert pulled.set_aside == ()
    assert pulled.best > 0.026


def test_at_most_a_quarter_is_set_aside_the_worst_first():
    good = [OwnReading(2.0, 0.1)] * 6
    wild = [OwnReading(value, 0.1, str(value)) for value in (4.0, 5.0, 6.0)]
    taught = learn_from(Learnable.ROD_AH, prior=2.0, readings=[*good, *wild])
    assert [reading.name for reading in taught.set_aside] == ["6.0", "5.0"]


def test_a_reading_counts_as_a_hit_only_by_what_was_known_before_it():
    jumpy = [OwnReading(value, 0.1) for value in (2.05, 2.05, 3.2)]
    assert hit_rate(Learnable.ROD_AH, prior=2.05, readings=jumpy) == HitRate(2, 3)


def test_a_count_as_low_as_the_table_s_is_too_narrow():
    assert [HitRate(k, m).too_narrow for k, m in ((1, 5), (5, 10), (12, 20))] == [True, True, True]
    assert [HitRate(k, m).too_narrow for k, m in ((2, 5), (6, 10), (13, 20), (0, 4))] == [False] * 4


def test_the_band_of_the_next_weld_holds_four_in_five_of_sampled_crews():
    dice, inside = random.Random(4), 0
    for _ in range(1000):
        true = 2.05 * exp(dice.gauss(0, 0.142))
        reads = [OwnReading(true * exp(dice.gauss(0, 0.14)), 0.14) for _ in range(4)]
        band = learn_from(Learnable.ROD_AH, prior=2.05, readings=reads).next_weld
        inside += band.low <= true * exp(dice.gauss(0, 0.10)) <= band.high
    assert 0.75 <= inside / 1000 <= 0.90


def test_what_was_never_measured_narrows_most():
    assert narrows_by(Learnable.RESISTANCE_OHM, readings=()) > narrows_by(
        Learnable.RESISTANCE_OHM, readings=[OwnReading(0.025, 0.124)]
    )


@pytest.mark.parametrize(
    "call",
    [
        lambda: rod_ah_reading(used_ah=0.0, rods=3, capacity_ah=70),
        lambda: rod_ah_reading(used_ah=9.0, rods=0, capacity_ah=70),
        lambda: rod_ah_reading(used_ah=90.0, rods=9, capacity_ah=70),
        lambda: learn_from(Learnable.ROD_AH, prior=0.0, readings=()),
        lambda: learn_from(Learnable.ROD_AH, prior=2.0, readings=[OwnReading(-1.0, 0.1)]),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises((BadData, OutOfRange)):
        call()


def test_ampere_hours_from_volts_by_the_table_and_never_more_than_full():
    flooded = [(Chemistry.FLOODED, 70.0)] * 3
    assert ah_from_volts(before_v=37.95, after_v=37.35, bank=flooded) == pytest.approx(17.5)
    assert ah_from_volts(before_v=38.6, after_v=37.35, bank=flooded) == pytest.approx(17.5)
    assert ah_from_volts(before_v=37.35, after_v=36.72, bank=flooded) == pytest.approx(17.5)
    with pytest.raises(BadData, match="charged between"):
        ah_from_volts(before_v=37.0, after_v=37.5, bank=flooded)
    with pytest.raises(OutOfRange, match="flat"):
        ah_from_volts(before_v=37.0, after_v=34.0, bank=flooded)
