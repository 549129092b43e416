"""battery-cover-missing: fewer insulating covers than batteries in the bank."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import counted, to_pack, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where the covers known to insulate are fewer than the bank's batteries; it names what is packed."""
    needed = len(case.trip.bank)
    packed = tools(case.kit, ToolKind.BATTERY_COVER)
    good = tuple(cover for cover in packed if cover.insulating)
    unsaid = tuple(cover for cover in packed if cover.insulating is None)
    have, perhaps = counted(good), counted(unsaid)
    if have >= needed:
        return
    if unsaid:
        enough = have + perhaps >= needed
        short = "" if enough else f"{have + perhaps} of {needed} battery covers packed; "
        yield Gap(
            subject=unsaid[0].name,
            what=f"{short}{unsaid[0].name}: whether they insulate is not known",
            remedy="Rubber, canvas or wood: write it down. Metal or wet cloth does not count.",
            command=f"kitlist tool edit {quoted(unsaid[0].name)} insulating=ANSWER"
            if enough
            else f"kitlist tool edit {quoted(unsaid[0].name)} count=NUMBER insulating=ANSWER",
            also=tuple(cover.name for cover in unsaid[1:]),
            mark="" if enough else "short",
            measured=None if enough else have + perhaps,
            required=needed,
            unit="covers",
            known=False,
        )
        return
    bare = tuple(cover for cover in packed if cover.insulating is False)
    first = good[0] if good else None
    yield Gap(
        subject=first.name if first else bare[0].name if bare else "insulating battery covers",
        what=_words(have, needed, bare[0].name if bare else ""),
        remedy="Pack one rubber mat for each battery, larger than its top.",
        command=f"kitlist tool edit {quoted(first.name)} count=NUMBER"
        if first
        else 'kitlist tool add "rubber mats" what=battery-cover count=NUMBER insulating=ANSWER'
        if bare
        else to_pack(case.kit, ToolKind.BATTERY_COVER, "battery covers", fields="insulating=ANSWER"),
        mark="" if first or not bare else "not insulating",
        measured=have if first or not bare else None,
        required=needed,
        unit="pieces",
    )


def _words(have: int, needed: int, bare: str) -> str:
    count = f"{have} of {needed} insulating battery covers packed" if have else f"0 of {needed} insulating"
    if bare:
        return f"{bare}: known not to insulate; {count}"
    return count if have else f"No insulating battery covers packed: 0 of {needed}"


RULE = Rule(
    name="battery-cover-missing",
    title="Battery covers missing",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Sparks find vents, and a spanner across two posts welds itself there.",
    remedy="One non-metal cover for each battery, larger than its top, sides open for gas.",
    sources=(PRACTICE,),
    check=check,
    mark="short",
    asks_for=(ToolKind.BATTERY_COVER,),
    good=example.whole,
    bad=lambda: example.with_tool(ToolKind.BATTERY_COVER, count=2),
)
