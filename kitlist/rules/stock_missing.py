"""stock-missing: load-bearing repairs and no flat, angle or tube to strengthen them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed, missing, tools
from kitlist.welding.repairs.parts import RepairClass

_STOCK = (ToolKind.STOCK_FLAT, ToolKind.STOCK_ANGLE, ToolKind.STOCK_TUBE)


def check(case: Case) -> Iterator[Gap]:
    """A gap where a load-bearing repair is on the list and no stock is packed."""
    carrying = [
        o.repair.name for o in case.outlook.repairs if o.repair.load_bearing and o.repair_class is not RepairClass.NEVER
    ]
    if carrying and not tools(case.kit, ToolKind.STOCK_FLAT, ToolKind.STOCK_ANGLE, ToolKind.STOCK_TUBE):
        yield missing("steel stock", f"Pack flat 40 x 5 and angle 40 x 40 x 4 for {listed(carrying)}.")


def _bare() -> Example:
    ready = example.with_repair()
    return replace(ready, kit=replace(ready.kit, tools=tuple(t for t in ready.kit.tools if t.what not in _STOCK)))


RULE = Rule(
    name="stock-missing",
    title="Nothing to splint with",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why="A cracked part welded as it was cracks again beside the weld: plate over it, ends tapered.",
    remedy="Flat, angle and tube as thick as what breaks.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    asks_for=_STOCK,
    good=example.with_repair,
    bad=lambda: _bare(),
)
