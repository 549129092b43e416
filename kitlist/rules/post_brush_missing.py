"""post-brush-missing: nothing to clean battery posts with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no post brush is packed."""
    if not tools(case.kit, ToolKind.POST_BRUSH, ToolKind.WIRE_BRUSH):
        return
    if not tools(case.kit, ToolKind.POST_BRUSH):
        yield missing("post brush", "Pack one; bright lead inside clamp and post before linking.")


RULE = Rule(
    name="post-brush-missing",
    title="No post brush",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why=(
        "Corrosion raises a joint's resistance ten to a hundred times: 5 mΩ at 150 A takes 0.75 V and makes "
        "110 W in one clamp."
    ),
    remedy="Brush posts and clamps bright.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    asks_for=(ToolKind.POST_BRUSH,),
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.POST_BRUSH),
)
