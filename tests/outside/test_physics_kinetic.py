"""The closed step of the kinetic battery model against its own differential equations, integrated here.

Equations of Manwell and McGowan (Solar Energy 50, 1993): two wells q1, q2 of widths c and 1 - c; heads h1 = q1/c,
h2 = q2/(1 - c); dq1/dt = -I + k (h2 - h1), dq2/dt = -k (h2 - h1), k = k' c (1 - c). Fourth-order Runge-Kutta.
"""

from __future__ import annotations

import pytest

from kitlist.physics.battery.capacity import Wells, draw


def integrated(q1, q2, amps, hours, c, rate, steps=4000):
    k = rate * c * (1 - c)

    def slope(a, b):
        flow = k * (b / (1 - c) - a / c)
        return -amps + flow, -flow

    h = hours / steps
    for _ in range(steps):
        a1, b1 = slope(q1, q2)
        a2, b2 = slope(q1 + h / 2 * a1, q2 + h / 2 * b1)
        a3, b3 = slope(q1 + h / 2 * a2, q2 + h / 2 * b2)
        a4, b4 = slope(q1 + h * a3, q2 + h * b3)
        q1 += h / 6 * (a1 + 2 * a2 + 2 * a3 + a4)
        q2 += h / 6 * (b1 + 2 * b2 + 2 * b3 + b4)
    return q1, q2


@pytest.mark.parametrize(("c", "rate"), [(0.18, 5.0), (0.30, 7.0), (0.45, 8.0)])
@pytest.mark.parametrize("profile", [[(150.0, 0.01), (0.0, 0.033)] * 4, [(80.0, 0.2)], [(200.0, 0.02), (-10.0, 0.5)]])
def test_the_closed_step_agrees_with_runge_kutta(c, rate, profile):
    wells, (q1, q2) = Wells(70.0), (c * 70.0, (1 - c) * 70.0)
    for amps, hours in profile:
        wells = draw(wells, current_a=amps, hours=hours, share_ratio=c, rate_per_h=rate)
        q1, q2 = integrated(q1, q2, amps, hours, c, rate)
        assert wells.at_hand_ah(c) == pytest.approx(q1, rel=1e-9)
        assert wells.total_ah - wells.at_hand_ah(c) == pytest.approx(q2, rel=1e-9)
