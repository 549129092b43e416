"""How long it takes to tell whether 30 leads join the batteries of 5 vehicles; printed, nothing is asserted.

python tests/benchmarks/joining.py
"""

from __future__ import annotations

import random
import sys
import time
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "outlook"))

from test_joining import FITTINGS, HOLDER, POST, STUD, WORK, kit_of

from kitlist.base.terms import ClampKind, Fitting, LeadUse, Polarity, Terminal
from kitlist.kit import Clamp, Kit, Trip
from kitlist.outlook.joining import joining
from kitlist.rules.example import lead


def large_kit(dice: random.Random) -> tuple[Kit, Trip]:
    terminals = tuple(dice.choice((POST, POST, STUD, Terminal.STUD_M10)) for _ in range(10))
    leads = []
    for n in range(28):
        use = dice.choice((LeadUse.LINK, LeadUse.LINK, LeadUse.EXTENSION, LeadUse.JUMPER))
        made = lead(f"l{n}", use, dice.choice(FITTINGS), length_m=dice.uniform(0.5, 5.0), area_mm2=35)
        leads.append(
            replace(made, end_a=dice.choice(FITTINGS), pattern_a=dice.choice("xyz"), pattern_b=dice.choice("xyz"))
        )
    clamps = tuple(
        Clamp(name=f"c{n}", what=ClampKind.POST_CLAMP, joins_a=Fitting.LUG_M8, joins_b=Fitting.POST_CLAMP, count=2)
        for n in range(5)
    )
    kit, trip = kit_of(terminals, (*leads, HOLDER, WORK), clamps)
    batteries = tuple(replace(b, vehicle=f"B{n // 2 * 2}") for n, b in enumerate(kit.batteries))
    size, strings = dice.choice(((2, 1), (3, 1), (4, 2), (4, 1)))
    bank = tuple(dice.sample([b.name for b in batteries], size))
    return replace(kit, batteries=batteries), replace(trip, bank=bank, bank_strings=strings)


def times_s(kits: int, seed: int) -> list[float]:
    """How long each of some random kits takes, s, the quickest first."""
    dice = random.Random(seed)
    found = []
    for _ in range(kits):
        kit, trip = large_kit(dice)
        start = time.perf_counter()
        joining(kit, trip, polarity=Polarity.DCEP)
        found.append(time.perf_counter() - start)
    return sorted(found)


if __name__ == "__main__":
    found = times_s(300, 1)
    print(f"30 leads, 5 vehicles, 300 kits: median {found[150] * 1000:.1f} ms, slowest {found[-1] * 1000:.1f} ms")
