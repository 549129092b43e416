"""Weld metal and passes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitlist.base.errors import OutOfRange
from kitlist.welding.repairs.joints import fillet, lap, passes, plug, single_v, square_butt, usual_leg_mm


def test_a_fillet_is_the_same_by_leg_and_by_throat():
    by_leg = fillet(leg_mm=6)
    by_throat = fillet(throat_mm=6 / math.sqrt(2))
    assert by_throat.section_mm2 == pytest.approx(by_leg.section_mm2)
    assert by_leg.section_mm2 == pytest.approx(19.8)  # 18 mm2 and 10 %


def test_a_fillet_takes_a_leg_or_a_throat_and_not_both():
    with pytest.raises(OutOfRange):
        fillet()
    with pytest.raises(OutOfRange):
        fillet(leg_mm=5, throat_mm=3.5)


def test_a_v_by_hand():
    """8 mm, 60 degrees, 2 mm gap, 2 mm root face: 16 + 36 tan 30 = 36.78, cap 2/3 (2 + 6.93 + 2) = 7.29."""
    assert single_v(thickness_mm=8, gap_mm=2, root_face_mm=2).section_mm2 == pytest.approx(36.785 + 7.285, abs=0.01)


def test_a_square_butt_by_hand():
    """3 mm, 1.5 mm gap: 4.5 mm2 and a cap of 2/3 (1.5 + 2) 1 = 2.33 on each welded side."""
    assert square_butt(thickness_mm=3, gap_mm=1.5).section_mm2 == pytest.approx(6.833, abs=0.001)
    assert square_butt(thickness_mm=3, gap_mm=1.5, sides=2).section_mm2 == pytest.approx(9.167, abs=0.001)


def test_a_plug_by_hand():
    """12 mm hole through 4 mm: 452 mm3 of steel is 3.55 g, and 10 % crown."""
    metal = plug(hole_mm=12, thickness_mm=4)
    assert metal.each_g == pytest.approx(3.906, abs=0.002)
    assert metal.mass_g(count=4) == pytest.approx(4 * 3.906, abs=0.01)


def test_mass_goes_with_length_and_count():
    metal = fillet(leg_mm=5, convexity_ratio=0)
    assert metal.mass_g(length_mm=160) == pytest.approx(15.7, abs=0.01)
    assert metal.mass_g(length_mm=160, count=2) == pytest.approx(31.4, abs=0.02)


@pytest.mark.parametrize(
    ("leg_mm", "rod_mm", "count"),
    [(5, 3.2, 1), (5.1, 3.2, 2), (4, 2.5, 1), (8, 2.5, 4), (8, 3.2, 3), (3, 2.0, 1), (6, 4.0, 1)],
)
def test_passes_by_what_one_pass_lays(leg_mm, rod_mm, count):
    assert passes(fillet(leg_mm=leg_mm), rod_mm=rod_mm) == count


def test_a_lap_welded_on_both_edges_takes_twice_the_passes():
    assert passes(lap(thickness_mm=4, sides=2), rod_mm=3.2) == 2 * passes(lap(thickness_mm=4), rod_mm=3.2)


@given(st.floats(min_value=3, max_value=24.9), st.floats(min_value=40, max_value=90))
def test_thicker_plate_and_wider_v_take_more(thickness_mm, angle_deg):
    here = single_v(thickness_mm=thickness_mm, angle_deg=angle_deg).section_mm2
    assert single_v(thickness_mm=thickness_mm + 0.1, angle_deg=angle_deg).section_mm2 > here
    if angle_deg < 89:
        assert single_v(thickness_mm=thickness_mm, angle_deg=angle_deg + 1).section_mm2 > here


@pytest.mark.parametrize(
    "call",
    [
        lambda: fillet(leg_mm=0.5),
        lambda: fillet(leg_mm=26),
        lambda: lap(thickness_mm=4, sides=3),
        lambda: square_butt(thickness_mm=9),
        lambda: square_butt(thickness_mm=3, gap_mm=7),
        lambda: square_butt(thickness_mm=3, sides=0),
        lambda: single_v(thickness_mm=2),
        lambda: single_v(thickness_mm=6, angle_deg=100),
        lambda: single_v(thickness_mm=6, root_face_mm=6),
        lambda: plug(hole_mm=5, thickness_mm=4),
        lambda: usual_leg_mm(30),
    ],
)
def test_joints_outside_what_is_covered_are_refused(call):
    with pytest.raises(OutOfRange):
        call()
