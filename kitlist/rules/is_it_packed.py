"""The rules that only ask "is it packed?": a row each, voltmeter-missing, burns-kit-missing and the like."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import GearKind, ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear, missing, tools
from kitlist.welding.rods.skin import EN_12477


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """One thing that must be packed: which, what it is called, how to pack it, and what the rule says of it."""

    name: str
    title: str
    severity: Severity
    what: ToolKind | GearKind
    called: str
    pack: str
    why: str
    remedy: str
    sources: tuple[Source, ...] = (PRACTICE,)
    unit: str = "pieces"

    @property
    def rule(self) -> Rule:
        """The rule of the row."""
        return Rule(
            name=self.name,
            title=self.title,
            severity=self.severity,
            doing=Doing.GET,
            why=self.why,
            remedy=self.remedy,
            sources=self.sources,
            check=_check(self),
            mark="missing",
            asks_for=(self.what,),
            good=example.whole,
            bad=lambda: _without(self),
        )


def _check(row: Packed) -> Callable[[Case], Iterator[Gap]]:
    def check(case: Case) -> Iterator[Gap]:
        """A gap where it is not packed; gear that is unsound counts as not packed."""
        what = row.what
        there = tools(case.kit, what) if isinstance(what, ToolKind) else gear(case.kit, what)
        if not there:
            yield missing(row.called, row.pack, unit=row.unit)

    return check


def _without(row: Packed) -> Example:
    if isinstance(row.what, ToolKind):
        return example.without_tool(row.what)
    return example.without_gear(row.what)


VOLTMETER = Packed(
    name="voltmeter-missing",
    title="No voltmeter",
    severity=Severity.STOP,
    what=ToolKind.VOLTMETER,
    called="voltmeter",
    pack="Pack one with two decimals, 0.5 % or better, and spare cells for it.",
    why="A link the wrong way round shows only on the meter: +25.3 or +37.9 V is right, 0 or 12 V is a dead "
    "short about to be closed.",
    remedy="Measure before the last connection, every time.",
)
CLAMP_METER = Packed(
    name="clamp-meter-missing",
    title="No clamp meter",
    severity=Severity.NOTE,
    what=ToolKind.CLAMP_METER,
    called="clamp meter",
    pack="Pack one that reads direct current to 400 A.",
    why="What the current really is narrows every prediction to half; without a meter it stays a guess.",
    remedy="A DC clamp meter to 400 A; weld a practice bead and write both readings down.",
)
BURNS_KIT = Packed(
    name="burns-kit-missing",
    title="Nothing to treat burns with",
    severity=Severity.FIX,
    what=ToolKind.FIRST_AID_BURNS,
    called="burns kit",
    pack="Pack burn dressings and eye pads; cool burns 20 min with clean water first.",
    why="The likely injuries are burns and arc eye, hours from a doctor.",
    remedy="Burn dressings, eye pads, and who to call.",
)
CALL_FOR_HELP = Packed(
    name="call-for-help-missing",
    title="No way to call for help",
    severity=Severity.FIX,
    what=ToolKind.CALL_FOR_HELP,
    called="way to call for help",
    pack="Pack a satellite phone, beacon or HF radio, tried at home, with its papers.",
    why="A burnt hand or an eye full of acid cannot wait for the days that it takes to be missed.",
    remedy="A means that works where there is no network, tried before leaving.",
)
GLOVES = Packed(
    name="gloves-missing",
    title="No welding gloves",
    severity=Severity.STOP,
    what=GearKind.GLOVES,
    called="welding gloves",
    pack="Pack dry leather gauntlets, EN 12477 type A, two pairs if there is room.",
    why="Ultraviolet, spatter and a rod stub at red heat; and dry leather is what keeps the current out of the hand.",
    remedy="Dry gauntlets, also to change rods.",
    sources=(EN_12477, Source(Tag.READ, "TC 9-237: sweat and shock")),
    unit="pairs",
)
SPANNER = Packed(
    name="spanner-missing",
    title="Nothing to take the posts off with",
    severity=Severity.FIX,
    what=ToolKind.SPANNER,
    called="spanner for the posts",
    pack="Pack one for each size of post bolt on the trip, handles taped.",
    why="Every battery of the bank comes off its vehicle, both posts, negative first. A vehicle left "
    "connected takes 24 or 36 V, or a dead short.",
    remedy="The right spanners, their handles insulated.",
)
EXTINGUISHER = Packed(
    name="extinguisher-missing",
    title="No extinguisher",
    severity=Severity.STOP,
    what=ToolKind.EXTINGUISHER,
    called="extinguisher",
    pack="Pack a powder extinguisher of 1 kg or more, and water for grass.",
    why="Slag rolls, stubs glow, brush and fuel burn. An extinguisher is at hand whenever an arc is struck.",
    remedy="Powder for vehicle and wiring, water for grass; both within reach before the first arc.",
    sources=(Source(Tag.READ, "29 CFR 1910.252"),),
)
