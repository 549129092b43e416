"""danger-behind-the-weld: a repair with fuel, brake line, wiring or airbag behind it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.sources import PRACTICE, Source, Tag
from kitlist.welding.parts import RepairClass

_DANGERS = (
    (
        r"\b(fuel|petrol|diesel|tank|lpg)\b",
        "fuel",
        "Fuel: move or drain it well away, cap the line, or do not weld there.",
    ),
    (r"\bbrake|\bhydraulic", "brake line", "Brake line: unclip it and hold it clear behind a wet cloth and a plate."),
    (
        r"\bwir(e|ing)|\bloom|\bcable|\bharness",
        "wiring",
        "Wiring: unplug and lift it 300 mm clear, welding blanket over it.",
    ),
    (
        r"\bair ?bag|\bsrs\b|\bpretension",
        "airbag",
        "Airbag: both battery cables off, negative first, wait; module out within 300 mm.",
    ),
    (r"\bbatter", "battery", "Battery: out and 3 m away, crosswind of the arc."),
    (r"\b(air|gas) (spring|strut)|\bshock", "gas or air spring", "Gas or air spring: off the vehicle; heat bursts it."),
)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair with a danger behind it, saying what to do about each."""
    for outlook in case.outlook.repairs:
        words = outlook.repair.behind.casefold()
        found = [(danger, do) for pattern, danger, do in _DANGERS if re.search(pattern, words)]
        if found and outlook.repair_class is not RepairClass.NEVER:
            yield Gap(
                subject=outlook.repair.name,
                what=f"Behind {outlook.repair.name}: {outlook.repair.behind}",
                remedy=" ".join(do for _, do in found),
            )


RULE = Rule(
    name="danger-behind-the-weld",
    title="Something behind the weld that burns or bursts",
    severity=Severity.NOTE,
    why="What is behind the weld is forgotten the moment the helmet comes down.",
    remedy="Move it, drain it, disconnect it, or do not weld there.",
    sources=(
        PRACTICE,
        Source(Tag.PRACTICE, "collision-repair guidance: modules within 300 mm out, airbag supply off, negative first"),
    ),
    check=check,
    good=lambda: example.with_repair(behind="a bare cross-member"),
    bad=lambda: example.with_repair(behind="brake line"),
)
