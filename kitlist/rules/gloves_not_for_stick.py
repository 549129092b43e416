"""gloves-not-for-stick: gloves of the thin type, or of a type that nobody wrote down."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear
from kitlist.welding.rods.skin import EN_12477, GLOVES

_TYPE_A = re.compile(r"\btype\s*a\b|(?<!\d)12477(?:[:-]\d{4})?\s*[-,:]?\s*a\b(?!\s*/\s*b)", re.IGNORECASE)


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed pair is known to be type A."""
    pairs = gear(case.kit, GearKind.GLOVES)
    if not pairs or any(_TYPE_A.search(pair.protection) for pair in pairs):
        return
    said = pairs[0].protection
    yield Gap(
        subject=pairs[0].name,
        what=f"{pairs[0].name}: {said or 'their type is not written down'}; wanted: {GLOVES}",
        remedy="Read the label inside the cuff; pack gauntlets of type A." if not said else "Pack gauntlets of type A.",
        command=f"kitlist gear edit {quoted(pairs[0].name)} protection=CLASS" if not said else "",
        known=bool(said),
    )


RULE = Rule(
    name="gloves-not-for-stick",
    title="Gloves not for stick welding",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=(
        "Thin gloves are for the small arc of another process: stick spatter goes through them, and a hot stub at once."
    ),
    remedy="EN 12477 type A, 340 mm or longer.",
    sources=(EN_12477,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_gear(GearKind.GLOVES, protection="EN 12477 type B"),
)
