"""parallel-strings-apart: parallel strings that must not be joined: too far apart in volts, or of unlike kinds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from kitlist.base.measures import told_apart
from kitlist.base.terms import LeadUse, ToolKind
from kitlist.outlook.linkable import Bar
from kitlist.physics import figures
from kitlist.physics.bank.strings_apart import circulating_charge
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap for what keeps the strings of the bank from being joined: their volts, their kinds."""
    for found in case.bars(Bar.APART, Bar.MIXED):
        if found.bar is Bar.MIXED:
            kinds = sorted({battery.battery.chemistry.words for battery in case.outlook.bank_batteries})
            yield Gap(
                subject="bank",
                what=f"Parallel strings of unlike kinds: {listed(kinds)}; full, one still charges the other",
                remedy="Choose batteries of one kind for parallel strings, or one string.",
                command=f"kitlist bank {quoted(case.trip.name)}",
            )
            continue
        apart_v, limit_v = found.volts_v or 0.0, found.limit_v or 0.0
        apart, _ = told_apart(apart_v, limit_v, places=2)
        yield Gap(
            subject="bank",
            what=f"The parallel strings are {apart} V apart at rest, {limit_v:g} V at the most: joined, the "
            f"higher discharges into the lower with no arc burning{_runs(case, apart_v)}",
            remedy="Charge each battery full, alone, and read again after rest; waiting joined does not level them.",
            command=f"kitlist bank {quoted(case.trip.name)}",
            measured=round(apart_v, 2),
            required=limit_v,
            unit="V",
            doing=Doing.CHARGE,
        )


def _runs(case: Case, apart_v: float) -> str:
    """What runs between the strings, and for how long, once they are joined; nothing where it cannot be told."""
    bank = case.outlook.bank
    capacities = [battery.battery.c20_ah for battery in case.outlook.bank_batteries]
    known = [capacity_ah for capacity_ah in capacities if capacity_ah is not None]
    if bank is None or bank.rig is None or len(known) < len(capacities) or not known:
        return ""
    network = bank.rig.network()
    ohm = [sum(unit.branch_ohm for unit in group) for group in network.groups]
    flow = circulating_charge(
        apart_v=apart_v,
        in_series=len(case.trip.strings[0]),
        capacity_ah=min(known),
        loop_ohm=sum(ohm[:2]) + sum(network.links_ohm[:2]),
    )
    hours = flow.hours_to(0.9)
    return f": about {flow.first_a:.0f} A at first, {flow.moves_ah:.1f} Ah in all, nine tenths of it in {hours:.0f} h"


_SIX = ("north-second", "north-third", "north-fourth", "south-second", "south-third", "south-fourth")


def with_strings(higher_v: float, **changes: Any) -> Example:
    """The whole kit with two strings of three second batteries, one battery of the first at other volts."""
    whole = example.whole()
    more = tuple(
        example.battery(name, "North" if name.startswith("north") else "South", place=whole.kit.batteries[1].place)
        for name in _SIX
        if not name.endswith("second")
    )
    batteries = (*whole.kit.batteries, *more)
    readings = (*whole.kit.readings, *(example.reading(battery.name) for battery in more))
    ratings: dict[ToolKind, dict[str, Any]] = {ToolKind.FUSE: {"rating_a": 500.0}, ToolKind.BATTERY_COVER: {"count": 6}}
    kit = replace(
        whole.kit,
        batteries=tuple(replace(b, **changes) if b.name == _SIX[0] else b for b in batteries),
        readings=tuple(replace(r, volts_v=higher_v) if r.battery == _SIX[0] else r for r in readings),
        leads=tuple(
            replace(x, area_mm2=95, rating_a=x.rating_a and 500, count=7 if x.use is LeadUse.LINK else x.count)
            for x in whole.kit.leads
        ),
        rods=(example.rod("thickest rods", diameter_mm=5.0),),
        gear=tuple(replace(g, shade=13) if g.shade else g for g in whole.kit.gear),
        tools=tuple(replace(t, **ratings.get(t.what, {})) for t in whole.kit.tools),
    )
    return replace(whole, kit=kit, trip=replace(whole.trip, bank=_SIX, bank_strings=2))


RULE = Rule(
    name="parallel-strings-apart",
    title="Parallel strings too far apart",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Strings that are not level drive a current through each other as soon as they are joined, and the lower one "
    "is charged by the weld: it heats, it gases, and the rods that were counted are not there.",
    remedy="Charge every battery of the bank full, alone; strings of one kind only.",
    sources=(figures.PARALLEL_GAP_V.source,),
    check=check,
    acceptable=False,
    good=lambda: with_strings(13.02),
    bad=lambda: with_strings(13.03),
)
