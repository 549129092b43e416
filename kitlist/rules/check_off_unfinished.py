"""check-off-unfinished: the bags have not been gone through for this trip, or not to the end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from kitlist.base.measures import counted
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed, stowed


def check(case: Case) -> Iterator[Gap]:
    """A gap where things are left unanswered on the day before departure or later."""
    answered = {(a.kind, a.name) for a in case.kit.checked if a.trip == case.trip.name}
    left = [thing.name for thing in stowed(case.kit) if (type(thing).__name__.lower(), thing.name) not in answered]
    days = (case.trip.starts_on - case.on).days
    if not left or days > case.limits.check_off_days:
        return
    yield Gap(
        subject="check-off",
        what=f"{counted(len(left), 'thing')} still to be answered for: {listed(left)}"
        if answered
        else f"Nobody has gone through the bags for {case.trip.name}",
        remedy="Go through the bags in walking order; a tick means safe and present.",
        command=f"kitlist check-off {quoted(case.trip.name)}",
        measured=len(left),
        required=0,
        unit="things",
    )


RULE = Rule(
    name="check-off-unfinished",
    title="Bags not gone through",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why=("What was in the bag last time was borrowed since. The list is only true once a hand has been on each thing."),
    remedy="Go through every bag the day before, to the last line.",
    sources=(
        PRACTICE,
        Source(Tag.SECOND_HAND, "CAA CAP 676: do, then verify"),
    ),
    check=check,
    good=example.whole,
    bad=lambda: replace(example.whole(), on=date(2027, 3, 5)),
    numbers=("check_off_days",),
)
