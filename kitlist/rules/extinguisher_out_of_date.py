"""extinguisher-out-of-date: an extinguisher that runs out before the trip ends, or whose date nobody wrote down."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.days import said
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Extinguishant, ToolKind
from kitlist.kit import Tool
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.extinguisher_wrong_kind import RIGHT_AGENTS
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed extinguisher is good to the last day of the trip."""
    every = tools(case.kit, ToolKind.EXTINGUISHER)
    packed = [tool for tool in every if tool.agent in RIGHT_AGENTS] or every  # a CO2 in date makes no powder good
    dated = [tool.expires_on for tool in packed if tool.expires_on is not None]
    if not packed or (dated and max(dated) >= case.trip.ends_on):
        return
    if not dated:
        yield Gap(
            subject=packed[0].name,
            what=f"{packed[0].name}: the date to which it is good is not written down",
            remedy="Read the date off its tag, and write it down.",
            command=f"kitlist tool edit {quoted(packed[0].name)} expires-on=DATE",
            known=False,
        )
        return
    yield Gap(
        subject=packed[0].name,
        what=f"{packed[0].name} is good to {said(max(dated))}; the trip ends on {said(case.trip.ends_on)}",
        remedy="Have it serviced or replace it before leaving.",
        measured=(max(dated) - case.trip.ends_on).days,
        required=0,
        unit="days",
    )


def _extinguisher(expires_on: date) -> Tool:
    return example.tool(
        "extinguisher", ToolKind.EXTINGUISHER, agent=Extinguishant.POWDER, amount_kg=2, expires_on=expires_on
    )


RULE = Rule(
    name="extinguisher-out-of-date",
    title="Extinguisher past its date",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Pressure leaks and powder cakes: past its date it may do nothing when it is wanted.",
    remedy="Service or replace it before leaving.",
    sources=(PRACTICE,),
    check=check,
    mark="out of date",
    good=lambda: example.without_tool(ToolKind.EXTINGUISHER, also=(_extinguisher(date(2027, 3, 9)),)),
    bad=lambda: example.without_tool(ToolKind.EXTINGUISHER, also=(_extinguisher(date(2027, 3, 8)),)),
)
