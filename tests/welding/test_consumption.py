"""Rods, charge and time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitlist.base.errors import OutOfRange
from kitlist.welding.designation.a5_1 import classes
from kitlist.welding.rods.consumption import burn, rods_needed


def test_every_class_has_a_deposit_and_a_charge():
    for name in (*classes(), "stainless"):
        one = burn(name, diameter_mm=3.2, length_mm=350, current_a=110)
        assert 10 < one.deposit_g.low < one.deposit_g.high < 40
        assert 1.2 < one.charge_ah.best < 3.0
        assert one.source


def test_charge_hardly_depends_on_current_but_time_does():
    slow = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=80)
    fast = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=160)
    assert slow.charge_ah == fast.charge_ah
    assert slow.burn_s.best == pytest.approx(2 * fast.burn_s.best)


def test_the_spread_is_ten_percent_on_mass_and_twenty_on_charge():
    one = burn("E7018", diameter_mm=3.2, length_mm=350, current_a=125)
    assert one.deposit_g.low / one.deposit_g.best == pytest.approx(0.9)
    assert one.charge_ah.high / one.charge_ah.best == pytest.approx(1.2)


def test_a_class_known_less_well_has_a_wider_spread():
    one = burn("E6027", diameter_mm=4.0, length_mm=450, current_a=200)
    assert one.charge_ah.high / one.charge_ah.best > 1.2


def test_a_longer_stub_leaves_less():
    usual = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    long_stub = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110, stub_mm=75)
    assert long_stub.deposit_g.best / usual.deposit_g.best == pytest.approx(275 / 300)


def test_spoiled_rods_are_packed_and_paid_for():
    one = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    clean = rods_needed(100, one, spoiled_ratio=0)
    spoiled = rods_needed(100, one, spoiled_ratio=0.10)
    assert spoiled.charge_ah.best == pytest.approx(clean.charge_ah.best / 0.9)
    assert spoiled.to_pack >= clean.to_pack
    assert clean.to_pack == 7  # 100 g at 15.6 g, the worse mass, is 6.4 rods
    assert spoiled.to_pack == 8


@given(st.floats(min_value=1, max_value=2000), st.floats(min_value=0, max_value=0.5))
def test_the_rods_to_pack_always_cover_the_weld_at_the_worse_mass(weld_g, spoiled):
    one = burn("E6011", diameter_mm=2.5, length_mm=300, current_a=65)
    need = rods_needed(weld_g, one, spoiled_ratio=spoiled)
    assert need.to_pack * (1 - spoiled) * one.deposit_g.low >= weld_g * (1 - 1e-6)
    assert need.melted.low <= need.melted.best <= need.melted.high


@pytest.mark.parametrize(
    "wrong",
    [
        {"diameter_mm": 0.9},
        {"diameter_mm": 9},
        {"length_mm": 100},
        {"length_mm": 800},
        {"current_a": 5},
        {"current_a": 700},
        {"stub_mm": 350},
        {"stub_mm": -1},
    ],
)
def test_figures_outside_what_is_covered_are_refused(wrong):
    usual = {"diameter_mm": 3.2, "length_mm": 350, "current_a": 110}
    with pytest.raises(OutOfRange):
        burn("E6013", **(usual | wrong))


def test_a_designation_without_a_class_near_is_refused():
    with pytest.raises(OutOfRange, match="not known"):
        burn(None, diameter_mm=3.2, length_mm=350, current_a=110)


def test_nothing_to_weld_and_nonsense_shares_are_refused():
    one = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    with pytest.raises(OutOfRange):
        rods_needed(0, one)
    with pytest.raises(OutOfRange):
        rods_needed(10, one, spoiled_ratio=1)
