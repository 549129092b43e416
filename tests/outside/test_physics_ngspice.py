"""The bank against ngspice (the circuit simulator in Debian): a dozen networks, currents and volts to 1e-9.

The netlist is written here from the network's own description: a source and a resistor for each battery, and the arc
as a source of volts by current, its low-current term held under 20 A so that the solver cannot settle on a negative
root.
"""

from __future__ import annotations

import math
import re
import shutil
import subprocess

import pytest

from kitlist.physics.arc.arc import Arc
from kitlist.physics.bank.network import Network, Unit, feed, flow_at

NGSPICE = shutil.which("ngspice")
pytestmark = pytest.mark.skipif(NGSPICE is None, reason="ngspice is not installed (Debian: apt-get install ngspice)")


def battery(name, ocv_v=12.65, ohm=0.0045, joint_ohm=0.0006, activation_v=0.4):
    return Unit(name=name, ocv_v=ocv_v, ohm=ohm, joint_ohm=joint_ohm, activation_v=activation_v)


def like(names, **more):
    return tuple(battery(name, **more) for name in names)


MISMATCHED = (battery("d", 12.30, 0.009), battery("e", 12.72, 0.0052), battery("f", 12.55, 0.0071, 0.0021))
NETWORKS = {
    "two in series, short arc": (Network(groups=(like("ab"),), external_ohm=0.008), Arc(length_mm=1.0)),
    "three in series": (Network(groups=(like("abc"),), external_ohm=0.0099), Arc()),
    "three unlike in series": (Network(groups=(MISMATCHED,), group_ohm=(0.0016,), external_ohm=0.0099), Arc()),
    "three with ballast": (Network(groups=(like("abc"),), external_ohm=0.085), Arc(length_mm=2.0)),
    "three on a long arc": (Network(groups=(like("abc"),), external_ohm=0.012), Arc(length_mm=7.0)),
    "three, cellulosic": (Network(groups=(like("abc"),), external_ohm=0.012), Arc(foot_v=20.5)),
    "four in series with ballast": (Network(groups=(like("abcd"),), external_ohm=0.12), Arc()),
    "two like strings": (Network(groups=(like("abc"), like("def")), external_ohm=0.0099), Arc()),
    "two mismatched strings": (
        Network(groups=(like("abc"), MISMATCHED), group_ohm=(0.0009, 0.0021), external_ohm=0.0099),
        Arc(),
    ),
    "three strings of two": (
        Network(groups=(like("ab"), like("cd", ohm=0.0061), like("ef", ocv_v=12.6)), external_ohm=0.006),
        Arc(length_mm=1.0),
    ),
    "a string charged while the other welds": (
        Network(groups=(like("abc", activation_v=0.0), like("def", ocv_v=9.9, activation_v=0.0)), external_ohm=0.03),
        Arc(),
    ),
}


def netlist(network: Network, arc: Arc | None) -> tuple[str, dict[str, str]]:
    """The network as ngspice reads it, and the sense source that carries each battery's current."""
    lines, sense, fresh = ["* bank"], {}, iter(range(1, 10_000))

    def add(unit: Unit, low: str, high: str) -> None:
        inner, after = f"n{next(fresh)}", f"n{next(fresh)}"
        drop = unit.activation_v if arc is not None else 0.0
        lines.append(f"V{unit.name} {inner} {low} DC {unit.ocv_v - drop!r}")
        lines.append(f"R{unit.name} {inner} {after} {unit.branch_ohm!r}")
        lines.append(f"Vs{unit.name} {after} {high} DC 0")
        sense[unit.name] = f"vs{unit.name.lower()}"

    def link(low: str, high: str, ohm: float) -> None:
        lines.append(f"Rl{next(fresh)} {low} {high} {ohm!r}" if ohm else f"Vl{next(fresh)} {high} {low} DC 0")

    for group, ohm in zip(network.groups, network.links_ohm, strict=True):
        at = "0"
        for unit in group:
            above = f"n{next(fresh)}"
            add(unit, at, above)
            at = above
        link(at, "top", ohm)
    if arc is None:
        lines.append("Ropen top 0 1e12")
    else:
        lines += [
            f"Rext top rod {network.external_ohm!r}",
            "Vsarc rod arc DC 0",
            f"Barc arc 0 V = {arc.level_v!r} + {arc.rise_ohm!r}*i(Vsarc) + {arc.power_w!r}/max(i(Vsarc), 20)",
        ]
        sense["arc"] = "vsarc"
    lines += [".options reltol=1e-13 abstol=1e-13 vntol=1e-13 gmin=1e-20 itl1=2000", ".control", "set numdgt=15", "op"]
    lines += [f"print i({source})" for source in sense.values()]
    lines += ["print v(top)", ".endc", ".end"]
    return "\n".join(lines) + "\n", sense


def solved(network: Network, arc: Arc | None) -> dict[str, float]:
    """Currents by battery name, `arc` and the volts `top`, as ngspice finds them."""
    text, sense = netlist(network, arc)
    assert NGSPICE is not None
    run = subprocess.run(
        [NGSPICE, "-b", "/dev/stdin"], input=text, capture_output=True, text=True, timeout=60, check=False
    )
    found = dict(re.findall(r"^(i\(\w+\)|v\(top\)) = (\S+)", run.stdout, re.MULTILINE))
    assert "v(top)" in found, run.stdout + run.stderr
    values = {name: float(found[f"i({source})"]) for name, source in sense.items()}
    return values | {"top": float(found["v(top)"])}


@pytest.mark.parametrize("name", NETWORKS)
def test_currents_and_volts_agree_with_ngspice_to_1e_9(name):
    network, arc = NETWORKS[name]
    outside, flow = solved(network, arc), feed(network, arc)
    assert flow.point.burns
    assert flow.point.current_a > 20.0
    assert math.isclose(flow.point.current_a, outside["arc"], rel_tol=1e-9)
    assert math.isclose(flow.bank_v, outside["top"], rel_tol=1e-9)
    for own in flow.batteries:
        assert math.isclose(own.current_a, outside[own.name], rel_tol=1e-9, abs_tol=1e-7)


@pytest.mark.parametrize("name", ["two mismatched strings", "three strings of two"])
def test_circulating_currents_at_rest_agree_with_ngspice(name):
    network, _ = NETWORKS[name]
    outside = solved(network, None)
    _, flows = flow_at(network, current_a=0.0)
    assert any(abs(flow.current_a) > 1.0 for flow in flows)
    for flow in flows:
        assert math.isclose(flow.current_a, outside[flow.name], rel_tol=1e-7, abs_tol=1e-6)
