"""out-of-date: gear, tool or own item that is past its date before the trip ends."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.days import said
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import stowed


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed thing, extinguishers apart, whose date is before the last day of the trip."""
    for thing in stowed(case.kit):
        expires_on = getattr(thing, "expires_on", None)
        if (
            expires_on is None
            or getattr(thing, "what", None) is ToolKind.EXTINGUISHER
            or expires_on >= case.trip.ends_on
        ):
            continue
        yield Gap(
            subject=thing.name,
            what=f"{thing.name}: good to {said(expires_on)}; the trip ends on {said(case.trip.ends_on)}",
            remedy="Replace it, or have it tested and write down the new date.",
            measured=(expires_on - case.trip.ends_on).days,
            required=0,
            unit="days",
        )


RULE = Rule(
    name="out-of-date",
    title="Past its date",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Dressings lose their seal, eye wash grows algae, straps and masks perish: they look whole.",
    remedy="Replace what ends before the trip does.",
    sources=(PRACTICE,),
    check=check,
    mark="out of date",
    good=lambda: example.with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 9)),
    bad=lambda: example.with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 8)),
)
