"""The ballast strip and two strings apart against ngspice (Debian), each as a circuit of its own.

The strip's heat is a charge on a capacitor, what it loses a current out of it; the strings are two capacitors whose
volts fall with their charge, with the activation drop of each as a source of volts by current.
"""

from __future__ import annotations

import re
import shutil
import subprocess

import pytest

from kitlist.base.terms import BallastMetal
from kitlist.physics.bank.strings_apart import circulating_charge
from kitlist.physics.leads.ballast import Strip, heat_of_strip

NGSPICE = shutil.which("ngspice")
pytestmark = pytest.mark.skipif(NGSPICE is None, reason="ngspice is not installed (Debian: apt-get install ngspice)")

RHO = {
    BallastMetal.STAINLESS: "pwl(v(t), 20,0.72, 200,0.86, 400,0.98, 600,1.07, 1000,1.20)",
    BallastMetal.MILD: "pwl(v(t), 20,0.142, 100,0.190, 200,0.263, 400,0.458, 600,0.734, 1000,1.16)",
}
METALS = {BallastMetal.STAINLESS: (0.6, 7900.0, 530.0), BallastMetal.MILD: (0.8, 7850.0, 600.0)}


def run(netlist: str) -> dict[str, float]:
    assert NGSPICE is not None
    done = subprocess.run(
        [NGSPICE, "-b", "/dev/stdin"], input=netlist, capture_output=True, text=True, timeout=120, check=False
    )
    found = {name: float(value) for name, value in re.findall(r"^(\w+)\s+=\s+(\S+)", done.stdout, re.MULTILINE)}
    assert found, done.stdout + done.stderr
    return found


@pytest.mark.parametrize(
    ("metal", "width", "thickness", "amps"),
    [
        (BallastMetal.STAINLESS, 30.0, 1.0, 150.0),
        (BallastMetal.STAINLESS, 25.0, 1.5, 180.0),
        (BallastMetal.MILD, 20.0, 1.0, 120.0),
        (BallastMetal.MILD, 30.0, 1.5, 200.0),
    ],
)
def test_peak_and_mean_of_the_third_rod_agree_within_a_degree(metal, width, thickness, amps):
    emits, density, heat_j = METALS[metal]
    area, edge = width * thickness * 1e-6, 0.9 * 2 * (width + thickness) / 1000
    on = "pulse(0 1 0 1u 1u 60 180)"
    found = run(f"""* strip
Vburn on 0 {on}
Bmakes 0 t I = v(on)*{amps**2!r}*{RHO[metal]}*1e-6/{area!r}
Bloses t 0 I = {edge!r}*({emits!r}*5.67e-8*((v(t)+273.15)^4-{303.15**4!r})+10*(v(t)-30))
Cheat t 0 {density * heat_j * area!r} ic=30
.tran 0.1 420 uic
.meas tran peak MAX v(t) from=361 to=420
.meas tran mean AVG v(t) from=360 to=420
.end
""")
    heat = heat_of_strip(Strip(metal, width, thickness), current_a=amps)
    assert heat.peak_c == pytest.approx(found["peak"], abs=1.0)
    assert heat.mean_c == pytest.approx(found["mean"], abs=1.0)


@pytest.mark.parametrize(
    ("apart_v", "n", "capacity", "ohm"), [(0.2, 3, 70, 0.045), (1.0, 3, 70, 0.045), (0.3, 2, 95, 0.03)]
)
def test_current_and_charge_between_two_strings(apart_v, n, capacity, ohm):
    ours = circulating_charge(apart_v=apart_v, in_series=n, capacity_ah=capacity, loop_ohm=ohm)
    farad = 3600 * capacity / (0.84 * n)
    drop = f"{n}*0.33*asinh(1.48*i(Vs)/{capacity})"
    found = run(f"""* strings
Cfull a 0 {farad!r} ic={12.6 * n + apart_v!r}
Clow c 0 {farad!r} ic={12.6 * n!r}
Vs a b 0
Rloop b d {ohm!r}
Bdrop d c V = 2*{drop}
.tran 5 60000 uic
.meas tran first FIND i(Vs) at=5
.meas tran moved INTEG i(Vs)
.meas tran early INTEG i(Vs) from=0 to={3600 * ours.hours_to(0.9)!r}
.end
""")
    assert ours.first_a == pytest.approx(found["first"], rel=0.01)
    assert ours.moves_ah == pytest.approx(found["moved"] / 3600, rel=0.01)
    # The time constant is of a straight line through the origin: nine tenths within a few points.
    assert found["early"] / found["moved"] == pytest.approx(0.9, abs=0.04)
