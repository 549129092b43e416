"""safety-glasses-missing: fewer safety glasses than people, for chipping slag and grinding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import counted, gear, missing, to_pack


def check(case: Case) -> Iterator[Gap]:
    """A gap where there are fewer sound pairs than people; where nobody said how many go, two at the least."""
    packed = gear(case.kit, GearKind.SAFETY_GLASSES)
    have, people = counted(packed), case.trip.people
    needed = people or case.limits.people_least
    if have >= needed:
        return
    gap = missing(
        "safety glasses",
        "Pack a pair for each person; they are worn under the helmet too.",
        needed=needed if people or have else 1,
        have=have,
        unit="pairs",
        command=to_pack(case.kit, GearKind.SAFETY_GLASSES, "safety glasses"),
        subject=packed[0].name if packed else "",
    )
    if have and people is None:
        gap = replace(
            gap,
            known=False,
            mark="short",
            what=f"{have} pair of safety glasses packed; how many people go is not known",
        )
    yield gap


RULE = Rule(
    name="safety-glasses-missing",
    title="Too few safety glasses",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Slag springs off glowing, and goes into the eye of whoever bends to look.",
    remedy="A pair for each person, under the helmet too, for chipping and grinding.",
    sources=(Source(Tag.READ, "OSHA eye-protection fact sheet"), PRACTICE),
    check=check,
    mark="short",
    asks_for=(GearKind.SAFETY_GLASSES,),
    good=lambda: example.with_gear(GearKind.SAFETY_GLASSES, count=2),
    numbers=("people_least",),
    bad=lambda: example.with_gear(GearKind.SAFETY_GLASSES, count=1),
)
