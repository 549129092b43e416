"""mask-missing: no mask, or none that is known to be good enough, against fume; graver where zinc is to be welded."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import GearKind
from kitlist.kit import Gear
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear, listed, to_pack
from kitlist.rules.zinc_on_the_weld import zinced
from kitlist.welding.rods.skin import MASK_CLASS_LEAST, mask_class

_PACK = "Pack P2, FFP2 or better masks that fit under the helmet; and stay upwind, head out of the plume."
_READ = "Read its class off the mask, and write it down."


def check(case: Case) -> Iterator[Gap]:
    """A gap where no mask of class 2 or better is packed, or none is known to be."""
    masks = gear(case.kit, GearKind.MASK)
    classes = [(mask_class(mask.protection), mask) for mask in masks]
    known = [number for number, _ in classes if number is not None]
    if max(known, default=0) >= MASK_CLASS_LEAST:
        return
    unsaid = next((mask for number, mask in classes if number is None), None)
    zinc = zinced(case)
    for_zinc = f"; zinc is welded at {listed(zinc)}" if zinc else ""
    yield Gap(
        subject=(unsaid or masks[0]).name if masks else "fume mask",
        what=_words(masks, unsaid) + for_zinc,
        remedy=f"{_READ} {_PACK}" if unsaid else _PACK,
        command=f"kitlist gear edit {quoted(unsaid.name)} protection=CLASS"
        if unsaid
        else 'kitlist gear add "FFP2 masks" what=mask protection=CLASS'
        if masks
        else to_pack(case.kit, GearKind.MASK, "fume masks", fields="protection=CLASS"),
        mark="too weak" if masks and not unsaid else "",
        measured=None if unsaid else max(known, default=0),
        required=MASK_CLASS_LEAST,
        unit="class of filter",
        known=unsaid is None,
        severity=None if zinc else Severity.NOTE,
    )


def _words(masks: tuple[Gear, ...], unsaid: Gear | None) -> str:
    if not masks:
        return "No fume mask packed: 0 of 1"
    if unsaid is not None:
        return f"{unsaid.name}: its class is not known; P2 or FFP2 at the least"
    return f"{masks[0].name}: {masks[0].protection}; P2 or FFP2 at the least"


def _masked(protection: str) -> Example:
    return example.with_gear(GearKind.MASK, protection=protection)


RULE = Rule(
    name="mask-missing",
    title="No mask, or one too weak, against fume",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=("Welding fume causes cancer, mild steel's too; zinc off galvanised steel gives a fever the same night."),
    remedy="P2, FFP2 or better under the helmet, upwind, paint and zinc ground off first.",
    sources=(
        Source(Tag.READ, "TWI on the HSE alert of 2019"),
        Source(Tag.SECOND_HAND, "AWS Safety Fact Sheet 25: zinc oxide"),
        PRACTICE,
    ),
    check=check,
    mark="missing",
    asks_for=(GearKind.MASK,),
    good=lambda: _masked("FFP2"),
    bad=lambda: _masked("FFP1"),
)
