"""isolator-missing: nothing to open the circuit with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.outlook.leads import parts_at_plug
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no isolator is packed: stop where no lead parts at a plug either."""
    if tools(case.kit, ToolKind.ISOLATOR):
        return
    gap = missing("isolator", "Pack a DC switch of 60 V and 300 A or more.")
    if parts_at_plug(case.kit):
        yield replace(gap, remedy=f"{gap.remedy} Until then the far plug is what is pulled.", severity=Severity.FIX)
    else:
        yield replace(
            gap,
            what="Nothing opens the circuit: no isolator packed, and no lead to rod or work parts at a plug",
            remedy=f"{gap.remedy} Or put a plug in the holder lead: the last joint is never made at a battery post.",
        )


RULE = Rule(
    name="isolator-missing",
    title="No isolating switch",
    severity=Severity.STOP,
    doing=Doing.GET,
    why=(
        "A stuck rod draws about a thousand amperes. Pulling jaws off a live post draws an arc over a vent "
        "that gives off hydrogen."
    ),
    remedy="An isolator 0.5 m or more from any vent, opened before anything is moved.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    asks_for=(ToolKind.ISOLATOR,),
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.ISOLATOR),
)
