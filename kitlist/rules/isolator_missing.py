"""isolator-missing: nothing to open the circuit with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.packing import missing, tools
from kitlist.sources import PRACTICE
from kitlist.terms import (
    ToolKind,
)


def check(case: Case) -> Iterator[Gap]:
    """A gap where no isolator is packed."""
    if not tools(case.kit, ToolKind.ISOLATOR):
        yield missing(
            "isolator",
            "Pack a DC switch of 60 V and 300 A or more; until then the far plug is what is pulled.",
        )


RULE = Rule(
    name="isolator-missing",
    title="No isolating switch",
    severity=Severity.FIX,
    why=(
        "A stuck rod draws about a thousand amperes. Pulling jaws off a live post draws an arc over a vent "
        "that gives off hydrogen."
    ),
    remedy="An isolator 0.5 m or more from any vent, opened before anything is moved.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.ISOLATOR),
)
