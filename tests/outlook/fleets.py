"""Random fleets of batteries for the planner's tests: invented, from a seeded generator."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Condition
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.demand import Demand
from kitlist.outlook.options.fleet import Kind, Traveller
from kitlist.outlook.options.planner import Option
from kitlist.outlook.options.weighing import KindFacts, Scales, SeriesString, Weighed
from kitlist.outlook.refusal import Refusal, Why
from kitlist.physics.bank.rig import Rig
from kitlist.physics.battery.resistance import source_resistance


def random_fleet(chance: random.Random, count: int) -> list[Traveller]:
    """Batteries of mixed kind, size, charge and age; some alike, some refused, some that start an engine."""
    fleet: list[Traveller] = []
    for number in range(count):
        if fleet and chance.random() < 0.2:
            twin = chance.choice(fleet)
            fleet.append(replace(twin, name=f"battery {number}"))
            continue
        capacity = float(chance.choice((45, 60, 60, 70, 70, 80, 100)))
        soc = chance.uniform(0.45, 1.0)
        fleet.append(
            Traveller(
                name=f"battery {number}",
                chemistry=chance.choice([Chemistry.FLOODED] * 4 + [Chemistry.CALCIUM] * 2 + [Chemistry.AGM]),
                capacity_ah=capacity,
                resistance=source_resistance(cca_sae=Span.exactly(round(capacity * chance.uniform(7, 10)))),
                soc_ratio=None if chance.random() < 0.1 else Span(max(0.0, soc - 0.06), soc, min(1.0, soc + 0.06)),
                unfit=chance.choice([None] * 12 + [Refusal(why=Why.DAMAGED, condition=Condition.CRACKED)]),
                starts_engine=chance.random() < 0.35,
                mass_kg=round(capacity / 4, 1),
                age_years=chance.choice((None, 1.0, 1.5, 2.0, 4.0)),
            )
        )
    return fleet


def weigh_bank(strings: Sequence[Sequence[Traveller]], demand: Demand, *, starters: int) -> Weighed | Lost:
    """One given bank of one or two strings, weighed as the search weighs it. `starters` travel and may be used."""
    if len(strings) not in (1, 2) or not all(strings):
        raise ValueError("a bank needs one or two strings of batteries")
    batteries = [battery for string in strings for battery in string]
    facts = [KindFacts(Kind(battery, (battery.name,)), demand.temp_c) for battery in batteries]
    scales = Scales(demand, starters)
    made = []
    at = 0
    for string in strings:
        indexes = tuple(range(at, at + len(string)))
        at += len(string)
        made.append(SeriesString(indexes, facts, 0, demand.link_ohm))
        scales.settle(made[-1])
    return scales.weigh(tuple(made))


def rig_of(option: Option, travellers: Sequence[Traveller], demand: Demand) -> Rig:
    """The rig of a chosen bank, for the sampled band, endurance and the drawing.

    In plain series the links are all there are; in parallel strings each string has one tie more.
    """
    by_name = {battery.name: battery.as_bank_battery() for battery in travellers if battery.name in option.names}
    groups = tuple(tuple(by_name[name] for name in string) for string in option.strings)
    links = len(groups[0]) - 1 + (len(groups) > 1)
    return Rig(groups=groups, leads=demand.leads, link_ohm_20c=links * demand.link_ohm_20c, temp_c=demand.temp_c)
