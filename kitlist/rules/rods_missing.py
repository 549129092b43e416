"""rods-missing: no rods in any bag."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import shades_waiting


def check(case: Case) -> Iterator[Gap]:
    """A gap where no rod is packed."""
    if not case.outlook.rods:
        yield Gap(
            subject="rods",
            what="No rods are packed: 0 of 1 packet" + (shades_waiting(case) if case.trip.bank else ""),
            remedy="Pack E6013 of 3.2 mm in a dry tube to begin with.",
            measured=0,
            required=1,
            unit="packets",
        )


RULE = Rule(
    name="rods-missing",
    title="No rods",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="A bank without rods welds nothing.",
    remedy="Pack rods that suit the bank and the steel.",
    sources=(PRACTICE,),
    check=check,
    asks_for=("rod",),
    good=example.whole,
    bad=lambda: example.with_kit(rods=()),
)
