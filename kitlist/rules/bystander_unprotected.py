"""bystander-unprotected: more people at the weld than filters."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import COVERS_FACE
from kitlist.rules.packing import counted, gear, to_pack


def check(case: Case) -> Iterator[Gap]:
    """A gap where two or more people go and only one face cover is packed, or nobody said how many go."""
    covers = counted(gear(case.kit, *COVERS_FACE))
    people = case.trip.people
    least = case.limits.people_least
    if covers == 0 or covers >= least or (people is not None and people < 2):
        return
    yield Gap(
        subject="second filter",
        what=f"{covers} helmet or hand shield packed, {least} needed: one welds, one holds or watches"
        if people is not None
        else f"{covers} helmet or hand shield packed; how many people go is not known",
        remedy="Pack a second helmet or hand shield of the same shade: the watcher at the isolator sees every arc. "
        "Others 10 m off, back turned, for 10 min of arc in all; longer 20 m or a screen.",
        command=to_pack(case.kit, GearKind.HELMET, "second helmet"),
        measured=covers,
        required=least,
        unit="face covers",
        known=people is not None,
        severity=Severity.FIX if people is None else None,
    )


RULE = Rule(
    name="bystander-unprotected",
    title="No filter for the second person",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Whoever holds the part looks at the arc once, and has sand in the eyes for two days.",
    remedy="The same filter for everybody within 10 m who can see the arc.",
    sources=(
        Source(Tag.READ, "Ann. Occup. Hyg. 45(7):597: daily limit in 4 to 100 s at 1 m"),
        Source(Tag.SECOND_HAND, "TWI on trials of the US Army: the daily limit for 10 min of arc is met at 3 to 20 m"),
        PRACTICE,
    ),
    check=check,
    asks_for=(*COVERS_FACE, GearKind.GOGGLES),
    good=example.whole,
    bad=lambda: example.without_gear(*COVERS_FACE, also=(example.gear("helmet", GearKind.HELMET, shade=11),)),
    numbers=("people_least",),
    acceptable=False,
)
