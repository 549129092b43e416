"""What the rules cost as a kit grows: 1,000 batteries and 5,000 items at 100x; printed as ratios, nothing is asserted.

python tests/benchmarks/rules.py
"""

from __future__ import annotations

import time
from dataclasses import replace

from kitlist.base.terms import BatteryPlace, GearKind, ToolKind
from kitlist.kit import Item, Kit, Trip
from kitlist.outlook import look_out
from kitlist.readiness import assess
from kitlist.rules import RULES, Case, run
from kitlist.rules.example import BAG, ON, battery, gear, reading, tool, whole

BATTERIES, ITEMS = 10, 50  # at 1x


def kit_of(scale: int) -> tuple[Kit, Trip]:
    """The whole example with so many times 10 batteries and 50 items."""
    example = whole()
    names = [f"battery {n}" for n in range(BATTERIES * scale)]
    batteries = tuple(battery(name, None, place=BatteryPlace.LOOSE, bag=BAG) for name in names)
    third = ITEMS * scale // 3
    kit = replace(
        example.kit,
        batteries=(*example.kit.batteries, *batteries),
        readings=(*example.kit.readings, *(reading(name) for name in names)),
        tools=(*example.kit.tools, *(tool(f"tool {n}", ToolKind.OTHER) for n in range(third))),
        gear=(*example.kit.gear, *(gear(f"plugs {n}", GearKind.EAR_PLUGS) for n in range(third))),
        items=tuple(Item(name=f"item {n}", must_carry=1, count=1, bag=BAG) for n in range(third)),
    )
    return kit, example.trip


def seconds(scale: int, repeats: int = 3) -> tuple[float, float]:
    """The rules alone, and the whole judgement, s: the quickest of some runs."""
    kit, trip = kit_of(scale)
    case = Case(kit=kit, trip=trip, on=ON, outlook=look_out(kit, trip, on=ON))
    rules = min(_timed(lambda: run(RULES, case)) for _ in range(repeats))
    return rules, min(_timed(lambda: assess(kit, trip, on=ON)) for _ in range(repeats))


def _timed(what: object) -> float:
    start = time.perf_counter()
    what()  # type: ignore[operator]
    return time.perf_counter() - start


if __name__ == "__main__":
    first = seconds(1)
    for scale in (1, 10, 100):
        rules, judged = seconds(scale)
        print(
            f"{scale:4d}x: {BATTERIES * scale:5d} batteries, {ITEMS * scale:5d} items: rules {rules * 1000:8.2f} ms "
            f"({rules / first[0]:5.1f} times 1x), judgement {judged * 1000:8.1f} ms ({judged / first[1]:5.1f} times)"
        )
