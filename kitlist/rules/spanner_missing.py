"""spanner-missing: no spanner for the battery posts."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no spanner is packed."""
    if not tools(case.kit, ToolKind.SPANNER):
        yield missing("spanner for the posts", "Pack one for each size of post bolt on the trip, handles taped.")


RULE = Rule(
    name="spanner-missing",
    title="Nothing to take the posts off with",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=(
        "Every battery of the bank comes off its vehicle, both posts, negative first. A vehicle left "
        "connected takes 24 or 36 V, or a dead short."
    ),
    remedy="The right spanners, their handles insulated.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.SPANNER),
)
