"""Counting what is there: what is asked in which order, how many are usual, and what its label says besides."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from functools import cache

from kitlist.base import names, resources
from kitlist.base.errors import NotFound
from kitlist.base.fields import plural
from kitlist.base.terms import GearKind, ToolKind
from kitlist.kit import Kit
from kitlist.trips.check_off import KINDS, Line, lines

ON_THE_LABEL: dict[str, tuple[tuple[str, str], ...]] = {
    GearKind.HELMET: (("shade", "shade number on its filter"),),
    GearKind.HELMET_AUTO: (("shade", "darkest shade on its label"), ("lowest_c", "coldest it works at, by its label")),
    GearKind.HAND_SHIELD: (("shade", "shade number on its filter"),),
    GearKind.SPARE_FILTER: (("shade", "shade number on it"),),
    ToolKind.VOLTMETER: (("rating_v", "DC volts it reads to"),),
    ToolKind.ISOLATOR: (("rating_a", "amps on it"), ("rating_v", "DC volts on it")),
    ToolKind.FUSE: (("rating_a", "amps on it"), ("rating_v", "DC volts on it")),
    ToolKind.EXTINGUISHER: (
        ("amount_kg", "kilograms on its label"),
        ("expires_on", "the day until which it may be relied on: its next test, or the end date on it"),
    ),
    ToolKind.WATER: (("volume_l", "litres of water in all"),),
    ToolKind.EYE_WASH: (("volume_l", "litres in all"),),
}
"""What decides whether a thing will do and stands on it: asked for when it is there, never filled in as usual."""


FOR_EYES = (GearKind.HELMET, GearKind.HELMET_AUTO, GearKind.HAND_SHIELD)


def usual(line: Line, *, people: int | None = None) -> int:
    """How many a careful crew of so many carries (common practice); 0 where no number is usual, as of rods in a packet.

    With two people or more nobody's helmet is counted by habit: the second one needs one as well.
    """
    what = getattr(line.thing, "what", None)
    if line.kind in ("rod", "lead") or (what in FOR_EYES and (people or 0) > 1):
        return 0
    many = _usual().get((line.kind, str(what)), 1)
    return people or many if what is GearKind.SAFETY_GLASSES else many


def whom_for(line: Line, *, people: int | None) -> str:
    """Who needs one of these, where the number of people decides how many; "" for the rest."""
    what = getattr(line.thing, "what", None)
    if people is None or people < 2 or what not in (*FOR_EYES, GearKind.SAFETY_GLASSES):
        return ""
    return f"{people} people go: one each" + ("" if what is GearKind.SAFETY_GLASSES else " for who sees the arc")


@cache
def _usual() -> dict[tuple[str, str], int]:
    path = resources.folder("seed_data") / "reference" / "usual_counts.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return {(row["kind"], row["what"]): int(row["usual"]) for row in csv.DictReader(file)}


def to_count(kit: Kit, what: str | None = None, *, every: bool = False) -> tuple[Line, ...]:
    """The things to count, bag by bag: of one kind or bag, or all that stands at 0. Raises NotFound.

    `every` takes in what has a count already.
    """
    found = lines(kit)
    if what is None:
        return tuple(line for line in found if every or not line.thing.count)
    kinds = {word: kind for kind in KINDS for word in (kind, plural(kind))}
    if what.casefold() in kinds:
        return tuple(line for line in found if line.kind == kinds[what.casefold()])
    try:
        bag = names.resolve(what, [bag.name for bag in kit.bags], what="bag or kind")
    except NotFound as error:
        raise NotFound(error.message, hint=f"{error.hint} Kinds: {', '.join(KINDS)}.") from None
    return tuple(line for line in found if line.thing.bag == bag)


def asked_besides(line: Line) -> Sequence[tuple[str, str]]:
    """The fields of a thing that stand on it and are not known yet: (field, what to read)."""
    fields = ON_THE_LABEL.get(str(getattr(line.thing, "what", "")), ())
    return [(field, words) for field, words in fields if getattr(line.thing, field) is None]
