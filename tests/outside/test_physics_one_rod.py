"""One rod, second by second: the model's equations integrated here in small steps, against the rod-by-rod reckoning.

Equations of the page: v = ocv(soc) - va - x - I r0, dx/dt = (I R1 - x)/tau, R1 = 0.35 r0, tau = 120 s, soc by plain
ampere-hours; arc u = Uf + gL L + m I + (C + D L)/I. Three equal batteries; Euler steps of a hundredth of a second.
"""

from __future__ import annotations

import math

import pytest

from kitlist.base.span import Span
from kitlist.physics.bank.endurance import RodUse, burn_rods
from kitlist.physics.bank.examples import in_series

STEP_S = 0.01
FLOODED = [(0.0, 11.89), (0.25, 12.06), (0.5, 12.24), (0.75, 12.45), (1.0, 12.65)]


def flooded_volts(soc):
    place = min(int(soc * 4), 3)
    return FLOODED[place][1] + (FLOODED[place + 1][1] - FLOODED[place][1]) * (soc - place * 0.25) * 4


def integrated(rods, pause_s, rod_ah=2.05, capacity_ah=70.0, cca_a=680.0, soc=0.875, temp_c=15.0):
    """(start A, end A, seconds, least volts of a battery) of each rod."""
    slow_v, found = 0.0, []
    conductor_ohm = 5.0 * 0.780e-3 * (1 + 0.00393 * (45.0 - 20.0)) / 0.875
    joint_ohm, end_ohm = 2 * 0.95e-3, 2.05e-3
    for _ in range(rods):
        burned_ah, seconds, start, least_v = 0.0, 0.0, 0.0, 99.0
        while burned_ah < rod_ah:
            cold = math.exp(-0.011 * (temp_c - 25.0))
            r0 = 3.2 / cca_a * 1.3 * cold * (1 + 0.6 * (1 - soc))
            ocv_v = flooded_volts(soc) + 0.05 + 0.00125 * (temp_c - 25.0)
            spare = 3 * (ocv_v - 0.40 - slow_v) - 17.0 - 3.0
            loop = 3 * (r0 + joint_ohm) + conductor_ohm + end_ohm + 0.040
            amps = (spare + math.sqrt(spare**2 - 4 * loop * (9.44 + 15.02 * 3.0))) / (2 * loop)
            start = start or amps
            least_v = min(least_v, ocv_v - 0.40 - slow_v - amps * r0)
            slow_v += STEP_S * (amps * 0.35 * r0 - slow_v) / 120.0
            soc -= amps * STEP_S / 3600 / capacity_ah
            burned_ah += amps * STEP_S / 3600
            seconds += STEP_S
        slow_v *= math.exp(-pause_s / 120.0)
        found.append((start, amps, seconds, least_v))
    return found


@pytest.mark.parametrize("pause_s", [0.0, 120.0])
def test_currents_times_and_least_volts_of_three_rods(pause_s):
    rig = in_series(3)
    run = burn_rods(
        rig,
        RodUse(charge_ah=Span.exactly(2.05), count=3),
        reserves={battery.name: 0.5 for battery in rig.batteries},
        pause_s=pause_s,
    )
    for burn, (start_a, end_a, seconds, least_v) in zip(run.burns, integrated(3, pause_s), strict=True):
        assert burn.start_a == pytest.approx(start_a, rel=0.003)
        assert burn.end_a == pytest.approx(end_a, rel=0.003)
        assert burn.burn_s == pytest.approx(seconds, rel=0.01)
        assert min(state.least_v for state in burn.batteries) == pytest.approx(least_v, abs=0.03)
