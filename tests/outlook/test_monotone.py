"""Never better for being worse: colder, lower volts, rods burned never give more rods; thinner leads, more ballast
never a hotter verdict. On random banks, by the same computation as every face; KITLIST_TEST_INPUTS makes more of them.
"""

from __future__ import annotations

import os
import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import pytest

from kitlist.base.terms import BatteryPlace, Chemistry, Conductor, LeadUse
from kitlist.kit import Ballast, Kit, Rod, Trip, Vehicle
from kitlist.kit.limits import standard
from kitlist.outlook import Expected, batteries_out, expect
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.charge import charge_at, ocv_points, rested_volts
from kitlist.rules.example import battery, rod, whole

INPUTS = int(os.environ.get("KITLIST_TEST_INPUTS", "100"))
KINDS = (Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.EFB, Chemistry.AGM, Chemistry.GEL)
RODS = (
    ("E6013", 2.5, 300.0),
    ("E6013", 3.2, 350.0),
    ("E6013", 4.0, 350.0),
    ("E7018", 3.2, 350.0),
    ("E6010", 3.2, 350.0),
)
HEAT = (Fit.NO_ARC, Fit.COLD, Fit.IN_RANGE, Fit.WARM, Fit.HOT, Fit.TOO_HOT)
LEAST_AREA_MM2 = 10.0


@dataclass(frozen=True)
class Case:
    kit: Kit
    trip: Trip

    @property
    def seen(self) -> Expected:
        on = whole().on
        return expect(self.kit, self.trip, batteries_out(self.kit, self.trip, on=on), on=on)

    def with_trip(self, **changes) -> Case:
        return replace(self, trip=replace(self.trip, **changes))

    def with_volts(self, name: str, less_v: float) -> Case:
        readings = tuple(
            replace(r, volts_v=round(r.volts_v - less_v, 3)) if r.battery == name else r for r in self.kit.readings
        )
        return replace(self, kit=replace(self.kit, readings=readings))


def bank(seed: int) -> Case:
    """A bank of two to four, or two strings of two or three, of unlike batteries, leads, rods, limits and cold."""
    chance = random.Random(seed)
    example = whole()
    size, strings = chance.choice(((2, 1), (2, 1), (3, 1), (3, 1), (3, 1), (4, 1), (4, 2), (6, 2)))
    one_kind = chance.choice(KINDS)
    kinds = [one_kind if strings > 1 or chance.random() < 0.6 else chance.choice(KINDS) for _ in range(size)]
    coldest = chance.choice((-28, -20, -12.5, -6, -1, 0, 0.5, 4, 10, 17, 24, 30))
    batteries, readings = [], []
    for number, kind in enumerate(kinds):
        name = f"b{number}"
        starts = chance.random() < 0.3
        capacity = chance.choice((45, 60, 70, 80, 95, 110))
        batteries.append(
            battery(
                name,
                f"V{number}",
                place=BatteryPlace.START if starts else BatteryPlace.SECOND,
                chemistry=kind,
                c20_ah=capacity,
                cranking_a=chance.choice((None, round(capacity * chance.uniform(6.5, 10)))),
            )
        )
        full_v = ocv_points(kind)[-1][1]
        readings.append(
            replace(
                example.kit.readings[0],
                battery=name,
                volts_v=round(chance.choice((full_v, full_v, full_v - chance.uniform(0, 0.5), full_v + 0.1)), 2),
                taken_at=datetime(2027, 3, 3, 7, 0) - timedelta(days=chance.choice((0, 0, 1, 5))),  # noqa: DTZ001
                rested_h=chance.choice((3.0, 8.0, 24.0, 24.0)),
                battery_temp_c=chance.choice((None, coldest, coldest, 10, 25, 33)),
            )
        )
    area = chance.choice((16, 25, 35, 50))
    leads = tuple(
        replace(
            lead,
            area_mm2=area,
            count=9 if lead.use is LeadUse.LINK else 1,
            length_m=lead.length_m if lead.use is LeadUse.LINK else chance.uniform(2, 10),
            conductor=chance.choice((Conductor.COPPER, Conductor.COPPER, Conductor.UNKNOWN, Conductor.ALUMINIUM)),
        )
        for lead in example.kit.leads
    )
    lines = chance.sample(("floor_cold_ratio = 0.75", "floor_warm_ratio = 0.6", "every_starter_ratio = 0.85"), 1)
    rulebook = standard().changed("\n".join(lines), name="rulebook.toml") if chance.random() < 0.3 else standard()
    kit = replace(
        example.kit,
        vehicles=tuple(Vehicle(name=f"V{n}", crank_a=chance.choice((None, 220, 350))) for n in range(size)),
        batteries=tuple(batteries),
        readings=tuple(readings),
        leads=leads,
        rods=tuple(packets(chance)),
        rulebook=rulebook,
        ballasts=(Ballast(name="strip", measured_mohm=chance.choice((20.0, 50.0, 90.0))),),
    )
    trip = replace(
        example.trip,
        vehicles=tuple(v.name for v in kit.vehicles),
        bank=tuple(b.name for b in batteries),
        bank_strings=strings,
        coldest_c=coldest,
        hottest_c=coldest + chance.choice((0, 8, 20)),
        ballast="strip" if (size == 4 and strings == 1) or chance.random() < 0.2 else None,
    )
    return Case(kit, trip)


def packets(chance: random.Random) -> Iterator[Rod]:
    for number, (designation, diameter, length) in enumerate(chance.sample(RODS, 2)):
        yield rod(f"p{number}", designation=designation, diameter_mm=diameter, length_mm=length, count=200)


def counts(seen: Expected) -> dict[str, tuple[int, int]]:
    return {x.rod.name: (x.rods.sure, x.rods.likely) for x in seen.rods if x.rods is not None}


def more_rods(worse: Expected, better: Expected) -> dict[str, object]:
    """The rods that the worse bank gives more of than the better one; where that one's are not known, none are."""
    mine, theirs = counts(worse), counts(better)
    return {
        name: (theirs[name], count)
        for name, count in mine.items()
        if name in theirs and (count[0] > theirs[name][0] or count[1] > theirs[name][1])
    }


def hotter(worse: Expected, better: Expected) -> dict[str, object]:
    """The rods that the bank of more resistance runs hotter than the other, by verdict or by its highest current."""
    found: dict[str, object] = {}
    for mine, theirs in zip(worse.rods, better.rods, strict=True):
        if mine.fit is None or theirs.fit is None or mine.highest_a is None or theirs.highest_a is None:
            continue
        if HEAT.index(mine.fit) > HEAT.index(theirs.fit) or mine.highest_a > theirs.highest_a * (1 + 1e-9):
            found[mine.rod.name] = (theirs.fit, theirs.band, mine.fit, mine.band)
    return found


SEEDS = range(INPUTS)


def tried(case: Case, chance: random.Random) -> Iterator[tuple[str, dict[str, object]]]:
    """Each way of being worse, and what is better for it all the same."""
    better = case.seen
    step = chance.choice((0.5, 2.0, 6.0, 11.0))
    cold = case.with_trip(coldest_c=max(-29.0, (case.trip.coldest_c or 0) - step))
    yield "colder nights", more_rods(cold.seen, better)
    if (case.trip.coldest_c or 0) <= 25.0:
        own = [r.battery_temp_c for r in case.kit.readings]
        if all(t is not None and t <= 25.0 for t in own):
            readings = tuple(replace(r, battery_temp_c=(r.battery_temp_c or 0) - step) for r in case.kit.readings)
            all_cold = replace(cold, kit=replace(cold.kit, readings=readings))
            yield "colder nights and batteries, equal volts", more_rods(all_cold.seen, better)
    name = chance.choice(case.trip.bank)
    yield "lower volts", more_rods(case.with_volts(name, chance.choice((0.01, 0.03, 0.1, 0.3))).seen, better)
    burned = burn_some(case, better, chance.randint(1, 3))
    if burned is not None:
        yield "rods burned", more_rods(burned.seen, better)
    thin = tuple(replace(x, area_mm2=max(LEAST_AREA_MM2, (x.area_mm2 or 25) * 0.7)) for x in case.kit.leads)
    yield "thinner leads", hotter(replace(case, kit=replace(case.kit, leads=thin)).seen, better)
    strip = case.kit.ballasts[0]
    less, more = (
        replace(
            case.with_trip(ballast="strip"),
            kit=replace(case.kit, ballasts=(replace(strip, measured_mohm=(strip.measured_mohm or 0) + ohm),)),
        ).seen
        for ohm in (0.0, 15.0)
    )
    yield "more ballast", hotter(more, less)


def burn_some(case: Case, seen: Expected, rods: int) -> Case | None:
    """The same bank read again after some rods of its first packet, each battery down by its share of them."""
    first = seen.rods[0]
    if first.lasting is None:
        return None
    after = case
    for name, kept in first.lasting.kept.items():
        reading = seen.batteries[name].reading
        if reading is None or kept.chemistry not in KINDS:
            return None
        charge = charge_at(volts_25_v=reading.volts_v, chemistry=kept.chemistry)
        left = charge - rods * first.lasting.charge_ah.low * kept.share_ratio / kept.capacity_ah
        if left < 0.05:
            return None
        fall_v = min(reading.volts_v, ocv_points(kept.chemistry)[-1][1]) - rested_volts(
            soc_ratio=left, chemistry=kept.chemistry
        )
        after = after.with_volts(name, max(0.0, fall_v))
    return after


@pytest.mark.parametrize("part", range(4))
def test_a_bank_that_is_worse_is_never_the_better_for_it(part: int) -> None:
    wrong = []
    counted = 0
    for seed in SEEDS[part::4]:
        case = bank(seed)
        for what, found in tried(case, random.Random(-1 - seed)):
            counted += 1
            if found:
                wrong.append((seed, what, found))
    assert counted > 3 * len(SEEDS[part::4])
    assert wrong == []


def test_the_random_banks_are_of_every_kind() -> None:
    seen = [bank(seed) for seed in range(100)]
    rods = [counts(case.seen) for case in seen]
    assert sum(any(sure > 0 for sure, _ in found.values()) for found in rods) >= 15
    assert sum(len({case.kit.battery[n].chemistry for n in case.trip.bank}) > 1 for case in seen) >= 15
    assert sum(case.trip.bank_strings > 1 for case in seen) >= 15
    assert sum(len(case.trip.bank) == 2 for case in seen) >= 15
    fits = {x.fit for case in seen for x in case.seen.rods}
    assert fits >= {Fit.COLD, Fit.IN_RANGE, Fit.HOT, Fit.TOO_HOT}
