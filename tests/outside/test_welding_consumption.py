"""Deposit, charge and time against published deposition rates and worked values."""

import pytest

from kitlist.welding.repairs.heat_input import (
    arc_energy_kj,
    arc_energy_kj_per_mm,
    heat_input_kj_per_mm,
    short_arc_v,
)
from kitlist.welding.repairs.joints import fillet
from kitlist.welding.rods.consumption import burn, rods_needed

# Deposition rates from US filler-metal handbooks (from memory, to be verified): class, mm, A, kg/h.
RATES = """
E6010 3.2 100 0.95
E6010 4.0 140 1.27
E6011 3.2 120 1.04
E6011 4.0 150 1.68
E6013 4.0 140 1.18
E6013 4.0 160 1.36
E7018 3.2 120 1.17
E7018 4.0 140 1.41
E7018 4.0 170 1.72
E7024 3.2 140 1.91
E7024 4.0 180 2.31
"""


@pytest.mark.parametrize("line", RATES.strip().splitlines())
def test_deposition_rates_are_within_their_20_percent(line):
    name, diameter, current, kg_per_h = line.split()
    one = burn(name, diameter_mm=float(diameter), length_mm=350, current_a=float(current))
    assert one.rate_kg_per_h == pytest.approx(float(kg_per_h), rel=0.20)


# Worked per-rod values, 50 mm stub: class, mm, length, A, V, g, Ah, s, kg/h, kJ.
PER_ROD = """
E6013 1.6 250 35 20.5 2.9 0.34 35 0.30 25
E6013 2.0 300 50 21 5.7 0.67 48 0.42 50
E6013 2.5 300 75 21.5 8.9 1.04 50 0.64 81
E6013 2.5 350 75 21.5 10.6 1.25 60 0.64 97
E6013 3.2 350 110 22.5 17.4 2.05 67 0.94 166
E6013 4.0 350 150 24 27.2 3.20 77 1.27 277
E6013 4.0 450 150 24 36.3 4.27 102 1.27 369
E6013 5.0 450 190 25.5 56.7 6.67 126 1.61 613
E6011 2.5 300 65 24.5 8.5 0.94 52 0.58 83
E6011 3.2 350 100 26 16.7 1.85 67 0.90 173
E6011 4.0 350 135 27.5 26.0 2.89 77 1.22 286
E7018 2.5 350 85 21.5 12.5 1.29 55 0.82 100
E7018 3.2 350 125 22.5 20.5 2.11 61 1.21 171
E7018 4.0 350 165 24 32.0 3.29 72 1.60 285
E7018 4.0 450 165 24 42.6 4.39 96 1.60 380
E7024 3.2 350 160 27 29.4 2.26 51 2.08 220
"""


@pytest.mark.parametrize("line", PER_ROD.strip().splitlines())
def test_worked_values_for_one_rod(line):
    name, *numbers = line.split()
    diameter_mm, length_mm, current_a, voltage_v, deposit_g, charge_ah, burn_s, rate, energy_kj = map(float, numbers)
    one = burn(name, diameter_mm=diameter_mm, length_mm=length_mm, current_a=current_a)
    assert one.deposit_g.best == pytest.approx(deposit_g, rel=0.02)
    assert one.charge_ah.best == pytest.approx(charge_ah, rel=0.02)
    assert one.burn_s.best == pytest.approx(burn_s, rel=0.02)
    assert one.rate_kg_per_h == pytest.approx(rate, rel=0.02)
    assert arc_energy_kj(voltage_v=voltage_v, charge_ah=one.charge_ah.best) == pytest.approx(energy_kj, rel=0.02)


def test_a_metre_of_4_mm_fillet_takes_four_rods_and_eight_ampere_hours():
    """Worked value: E6013 3.2 x 350, 4.0 rods, 8.1 Ah, no rod spoiled."""
    one = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    need = rods_needed(fillet(leg_mm=4).each_g, one, spoiled_ratio=0)
    assert need.melted.best == pytest.approx(4.0, abs=0.05)
    assert need.charge_ah.best == pytest.approx(8.1, abs=0.1)


# Worked rods per metre at 10 % convexity: leg, E6013 2.5 x 300, E6013 3.2 x 350, E7018 3.2 x 350.
@pytest.mark.parametrize(
    ("leg_mm", "small", "middle", "basic"),
    [(3, 4.4, 2.2, 1.9), (4, 7.8, 4.0, 3.4), (5, 12.2, 6.2, 5.3), (6, 17.5, 8.9, 7.6)],
)
def test_worked_rods_per_metre(leg_mm, small, middle, basic):
    for name, diameter_mm, length_mm, rods in (
        ("E6013", 2.5, 300, small),
        ("E6013", 3.2, 350, middle),
        ("E7018", 3.2, 350, basic),
    ):
        one = burn(name, diameter_mm=diameter_mm, length_mm=length_mm, current_a=100)
        assert rods_needed(fillet(leg_mm=leg_mm).each_g, one).melted.best == pytest.approx(rods, rel=0.02)


def test_heat_input_by_en_1011_1():
    """Worked value: 23 V, 110 A, 2.5 mm/s is 1.012 kJ/mm of arc energy and 0.81 kJ/mm of heat input."""
    assert arc_energy_kj_per_mm(voltage_v=23, current_a=110, speed_mm_s=2.5) == pytest.approx(1.012)
    assert heat_input_kj_per_mm(voltage_v=23, current_a=110, speed_mm_s=2.5) == pytest.approx(0.81, abs=0.005)


def test_short_arcs_fall_where_an_army_manual_has_them():
    """TM 5-4210-230-14&P-1: low-hydrogen, 130 to 140 A, 21 to 23 V."""
    for current_a in (130, 140):
        assert 21 <= short_arc_v(current_a=current_a, arc_mm=3.2) <= 23
