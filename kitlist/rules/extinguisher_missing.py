"""extinguisher-missing: nothing to put a fire out with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where no extinguisher is packed."""
    if not any(tool.what is ToolKind.EXTINGUISHER and tool.count > 0 for tool in case.kit.tools):
        yield Gap(
            subject="extinguisher",
            what="No extinguisher is packed: 0 of 1",
            remedy="Pack a powder extinguisher of 1 kg or more, and water for grass.",
            measured=0,
            required=1,
            unit="extinguishers",
        )


RULE = Rule(
    name="extinguisher-missing",
    title="No extinguisher",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Slag rolls, stubs glow, brush and fuel burn. An extinguisher is at hand whenever an arc is struck.",
    remedy="Powder for vehicle and wiring, water for grass; both within reach before the first arc.",
    sources=(Source(Tag.READ, "29 CFR 1910.252"),),
    check=check,
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.EXTINGUISHER),
)
