"""trips-overlap: another trip in the same days that counts on the same bags, batteries or vehicles."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.days import said
from kitlist.base.sources import PRACTICE
from kitlist.kit import Trip
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap for each other trip that shares days with this one; a kit has one set of bags."""
    trip = case.trip
    for other in case.kit.trips:
        if other.name == trip.name or other.ends_on < trip.starts_on or other.starts_on > trip.ends_on:
            continue
        batteries = [name for name in trip.bank if name in other.bank]
        vehicles = [name for name in trip.vehicles if name in other.vehicles]
        shared = listed([*batteries, *vehicles]) or "the bags"
        yield Gap(
            subject=other.name,
            what=f"{other.name}, {said(other.starts_on)} to {said(other.ends_on)}, is away in the same days and counts "
            f"on {shared}{'' if shared == 'the bags' else ' and the bags'}",
            remedy="One of the two takes the kit: change the days of the other, or give it a kit of its own.",
            command=f"kitlist trip edit {quoted(other.name)} starts-on=DATE ends-on=DATE",
        )


def _beside(starts_on: date, ends_on: date) -> Example:
    other = Trip(name="Other", starts_on=starts_on, ends_on=ends_on, vehicles=("South",))
    return example.with_kit(trips=(example.whole().trip, other))


RULE = Rule(
    name="trips-overlap",
    title="Two trips that count on one kit",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="Both are ready on paper, and one of them stands on a track without the bag.",
    remedy="One kit, one trip at a time.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: _beside(date(2027, 3, 10), date(2027, 3, 12)),
    bad=lambda: _beside(date(2027, 3, 9), date(2027, 3, 12)),
)
