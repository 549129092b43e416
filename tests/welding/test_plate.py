"""Rod diameter by plate."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Joint, Position
from kitlist.welding.repairs.plate import Size, fit_diameter, single_pass_leg_mm


@pytest.mark.parametrize(
    ("rod_mm", "thickness_mm", "size"),
    [
        (2.0, 1.9, Size.STEEL_TOO_THIN),
        (2.0, 2.0, Size.RIGHT),
        (2.5, 2.0, Size.STRETCH),
        (3.2, 2.5, Size.TOO_THICK),
        (2.5, 3.0, Size.RIGHT),
        (3.2, 3.0, Size.STRETCH),
        (3.2, 3.2, Size.RIGHT),
        (3.2, 5.0, Size.RIGHT),
        (2.5, 5.0, Size.RIGHT),
        (2.5, 5.1, Size.TOO_THIN),
        (3.2, 8.0, Size.RIGHT),
        (4.0, 8.0, Size.RIGHT),
        (4.0, 7.9, Size.STRETCH),
        (4.0, 4.9, Size.TOO_THICK),
        (5.0, 6.0, Size.TOO_THICK),
        (5.0, 10.0, Size.STRETCH),
        (3.2, 10.0, Size.TOO_THIN),
    ],
)
def test_the_table_of_rod_by_plate_at_its_borders(rod_mm, thickness_mm, size):
    assert fit_diameter(rod_mm=rod_mm, thickness_mm=thickness_mm).size is size


def test_a_big_rod_is_no_stretch_upright():
    assert fit_diameter(rod_mm=4.0, thickness_mm=6.0, position=Position.VERTICAL).size is Size.TOO_THICK


def test_the_root_of_a_v_takes_a_small_rod_in_thick_plate():
    assert fit_diameter(rod_mm=2.5, thickness_mm=8.0, joint=Joint.SINGLE_V).size is Size.RIGHT
    assert fit_diameter(rod_mm=2.5, thickness_mm=8.0, joint=Joint.FILLET).size is Size.TOO_THIN


def test_the_reason_names_rod_plate_and_what_is_usual():
    why = fit_diameter(rod_mm=4.0, thickness_mm=3.5).why
    assert "4 mm" in why
    assert "3.5 mm" in why
    assert "2.5 to 3.2 mm" in why


@pytest.mark.parametrize("thickness_mm", [0.9, 25.1])
def test_plate_outside_the_table_is_refused_with_its_range(thickness_mm):
    with pytest.raises(OutOfRange, match="1 to 25 mm"):
        fit_diameter(rod_mm=3.2, thickness_mm=thickness_mm)


def test_no_rod_thicker_than_its_plate_is_ever_right():
    for rod_mm in (2.0, 2.5, 3.2, 4.0, 5.0):
        for tenths in range(20, 250):
            fit = fit_diameter(rod_mm=rod_mm, thickness_mm=tenths / 10)
            assert fit.size is not Size.RIGHT or rod_mm <= tenths / 10, (rod_mm, tenths)


def test_single_pass_legs():
    assert single_pass_leg_mm(2.5) == (3, 4)
    assert single_pass_leg_mm(4.0) == (5, 6)
    with pytest.raises(OutOfRange, match="2 to 4 mm"):
        single_pass_leg_mm(5.0)
