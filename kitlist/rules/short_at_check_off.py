"""short-at-check-off: something was found missing, damaged or too few when the bags were gone through."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.kit.checked import Answer, CheckedOff
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each thing whose newest answer, on this trip or one before it, found fewer than are recorded."""
    for found in case.kit.checked:
        if found.short and found.answer is not Answer.HOME:  # whether the trip can do without it, other rules say
            yield Gap(
                subject=found.name,
                what=f"{found.name}: {found.words}, noted by {found.checked_by} on {found.checked_at:%Y-%m-%d}",
                remedy="Find, mend or replace it, then answer for it again.",
                command=f"kitlist check-off {quoted(case.trip.name)} {quoted(found.name + '=ANSWER')}",
                measured=found.count,
                required=found.expected,
                unit="pieces",
            )


def _bad() -> Example:
    whole = example.whole()
    timer = example.tool("timer", ToolKind.TIMER, count=0)
    found = CheckedOff(
        trip=whole.trip.name,
        kind="tool",
        name="timer",
        answer=Answer.MISSING,
        count=0,
        expected=1,
        checked_by="Ada",
        checked_at=datetime(2027, 3, 3, 18, 0),  # noqa: DTZ001 - answers are kept in local time
    )
    return replace(whole, kit=replace(whole.kit, tools=(*whole.kit.tools, timer), checked=(found,)))


RULE = Rule(
    name="short-at-check-off",
    title="Found short when the bags were gone through",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="What is on the list and not in the bag, or broken, is found out at the worst place.",
    remedy="Find, mend or replace it before leaving, or take it off the list.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=_bad,
    mark="short at check-off",
)
