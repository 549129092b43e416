"""voltmeter-missing: nothing to measure a link with before it is closed."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no voltmeter is packed."""
    if not tools(case.kit, ToolKind.VOLTMETER):
        yield missing("voltmeter", "Pack one with two decimals, 0.5 % or better, and spare cells for it.")


RULE = Rule(
    name="voltmeter-missing",
    title="No voltmeter",
    severity=Severity.STOP,
    doing=Doing.GET,
    why=(
        "A link the wrong way round shows only on the meter: +25.3 or +37.9 V is right, 0 or 12 V is a dead "
        "short about to be closed."
    ),
    remedy="Measure before the last connection, every time.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.VOLTMETER),
)
