"""repair-not-known: a repair on the list whose part, steel, thickness or weld is not known."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Steel
from kitlist.outlook.repairs import RepairOutlook
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.steel import steel_named

_HARD = (Steel.SPRING, Steel.HARDENED, Steel.HIGH_STRENGTH)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair that lacks what its judgement needs."""
    for outlook in case.outlook.repairs:
        if outlook.repair_class is RepairClass.NEVER:
            continue
        repair = outlook.repair
        lacking = [
            words
            for words, field, lacks in (
                ("its steel", "steel=mild", repair.steel is Steel.UNKNOWN),
                ("its thickness", "thickness=5mm", repair.thickness_mm is None),
                ("how much weld", "weld-length=200mm", repair.weld_length_mm is None),
            )
            if lacks
        ]
        if lacking:
            yield Gap(
                subject=repair.name,
                what=f"{repair.name} cannot be judged; not known: {', '.join(lacking)}",
                remedy="Measure the part at home with calipers, and write it down.",
                command=f"kitlist repair edit {quoted(repair.name)} steel=STEEL thickness=MM weld-length=MM",
                known=False,
            )
        elif asked := _other_steel(outlook):
            yield Gap(
                subject=repair.name,
                what=f"{repair.name}: {asked}, and its steel is written down as {repair.steel}: which is it?",
                remedy="A magnet and a file tell: aluminium and most stainless hold no magnet, cast iron gives black "
                "dust, hardened steel turns the file. Put its steel or its words right.",
                command=f"kitlist repair edit {quoted(repair.name)} part=PART steel=STEEL",
                known=False,
            )
    missing_ones = set(case.trip.repairs) - {outlook.repair.name for outlook in case.outlook.repairs}
    for name in sorted(missing_ones):
        yield Gap(
            subject=name,
            what=f"{name} is on the trip's list, and nothing is known of it",
            remedy="Write down its part, steel, thickness and weld.",
            command=f"kitlist repair add {quoted(name)} part=PART",
            known=False,
        )


def _other_steel(outlook: RepairOutlook) -> str:
    """What its words or its part say of the steel, where that is not what is written down; "" where they agree.

    Of the three that no rutile rod suits the words are used for one another.
    """
    repair, named = outlook.repair, steel_named(f"{outlook.repair.name}, {outlook.repair.part}")
    part_steel = outlook.part.steel if outlook.part else None
    for steel, said in (
        (named.steel, f"'{named.said}' stands in its words") if named else (repair.steel, ""),
        (part_steel or repair.steel, f"a {outlook.part.name if outlook.part else ''} is of {part_steel} steel"),
    ):
        if steel is not repair.steel and not (steel in _HARD and repair.steel in _HARD):
            return said
    return ""


RULE = Rule(
    name="repair-not-known",
    title="A repair that cannot be judged",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="Rod, current and even whether it may be welded at all follow from part, steel and thickness.",
    remedy="Look at the vehicle at home, with calipers.",
    sources=(PRACTICE,),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(thickness_mm=None),
)
