"""short-arc-only: a bank that lets only a short arc be held, which strikes hard and goes out when the hand lifts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from kitlist.base.days import said
from kitlist.base.measures import with_unit
from kitlist.kit import Bead
from kitlist.physics import figures
from kitlist.rules import example
from kitlist.rules.arc_out_of_reach import out_of_reach
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """Fix where the bank's longest arc is a short one; a note once somebody has welded with these batteries."""
    bank = case.outlook.bank
    if bank is None or bank.holds_mm is None or not only_short_arc(case):
        return
    longest_mm, tried = bank.holds_mm, bank.bead
    yield Gap(
        subject="bank",
        what=f"Short arc only, up to {with_unit(longest_mm, 'mm')}; strikes hard"
        + (f": welded so on {said(tried.welded_on)}, {tried.current_a:.0f} A" if tried else ""),
        remedy="Drag the rod, and strike on scrap before the part."
        if tried
        else "Try it on scrap first, with these batteries, leads and rods, and write the bead down; or link one more "
        "battery where that is allowed.",
        measured=longest_mm,
        required=figures.SHORT_ARC_MM.value,
        unit="mm",
        severity=Severity.NOTE if tried else None,
    )


def only_short_arc(case: Case) -> bool:
    """Whether the bank holds an arc, and only a short one; where it holds none, arc-out-of-reach speaks."""
    return case.outlook.bank is not None and case.outlook.bank.short_arc and not out_of_reach(case)


def with_two(*beads: Bead, **rod: Any) -> Example:
    """The whole kit with thin rods, welding from two batteries, and what beads were made."""
    rods = (example.rod("thin rods", **({"diameter_mm": 2.5, "length_mm": 300} | rod)),)
    made = example.with_kit(rods=rods, beads=beads)
    return replace(made, trip=replace(made.trip, bank=("north-second", "south-second")))


RULE = Rule(
    name="short-arc-only",
    title="Short arc only",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="Two batteries have hardly more volts than the arc takes: the rod must be held close, sticks at every strike "
    "and goes out when the hand lifts. Who has never done it fails beside the track.",
    remedy="A practice bead on scrap with this bank, or one more battery in series.",
    sources=(figures.SHORT_ARC_MM.source,),
    check=check,
    good=example.whole,
    bad=lambda: with_two(),
)
