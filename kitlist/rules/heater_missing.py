"""heater-missing: cold steel or hardenable steel to be welded, and nothing to warm it with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed, to_pack, tools
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.working_rules import HARDENABLE


def check(case: Case) -> Iterator[Gap]:
    """A gap where frost or a hardenable steel asks for warmth, and neither stove nor blowlamp is packed."""
    if tools(case.kit, ToolKind.HEATER):
        return
    coldest_c, limit_c = case.trip.coldest_c, case.limits.cold_steel_below_c
    hard = [
        o.repair.name
        for o in case.outlook.repairs
        if o.repair.steel in HARDENABLE and o.repair_class not in (None, RepairClass.NEVER)
    ]
    if coldest_c is not None and coldest_c < limit_c:
        yield Gap(
            subject="heater",
            what=f"Down to {with_unit(coldest_c, '°C')}: under {limit_c:g} °C the joint is warmed to 20 °C or more "
            "first and kept there, and nothing to warm it is packed",
            remedy="Pack a camp stove or a blowlamp, and use it clear of all that burns; frost and dew off, then dry.",
            command=to_pack(case.kit, ToolKind.HEATER, "blowlamp"),
            measured=coldest_c,
            required=limit_c,
            unit="°C",
        )
    if hard:
        yield Gap(
            subject="heater",
            what=f"{listed(hard)}: hardenable steel wants 260 to 425 °C before the first bead and warmth for 2 to 3 h "
            "after the last, and nothing to warm it is packed",
            remedy="Pack a blowlamp, a pine stick that chars, a tin of dry sand or ash; else clamp and U-bolt it.",
            command=to_pack(case.kit, ToolKind.HEATER, "blowlamp"),
        )


RULE = Rule(
    name="heater-missing",
    title="Nothing to warm the steel with",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Cold or hardened steel quenches the bead: it cracks beside the weld, hours later, under load.",
    remedy="A stove or a blowlamp, and patience.",
    sources=(
        Source(Tag.READ, "AWS D1.1 §3.1.3 of an older edition: 20 °C under 0 °C"),
        Source(Tag.SECOND_HAND, "TC 9-237: 500 to 800 °F for hardened springs"),
        Source(Tag.READ, "TWI Job Knowledge 46: warmth held 2 to 3 h"),
        PRACTICE,
    ),
    check=check,
    numbers=("cold_steel_below_c",),
    asks_for=(ToolKind.HEATER,),
    good=example.whole,
    bad=lambda: _without_heater(-1),
)


def _without_heater(coldest_c: float) -> Example:
    cold = example.with_trip(coldest_c=coldest_c)
    tools_left = tuple(tool for tool in cold.kit.tools if tool.what is not ToolKind.HEATER)
    return replace(cold, kit=replace(cold.kit, tools=tools_left))
