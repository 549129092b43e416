"""fire-water-short: less water than the least against a grass fire."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import ToolKind
from kitlist.outlook.fire_water import fire_water
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap where the packed fire water is short, or its volume not known."""
    water, least_l = fire_water(case.kit, until=case.trip.ends_on), case.limits.water_least_l
    if water.litres_l >= least_l:
        return
    unsaid = [tool for tool in water.thrown if tool.volume_l is None and tool.what is ToolKind.WATER]
    all_named = (*water.thrown, *water.poured)
    yield Gap(
        subject=all_named[0].name if all_named else "fire water",
        what=f"{unsaid[0].name}: how much it holds is not known; {least_l:g} L at the least"
        if unsaid
        else f"{water.litres_l:g} L of fire water, {least_l:g} L at the least"
        + (f"; {listed([tool.name for tool in water.poured])}: nothing that throws it" if water.poured else ""),
        remedy="Fill a knapsack pump or a pressure extinguisher of 9 L or more and keep it at hand: litres in a can do "
        "not count, they throw no water.",
        command=f"kitlist tool edit {quoted(unsaid[0].name)} volume=LITRES" if unsaid else "",
        measured=None if unsaid else water.litres_l,
        required=least_l,
        unit="L",
        known=not unsaid,
    )


RULE = Rule(
    name="fire-water-short",
    title="Too little fire water",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Slag rolls, and a grass fire outruns a person within a minute; powder does not cool.",
    remedy="9 L of water in a thing that throws it, ground wetted first.",
    sources=(
        Source(Tag.READ, "CFA brochure: knapsack spray pump or stored-pressure extinguisher of 9 L at the least"),
        Source(Tag.READ, "Western Australia Government Gazette, 5 Nov 2019 p. 3880: 9 L"),
    ),
    check=check,
    mark="short",
    asks_for=(ToolKind.WATER,),
    good=lambda: example.with_tool(ToolKind.WATER, volume_l=9),
    bad=lambda: example.with_tool(ToolKind.WATER, volume_l=8.9),
    numbers=("water_least_l",),
)
