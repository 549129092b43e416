"""spanner-bare: a spanner for the posts whose handle does not insulate, or of which nobody has said."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed spanner known to be bare, and one for all of which nobody has said."""
    packed = tools(case.kit, ToolKind.SPANNER)
    for spanner in packed:
        if spanner.insulating is False:
            yield Gap(
                subject=spanner.name,
                what=f"{spanner.name}: bare; dropped across two posts it welds itself there and bursts a battery",
                remedy="Shrink sleeve or several turns of tape over all but the jaw, or pack an insulated one.",
                command=f"kitlist tool edit {quoted(spanner.name)} insulating=ANSWER",
            )
    unsaid = [spanner.name for spanner in packed if spanner.insulating is None]
    if unsaid:
        yield Gap(
            subject=unsaid[0],
            what=f"{listed(unsaid)}: whether the handle insulates is not known",
            remedy="Look: sleeve or tape over all but the jaw, whole; then write it down.",
            command=f"kitlist tool edit {quoted(unsaid[0])} insulating=ANSWER",
            also=tuple(unsaid[1:]),
            known=False,
            severity=Severity.NOTE,
        )


RULE = Rule(
    name="spanner-bare",
    title="A bare spanner over the posts",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why=(
        "The spanner turns beside the other post and, once linked, beside 24 or 36 V: bare steel across them "
        "carries over 1,000 A, welds itself on, and the battery bursts."
    ),
    remedy="Only the jaw bare; rings and watches off; one spanner in hand, none laid on a battery.",
    sources=(PRACTICE,),
    check=check,
    mark="bare",
    good=lambda: example.with_tool(ToolKind.SPANNER, insulating=True),
    bad=lambda: example.with_tool(ToolKind.SPANNER, insulating=False),
)
