"""date-in-the-future: something that is said to have happened on a day that is still to come."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.days import said
from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each thing with such a date; everywhere else the date counts as not written down."""
    for slip in case.slips:
        yield Gap(
            subject=slip.name,
            what=f"{slip.name}: {slip.field.replace('_', ' ')} {said(slip.day)} is still to come: not counted",
            remedy="Look at it again, and write down the day on which it was.",
            command=slip.command,
            known=False,
        )


RULE = Rule(
    name="date-in-the-future",
    title="A day that is still to come",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="A slip of the pen in a year makes a stale thing fresh for a whole season.",
    remedy="The day on which it was, or none.",
    sources=(PRACTICE,),
    check=check,
    mark="date?",
    mark_not_known="date?",
    good=lambda: example.with_kit(rods=(example.rod("thick rods", opened_on=date(2027, 3, 4)),)),
    bad=lambda: example.with_kit(rods=(example.rod("thick rods", opened_on=date(2028, 2, 20)),)),
)
