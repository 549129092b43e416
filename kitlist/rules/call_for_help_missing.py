"""call-for-help-missing: nothing to call for help with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no means of calling is packed."""
    if not tools(case.kit, ToolKind.CALL_FOR_HELP):
        yield missing(
            "way to call for help", "Pack a satellite phone, beacon or HF radio, tried at home, with its papers."
        )


RULE = Rule(
    name="call-for-help-missing",
    title="No way to call for help",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="A burnt hand or an eye full of acid cannot wait for the days that it takes to be missed.",
    remedy="A means that works where there is no network, tried before leaving.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.CALL_FOR_HELP),
)
