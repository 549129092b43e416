"""coldest-not-known: nobody has said how cold it will get."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE
from kitlist.physics import figures
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the trip has no coldest temperature: floors and cranking are then judged as if it froze."""
    if case.trip.coldest_c is None:
        yield Gap(
            subject=case.trip.name,
            what="The coldest night is not known: floors are set as for "
            f"{with_unit(figures.COLD_NOT_KNOWN_C.value, '°C')}, cranking cannot be judged",
            remedy="Look up the coldest and the hottest to be expected, and write them down.",
            command=f"kitlist trip edit {quoted(case.trip.name)} coldest=CELSIUS hottest=CELSIUS",
            known=False,
        )


def _bad() -> Example:
    few = example.with_kit(rods=(example.rod("thick rods", count=3),))
    return replace(few, trip=replace(few.trip, coldest_c=None))


RULE = Rule(
    name="coldest-not-known",
    title="Coldest night not known",
    severity=Severity.FIX,
    doing=Doing.ASK,
    why="Cold takes cranking power and raises the floor that must be left in every battery.",
    remedy="Write down the coldest and hottest that may be met.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=_bad,
)
