"""spare-filter-missing: no spare lens: a cracked one ends all welding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear, missing


def check(case: Case) -> Iterator[Gap]:
    """A gap where no spare filter is packed; a note when help is near."""
    if gear(case.kit, GearKind.SPARE_FILTER):
        return
    days = case.trip.days_from_help
    near = days is not None and days <= case.limits.far_days
    gap = missing("spare filter", "Pack a passive filter of the same shade and size, in a sleeve; no cell to fail.")
    yield replace(gap, severity=Severity.NOTE) if near else gap


RULE = Rule(
    name="spare-filter-missing",
    title="No spare filter",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Filters crack in the bag and scratch on sand. A passive one has no cell to fail in the cold.",
    remedy="One spare filter for each helmet that welds.",
    sources=(PRACTICE,),
    check=check,
    mark="missing",
    asks_for=(GearKind.SPARE_FILTER,),
    good=example.whole,
    bad=lambda: example.without_gear(GearKind.SPARE_FILTER),
    numbers=("far_days",),
)
