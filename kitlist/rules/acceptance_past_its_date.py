"""acceptance-past-its-date: a gap that was accepted to a day that has passed, or that the trip will pass."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.days import said
from kitlist.base.sources import PRACTICE
from kitlist.kit import Acceptance
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each acceptance of this trip that has run out, or runs out before the trip ends."""
    for acceptance in case.kit.acceptances:
        if acceptance.trip == case.trip.name and acceptance.until < case.on:
            yield Gap(
                subject=acceptance.rule,
                what=f"{acceptance.accepted_by} accepted {acceptance.rule} ({acceptance.subject}) to "
                f"{said(acceptance.until)}: {acceptance.reason}",
                remedy="Mend the gap, or accept it anew with a new end date; or take the acceptance back.",
                command=f"kitlist accept {acceptance.rule} --for {quoted(case.trip.name)} --take-back",
                measured=(case.on - acceptance.until).days,
                required=0,
                unit="days over",
            )
        elif acceptance.trip == case.trip.name and acceptance.until < case.trip.ends_on:
            yield Gap(
                subject=acceptance.rule,
                what=f"{acceptance.accepted_by} accepted {acceptance.rule} ({acceptance.subject}) to "
                f"{said(acceptance.until)}: the trip goes on to {said(case.trip.ends_on)}, and from the next day "
                "on the gap counts",
                remedy="Accept it to the last day of the trip, or mend the gap before that day.",
                command=f"kitlist accept {acceptance.rule} --for {quoted(case.trip.name)} --by NAME "
                f"--reason REASON --until {case.trip.ends_on.isoformat()}",
                measured=(case.trip.ends_on - acceptance.until).days,
                required=0,
                unit="days uncovered",
            )


def _accepted(until: date) -> Example:
    acceptance = Acceptance(
        name="link-without-spare: links (Example)",
        rule="link-without-spare",
        subject="links",
        severity="fix",
        trip="Example",
        accepted_by="Ada",
        reason="the spare comes with the second party",
        accepted_on=date(2027, 3, 1),
        until=until,
    )
    return example.with_kit(acceptances=(acceptance,))


RULE = Rule(
    name="acceptance-past-its-date",
    title="An accepted gap past its date",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="An exception without an end becomes the rule.",
    remedy="Every acceptance has an end; after it the gap counts again.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: _accepted(date(2027, 3, 9)),
    bad=lambda: _accepted(date(2027, 3, 3)),
)
