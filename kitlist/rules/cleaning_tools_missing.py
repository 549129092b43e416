"""cleaning-tools-missing: no chipping hammer or wire brush: slag stays in the weld."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """One gap that names what is not packed of hammer and brush."""
    lacking = [
        words
        for kind, words in ((ToolKind.CHIPPING_HAMMER, "chipping hammer"), (ToolKind.WIRE_BRUSH, "wire brush"))
        if not tools(case.kit, kind)
    ]
    if lacking:
        yield Gap(
            subject=lacking[0],
            what=f"No {' and no '.join(lacking)} packed",
            remedy=f"Pack {'both' if len(lacking) > 1 else 'one'}: slag off and bright between every two passes.",
            measured=2 - len(lacking),
            required=2,
            unit="tools",
        )


RULE = Rule(
    name="cleaning-tools-missing",
    title="Nothing to chip and brush with",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="A pass over slag is a weld with a hole in it that nobody sees.",
    remedy="Chip, brush, look, then the next pass.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    asks_for=(ToolKind.CHIPPING_HAMMER, ToolKind.WIRE_BRUSH),
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.CHIPPING_HAMMER),
)
