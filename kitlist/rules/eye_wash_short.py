"""eye-wash-short: less clean water at the batteries than acid in an eye takes."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where the packed eye wash is short, or its volume not known."""
    packed = tools(case.kit, ToolKind.EYE_WASH)
    least_l = case.limits.eye_wash_least_l
    have_l = sum((tool.volume_l or 0) * tool.count for tool in packed)
    if have_l >= least_l:
        return
    unsaid = any(tool.volume_l is None for tool in packed)
    yield Gap(
        subject=packed[0].name if packed else "eye wash",
        what=f"{packed[0].name}: how much it holds is not known; {least_l:g} L at the least"
        if unsaid
        else f"{have_l:g} L of eye wash, {least_l:g} L at the least",
        remedy="Carry clean water in squeeze bottles at the batteries; flush 15 min, then a doctor.",
        command=f"kitlist tool edit {quoted(packed[0].name)} volume=LITRES" if unsaid else "",
        measured=None if unsaid else have_l,
        required=least_l,
        unit="L",
        known=not unsaid,
    )


RULE = Rule(
    name="eye-wash-short",
    title="Too little eye wash",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Battery acid is 35 % sulphuric. Fifteen minutes of flushing decide whether the eye sees again.",
    remedy="2 L of clean water at the batteries.",
    sources=(
        Source(Tag.READ, "TM 9-2350-287-20-2: flush 15 min or more"),
        Source(Tag.SECOND_HAND, "29 CFR 1926.441"),
        PRACTICE,
    ),
    check=check,
    mark="short",
    asks_for=(ToolKind.EYE_WASH,),
    good=example.whole,
    bad=lambda: example.with_tool(ToolKind.EYE_WASH, volume_l=1.9),
    numbers=("eye_wash_least_l",),
)
