"""eye-protection-missing: nothing to look at the arc through."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import GearKind
from kitlist.kit import Kit
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed

COVERS_FACE = (GearKind.HELMET, GearKind.HELMET_AUTO, GearKind.HAND_SHIELD)


def packed(kit: Kit, *kinds: GearKind) -> int:
    """How many pieces of gear of some kinds are packed and not known to be unsound."""
    return sum(gear.count for gear in kit.gear if gear.what in kinds and gear.sound is not False)


def shades_waiting(case: Case) -> str:
    """What to say where there is no current yet to judge the packed filters by; empty where none is packed."""
    names = [gear.name for gear in case.kit.gear if gear.what in COVERS_FACE and gear.count > 0]
    return f"; until then the shade of {listed(names, most=2)} cannot be judged" if names else ""


def check(case: Case) -> Iterator[Gap]:
    """A gap where there is neither helmet nor hand shield nor goggles."""
    if not packed(case.kit, *COVERS_FACE, GearKind.GOGGLES):
        yield Gap(
            subject="welding helmet",
            what="No welding helmet is packed: 0 of 1",
            remedy="Pack a helmet with the right filter; a second one for whoever holds the part.",
            measured=0,
            required=1,
            unit="helmets",
        )


RULE = Rule(
    name="eye-protection-missing",
    title="No eye protection",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="At one metre the ultraviolet of an arc passes a day's limit in seconds; the harm is felt hours later.",
    remedy="Never strike an arc without a helmet and filter, for everybody who can see it.",
    sources=(
        Source(Tag.READ, "29 CFR 1910.133(a)(5)"),
        Source(Tag.READ, "Ann. Occup. Hyg. 45(7):597: daily limit in 4 to 100 s at 1 m"),
    ),
    check=check,
    asks_for=(*COVERS_FACE, GearKind.GOGGLES),
    good=example.whole,
    bad=lambda: example.without_gear(*COVERS_FACE),
    acceptable=False,
)
