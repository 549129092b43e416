"""Times of the bank's computation, for a person to read: `PYTHONPATH=tests python tests/benchmarks/bank.py`."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import replace
from math import comb

from kitlist.outlook.options.fleet import refusal_of
from kitlist.outlook.options.invented import demand, travellers
from kitlist.outlook.options.planner import plan_bank
from kitlist.physics.bank.band import current_band
from kitlist.physics.bank.examples import in_series
from outlook.fleets import random_fleet, weigh_bank

SAMPLE = 2000


def seconds(call: Callable[[], object], times: int = 3) -> float:
    """The least of a few runs, s."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        call()
        best = min(best, time.perf_counter() - start)
    return best


def usable_fleet(seed: int, count: int) -> list:
    """As many usable batteries as asked for, no two alike."""
    chance = random.Random(seed)
    unlike: dict = {}
    while len(unlike) < count:
        unlike |= {replace(b, name=""): b for b in random_fleet(chance, count) if not refusal_of(b)}
    return [replace(battery, name=f"battery {number}") for number, battery in enumerate(unlike)][:count]


def main() -> None:
    rig = in_series(3)
    print(f"band of three in series: {1000 * seconds(lambda: current_band(rig)):.1f} ms")
    print(f"24 identical batteries: {1000 * seconds(lambda: plan_bank(travellers(24), demand())):.2f} ms")
    fleet = usable_fleet(5, 24)
    chance = random.Random(2)
    banks = [[tuple(m[:3]), tuple(m[3:])] for m in (chance.sample(fleet, 6) for _ in range(SAMPLE))]
    each_s = seconds(lambda: [weigh_bank(bank, demand(), starters=8) for bank in banks], 1) / SAMPLE
    count = sum(comb(24, n) + comb(24, n) * comb(24 - n, n) // 2 for n in (2, 3))
    brute_s = each_s * count
    print(f"brute force over {count} banks, each weighed from its batteries: {brute_s:.0f} s (from {SAMPLE} of them)")
    slowest = {True: 0.0, False: 0.0}
    for top_a in (90.0, 110.0, 130.0, 180.0, 230.0):
        for least in (1, 10, 14, 17, 21, 25, 30, 60, 1000):
            wanted = demand(range_low_a=top_a / 2, range_high_a=top_a, least_rods=least)
            feasible = plan_bank(fleet, wanted).feasible
            took_s = seconds(lambda wanted=wanted: plan_bank(fleet, wanted), 1)  # type: ignore[misc]
            slowest[feasible] = max(slowest[feasible], took_s)
    print(f"24 mixed, two strings: slowest {slowest[True]:.2f} s, 1/{brute_s / slowest[True]:.0f} of brute force")
    print(f"infeasible demands: slowest {slowest[False]:.2f} s, {slowest[False] / slowest[True]:.2f} of the feasible")


if __name__ == "__main__":
    main()
