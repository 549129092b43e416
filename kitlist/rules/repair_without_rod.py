"""repair-without-rod: a repair to be ready for and no rod in the bags that may be used for it."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Steel
from kitlist.outlook.shaping import ShapedWay, ways_in_range
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair that can be judged, for which no packed rod may be used on this bank."""
    fits = [rod.fit for rod in case.outlook.rods if rod.fit is not None]
    if not fits or not any(fit.welds for fit in fits):
        return  # no-rod-for-bank or arc-out-of-reach says what to do
    ways: dict[str, tuple[ShapedWay, ...]] | None = None
    for outlook in case.outlook.repairs:
        repair = outlook.repair
        if outlook.repair_class in (None, RepairClass.NEVER) or outlook.best is not None or not outlook.cells:
            continue
        if Steel.UNKNOWN is repair.steel or repair.thickness_mm is None:
            continue  # repair-not-known says what to do
        if ways is None:
            ways = ways_in_range(case.kit, case.trip, on=case.on)
        best = next(iter(ways.get(repair.name, ())), None)
        cell = min(outlook.cells, key=lambda cell: cell.fit.suits.rank)
        yield Gap(
            subject=repair.name,
            what=f"No packed rod suits {repair.name}: {cell.rod.words} is nearest, but {cell.fit.why}",
            remedy="Pack a rod for its steel, thickness and position, or bolt and splint it instead."
            if best is None
            else f"{best.words[0].upper()}{best.words[1:]}. Or bolt and splint it instead.",
            command=f"kitlist repairs {quoted(case.trip.name)}",
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
