"""help-distance-not-known: nobody has said how many days help is away."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the trip has no days from help."""
    if case.trip.days_from_help is None:
        yield Gap(
            subject=case.trip.name,
            what="How many days help is away is not known; spares are reckoned by it",
            remedy="Reckon from the farthest point, with the vehicle that broke left behind.",
            command=f"kitlist trip edit {quoted(case.trip.name)} days-from-help=DAYS",
            known=False,
        )


RULE = Rule(
    name="help-distance-not-known",
    title="Distance from help not known",
    severity=Severity.FIX,
    doing=Doing.ASK,
    why="Near a town a missing spare is a nuisance; three days out it decides everything.",
    remedy="Write it down; what is a note near help is to be mended far from it.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_trip(days_from_help=None),
    numbers=("far_days",),
)
