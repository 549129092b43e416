"""clothing-class-too-low: a jacket of a lower class than the rods and positions ask for, or of none that is known."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kitlist.base.terms import GearKind, Position
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear
from kitlist.welding.rods.skin import ISO_11611, clothing_class

_CLASS = re.compile(r"\bclass\s*([12])\b", re.IGNORECASE)


def check(case: Case) -> Iterator[Gap]:
    """A gap for the best packed jacket or apron under the class that the hardest work asks for."""
    garments = gear(case.kit, GearKind.JACKET, GearKind.APRON)
    coverings = [rod.designation.covering for rod in case.outlook.rods if rod.designation is not None]
    if not garments or not coverings:
        return
    overhead = any(o.repair.position is Position.OVERHEAD for o in case.outlook.repairs)
    asked = max(
        (clothing_class(c, position=Position.OVERHEAD if overhead else Position.FLAT) for c in coverings),
        key=lambda clothing: clothing.class_number,
    )
    classes = [int(found[1]) for g in garments if (found := _CLASS.search(g.protection))]
    if max(classes, default=0) < asked.class_number:
        yield Gap(
            subject=garments[0].name,
            what=f"{garments[0].name}: {f'class {max(classes)}' if classes else 'its class is not known'}; "
            f"class {asked.class_number} is asked for ({asked.why})",
            remedy="Pack leather or ISO 11611 class 2; until then keep out from under the weld.",
            command="" if classes else f"kitlist gear edit {quoted(garments[0].name)} protection=CLASS",
            measured=max(classes, default=None),
            required=asked.class_number,
            unit="ISO 11611 class",
            known=bool(classes),
        )


RULE = Rule(
    name="clothing-class-too-low",
    title="Clothing of too low a class",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why=("Class 1 is for light spatter. Basic and cellulosic rods spit, and overhead it all falls on the welder."),
    remedy="Class 2 for basic, cellulosic and overhead.",
    sources=(ISO_11611,),
    check=check,
    good=lambda: example.with_gear(GearKind.JACKET, protection="ISO 11611 class 1"),
    bad=lambda: example.with_gear(GearKind.JACKET, protection=""),
)
