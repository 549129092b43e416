"""clamp-meter-missing: nothing to measure the welding current with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no clamp meter is packed."""
    if not tools(case.kit, ToolKind.CLAMP_METER):
        yield missing("clamp meter", "Pack one that reads direct current to 400 A.")


RULE = Rule(
    name="clamp-meter-missing",
    title="No clamp meter",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why="What the current really is narrows every prediction to half; without a meter it stays a guess.",
    remedy="A DC clamp meter to 400 A; weld a practice bead and write both readings down.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.CLAMP_METER),
)
