"""thin-steel-polarity: thin steel and a rod that melts shallower the other way round."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import BallastMetal, Polarity, ToolKind
from kitlist.kit import Ballast
from kitlist.outlook.hardware import said_polarity
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap that names the thin repairs whose best rod may also run with the holder at minus, where plus is printed."""
    if said_polarity(case.outlook.rods) is not Polarity.DCEP:
        return
    either = [
        o.repair.name
        for o in case.outlook.repairs
        if o.best is not None
        and o.best.rod.designation is not None
        and Polarity.DCEN in o.best.rod.designation.polarities
        and o.repair.thickness_mm is not None
        and o.repair.thickness_mm < case.limits.thin_steel_mm
    ]
    if either:
        yield Gap(
            subject=either[0],
            what=f"{listed(either)}: under {case.limits.thin_steel_mm:g} mm, and the rod runs either way",
            remedy=f"{Polarity.DCEN.words} melts shallower and burns through less; turn the whole circuit, never one "
            "lead, and only where every rod used allows it.",
            also=tuple(either[1:]),
        )


def _behind_a_strip(thickness_mm: float) -> Example:
    """Thin rods behind a ballast strip, for steel that they suit."""
    strip = Ballast(
        name="strip", metal=BallastMetal.STAINLESS, width_mm=40, thickness_mm=1.5, length_m=5, bag=example.BAG
    )
    thin = example.with_repair(thickness_mm=thickness_mm)
    plate = example.tool("thin plate", ToolKind.SCRAP_PLATE, thickness_mm=thickness_mm)
    kit = replace(
        thin.kit,
        ballasts=(strip,),
        rods=(example.rod("rods", diameter_mm=3.2, count=4),),
        tools=(*thin.kit.tools, plate),
    )
    return replace(thin, kit=kit, trip=replace(thin.trip, ballast="strip"))


RULE = Rule(
    name="thin-steel-polarity",
    title="Thin steel, and a rod that runs either way",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why="With the holder at plus a covered rod digs deeper; thin steel holds better with the holder at minus.",
    remedy="One polarity a card: thin steel is a reason for the other one.",
    sources=(Source(Tag.MEMORY, "AWS Welding Handbook vol. 2: DCEN melts faster and shallower, for thin metal"),),
    check=check,
    numbers=("thin_steel_mm",),
    good=lambda: _behind_a_strip(4.0),
    bad=lambda: _behind_a_strip(3.9),
)
