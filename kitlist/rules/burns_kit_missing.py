"""burns-kit-missing: no first aid for burns and eyes."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no burns kit is packed."""
    if not tools(case.kit, ToolKind.FIRST_AID_BURNS):
        yield missing("burns kit", "Pack burn dressings and eye pads; cool burns 20 min with clean water first.")


RULE = Rule(
    name="burns-kit-missing",
    title="Nothing to treat burns with",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="The likely injuries are burns and arc eye, hours from a doctor.",
    remedy="Burn dressings, eye pads, and who to call.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.FIRST_AID_BURNS),
)
