"""Arc energy, heat input and arc volts at their borders."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Covering
from kitlist.welding.repairs.heat_input import (
    arc_energy_kj_per_mm,
    heat_input_kj_per_mm,
    heat_input_of_rod_kj_per_mm,
    short_arc_v,
)


def test_heat_by_rod_and_by_speed_agree():
    """A rod of 2.05 Ah at 110 A burns 67.1 s; over 150 mm that is 2.236 mm/s."""
    by_rod = heat_input_of_rod_kj_per_mm(voltage_v=22.5, charge_ah=2.05, run_out_mm=150)
    seconds = 2.05 * 3600 / 110
    by_speed = heat_input_kj_per_mm(voltage_v=22.5, current_a=110, speed_mm_s=150 / seconds)
    assert by_rod == pytest.approx(by_speed)
    assert by_rod == pytest.approx(0.886, abs=0.001)


def test_a_cellulosic_arc_is_three_to_four_volts_longer():
    rutile = short_arc_v(current_a=100, arc_mm=3.2)
    cellulosic = short_arc_v(current_a=100, arc_mm=3.2, covering=Covering.CELLULOSIC)
    assert 3 <= cellulosic - rutile <= 4
    assert 25 <= cellulosic <= 28


@pytest.mark.parametrize(
    "call",
    [
        lambda: arc_energy_kj_per_mm(voltage_v=22, current_a=100, speed_mm_s=0),
        lambda: arc_energy_kj_per_mm(voltage_v=22, current_a=100, speed_mm_s=31),
        lambda: heat_input_of_rod_kj_per_mm(voltage_v=22, charge_ah=2, run_out_mm=5),
        lambda: short_arc_v(current_a=10, arc_mm=3),
        lambda: short_arc_v(current_a=100, arc_mm=9),
    ],
)
def test_outside_their_range_they_are_refused(call):
    with pytest.raises(OutOfRange):
        call()
