"""skin-uncovered: no jacket, nor apron with sleeves."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear, missing
from kitlist.welding.rods.skin import ISO_11611


def check(case: Case) -> Iterator[Gap]:
    """A gap where neither a jacket nor apron and sleeves are packed."""
    jacket = gear(case.kit, GearKind.JACKET)
    apron_and_sleeves = gear(case.kit, GearKind.APRON) and gear(case.kit, GearKind.SLEEVES)
    if not jacket and not apron_and_sleeves:
        yield missing("jacket", "Pack a leather or heavy cotton jacket, or apron and sleeves; wool or cotton beneath.")


RULE = Rule(
    name="skin-uncovered",
    title="Skin uncovered",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Arms and throat burn like sunburn within minutes, and spatter finds every open collar.",
    remedy="Leather or heavy cotton over all skin, no turn-ups, cap.",
    sources=(
        ISO_11611,
        Source(Tag.READ, "Ann. Occup. Hyg. 45(7):597: daily limit in 4 to 100 s at 1 m"),
    ),
    check=check,
    mark="missing",
    asks_for=(GearKind.JACKET, GearKind.APRON, GearKind.SLEEVES),
    good=example.whole,
    bad=lambda: example.without_gear(GearKind.JACKET),
)
