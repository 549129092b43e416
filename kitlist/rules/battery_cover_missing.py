"""battery-cover-missing: fewer insulating covers than batteries in the bank."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.packing import counted, missing, tools
from kitlist.sources import PRACTICE
from kitlist.terms import (
    ToolKind,
)


def check(case: Case) -> Iterator[Gap]:
    """A gap where the covers known to insulate are fewer than the bank's batteries."""
    needed = len(case.trip.bank)
    packed = tools(case.kit, ToolKind.BATTERY_COVER)
    good = [cover for cover in packed if cover.insulating]
    have = counted(tuple(good))
    unsaid = [cover for cover in packed if cover.insulating is None]
    if have >= needed:
        return
    if unsaid and have + counted(tuple(unsaid)) >= needed:
        yield Gap(
            subject=unsaid[0].name,
            what=f"{unsaid[0].name}: whether they insulate is not known",
            remedy="Rubber, canvas or wood: write it down. Metal or wet cloth does not count.",
            command=f"kitlist tool edit {quoted(unsaid[0].name)} insulating=yes",
            required=needed,
            unit="covers",
            known=False,
        )
    else:
        yield missing(
            "insulating battery covers",
            "Pack one rubber mat for each battery, larger than its top.",
            needed=needed,
            have=have,
        )


RULE = Rule(
    name="battery-cover-missing",
    title="Battery covers missing",
    severity=Severity.FIX,
    why="Sparks find vents, and a spanner across two posts welds itself there.",
    remedy="One non-metal cover for each battery, larger than its top, sides open for gas.",
    sources=(PRACTICE,),
    check=check,
    mark="short",
    good=example.whole,
    bad=lambda: example.with_tool(ToolKind.BATTERY_COVER, count=2),
)
