"""not-in-a-bag: packed things that no bag holds: nobody finds them, nobody misses them."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed, stowed


def check(case: Case) -> Iterator[Gap]:
    """One gap that names what has no bag."""
    things = [thing for thing in stowed(case.kit) if thing.bag is None]
    homeless = [thing.name for thing in things]
    if homeless:
        yield Gap(
            subject=homeless[0],
            what=f"In no bag: {listed(homeless)}",
            remedy="Give each a bag and a place; the sheet is walked bag by bag.",
            command=f"kitlist {type(things[0]).__name__.lower()} edit {quoted(homeless[0])} bag=BAG",
            measured=len(homeless),
            required=0,
            unit="things",
        )


RULE = Rule(
    name="not-in-a-bag",
    title="Things without a bag",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why="What has no place is in the other vehicle.",
    remedy="A bag for everything.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_lead("link", bag=None),
)
