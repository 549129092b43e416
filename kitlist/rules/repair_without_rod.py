"""repair-without-rod: a repair to be ready for and no rod in the bags that may be used for it."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Steel
from kitlist.outlook.cures import cures
from kitlist.outlook.shaping import Shaping
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap for the repairs that can be judged, and that no packed rod may be used for; like ones together."""
    if not any(rod.welds for rod in case.outlook.rods):
        return  # no-usable-rod, no-rod-for-bank or arc-out-of-reach says what to do
    shaping: Shaping | None = None
    alike: dict[tuple[str, str, tuple[str, ...]], list[str]] = {}
    for outlook in case.outlook.repairs:
        repair = outlook.repair
        if outlook.repair_class in (None, RepairClass.NEVER) or outlook.best is not None or not outlook.cells:
            continue
        if Steel.UNKNOWN is repair.steel or repair.thickness_mm is None:
            continue  # repair-not-known says what to do
        shaping = shaping or Shaping(case.kit, case.trip, on=case.on)
        cell = min(outlook.cells, key=lambda cell: cell.fit.suits.rank)
        found: tuple[str, ...] = ()
        for bought in (False, True):  # what is to buy is tried only where nothing that the crew has is a cure
            if not found:
                ways = shaping.ways_of(repair.name, bought=bought)
                found = cures(case.outlook, case.trip, repair, cell, ways=ways)
        alike.setdefault((cell.rod.words, cell.fit.why, found), []).append(repair.name)
    for (words, why, found), names in alike.items():
        either = "; or ".join(found)
        yield Gap(
            subject=names[0],
            what=f"No packed rod suits {listed(names)}: {words} is nearest, but {why}",
            remedy=f"{either[0].upper()}{either[1:]}. Or bolt and splint it instead."
            if either
            else "Pack a rod for its steel, thickness and position, or bolt and splint it instead.",
            command=f"kitlist repairs {quoted(case.trip.name)}",
            also=tuple(names[1:]),
        )


RULE = Rule(
    name="repair-without-rod",
    title="A repair that no packed rod suits",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Rods are chosen in a shop with time, not at a track with a broken hanger.",
    remedy="A rod for each repair, or no such repair.",
    sources=(PRACTICE,),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(steel=Steel.CAST_IRON),
)
