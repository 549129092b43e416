"""face-uncovered: goggles where a helmet is needed."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import GearKind
from kitlist.kit import Gear
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import COVERS_FACE, packed


def check(case: Case) -> Iterator[Gap]:
    """A gap where goggles are all there is before the face."""
    if packed(case.kit, GearKind.GOGGLES) and not packed(case.kit, *COVERS_FACE):
        yield Gap(
            subject="face",
            what="Goggles only: face, neck and ears are bare to the arc and to spatter",
            remedy="Pack a welding helmet. Goggles are for gas welding; they stay at home.",
            measured=0,
            required=1,
            unit="helmets",
        )


RULE = Rule(
    name="face-uncovered",
    title="Face uncovered",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Goggles stop the light before the eyes alone: skin burns like sunburn in minutes, and spatter is not stopped.",
    remedy="A helmet that covers face, ears and neck, with cotton or leather below it.",
    sources=(Source(Tag.READ, "Tenkate, SJWEH 2017: cheeks behind helmets took 4 and 9 times the limit in one case"),),
    check=check,
    asks_for=COVERS_FACE,
    good=example.whole,
    bad=lambda: example.without_gear(
        *COVERS_FACE, also=(Gear(name="goggles", what=GearKind.GOGGLES, shade=11, sound=True),)
    ),
    acceptable=False,
)
