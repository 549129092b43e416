"""A "true" rig drawn at random, computed by its own scalar arithmetic: what a crew would really find at the arc.

Independent of `kitlist.physics.bank.band`: plain random numbers, one rig at a time.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass
from itertools import pairwise

RESISTANCE_AT_20C = {16: 1.21e-3, 25: 0.780e-3, 35: 0.554e-3}
FLOODED = [(0.0, 11.89), (0.25, 12.06), (0.5, 12.24), (0.75, 12.45), (1.0, 12.65)]


def flooded_volts(soc: float) -> float:
    for (s0, v0), (s1, v1) in pairwise(FLOODED):
        if soc <= s1:
            return v0 + (v1 - v0) * (soc - s0) / (s1 - s0)
    raise ValueError(soc)


@dataclass
class TrueRig:
    """What is true of one rig, though nobody knows it."""

    ocv_v: float
    activation_v: float
    source_ohm: float
    external_ohm: float
    foot_v: float
    slope: float
    rise: float
    c_w: float
    d_w: float
    count: int

    def current(self, length_mm: float) -> float:
        spare = self.ocv_v - self.count * self.activation_v - self.foot_v - self.slope * length_mm
        power = self.c_w + self.d_w * length_mm
        loop = self.source_ohm + self.external_ohm + self.rise
        root = spare**2 - 4 * loop * power
        return (spare + math.sqrt(root)) / (2 * loop) if spare > 0 and root >= 0 else 0.0

    def longest_mm(self) -> float:
        """The longest arc that still burns, by halving: no closed form."""
        low, high = 0.0, 40.0
        if not self.current(low):
            return 0.0
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if self.current(middle) else (low, middle)
        return low

    def bank_v(self, amps: float) -> float:
        return self.ocv_v - self.count * self.activation_v - self.source_ohm * amps

    def holder_v(self, amps: float) -> float:
        return self.bank_v(amps) - self.external_ohm * amps


def draw_rig(chance: random.Random, *, count: int, cca_a: float, area_mm2: int, length_m: float) -> TrueRig:
    """One rig within the ranges of the model, circumstances unknown."""

    def log_uniform(low: float, high: float) -> float:
        return math.exp(chance.uniform(math.log(low), math.log(high)))

    u = chance.uniform
    temp, beta, g, kr, slow = u(-5, 35), u(0.007, 0.016), u(0.3, 1.0), u(2.6, 3.8), u(0, 0.4)
    ocv = ohm = 0.0
    for _ in range(count):
        soc = u(0.75, 1.0)
        ocv += flooded_volts(soc) + u(-0.05, 0.15) + 0.00125 * (temp - 25)
        ohm += kr / cca_a * u(1.0, 1.6) * math.exp(-beta * (temp - 25)) * (1 + g * (1 - soc)) * (1 + slow)
        ohm += log_uniform(0.3e-3, 3e-3) + log_uniform(0.3e-3, 3e-3)
    lead = RESISTANCE_AT_20C[area_mm2] * length_m * u(0.9, 1.1) / u(0.75, 1.0) * (1 + 0.00393 * (u(15, 75) - 20))
    return TrueRig(
        ocv,
        u(0.25, 0.55),
        ohm,
        lead + log_uniform(0.7e-3, 6e-3),
        u(15.5, 18.5),
        u(0.7, 1.4),
        u(0.025, 0.050),
        9.44 * u(0.5, 2.0),
        15.02 * u(0.5, 2.0),
        count,
    )
