"""repair-never: a repair on the trip's list that no weld may be trusted with."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.steel import cadmium_named


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair whose part is never welded, or that is plated with cadmium."""
    for outlook in case.outlook.repairs:
        if outlook.part is not None and outlook.repair_class is RepairClass.NEVER:
            yield Gap(
                subject=outlook.repair.name,
                what=f"{outlook.repair.name} must not be welded. {outlook.part.rule}",
                remedy="Take it off the list; carry the spare part, or plan to be fetched.",
                command=without_command(case, outlook.repair.name),
            )
        else:
            yield from _cadmium(f"{outlook.repair.name} {outlook.repair.part}", outlook.repair.name, case)


def _cadmium(words: str, name: str, case: Case) -> Iterator[Gap]:
    """Plated with cadmium, by its words; not to be told from zinc by eye, so unknown gold plating counts."""
    if cadmium_named(words):
        yield Gap(
            subject=name,
            what=f"{name}: cadmium on the steel; its fume kills, and is not felt until hours later",
            remedy="Never weld, heat or grind it: bolt or strap it, or carry a plain steel part.",
            command=without_command(case, name),
        )


def without_command(case: Case, name: str) -> str:
    """What to type to take a repair off the trip's list."""
    others = ",".join(repair for repair in case.trip.repairs if repair != name) or "none"
    return f"kitlist trip edit {quoted(case.trip.name)} repairs={quoted(others)}"


RULE = Rule(
    name="repair-never",
    title="A repair that must never be welded",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Wheels, brakes, tanks, tow hooks, belts and pressure vessels kill when a weld lets go, or while it is made.",
    remedy="Spares, not welds.",
    sources=(
        Source(Tag.READ, "Michigan R 408.17235: wheels"),
        Source(Tag.READ, "Ontario alert on welding containers"),
        Source(Tag.READ, "29 CFR 1910.1027: cadmium 5 µg/m³ over 8 h"),
        Source(Tag.READ, "NZ Transport Agency, vehicle inspection 12-1: coupling pins, tow hooks"),
        Source(Tag.READ, "US Army Corps EM 385-1-1 section 15.E: shackles"),
        PRACTICE,
    ),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(part="wheel"),
    acceptable=False,
)
