"""preparation-tools-missing: no file, nor a grinder with discs."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where the steel can be bared neither by hand nor by machine."""
    by_hand = tools(case.kit, ToolKind.FILE)
    grinder, discs = tools(case.kit, ToolKind.GRINDER), tools(case.kit, ToolKind.DISC)
    if by_hand or (grinder and discs):
        return
    yield Gap(
        subject=grinder[0].name if grinder else "grinder or file",
        what=f"{grinder[0].name} has no discs, and there is no file" if grinder else "No file and no grinder packed",
        remedy="Pack a coarse file at the least; for a grinder cutting, grinding and flap discs.",
        measured=0,
        required=1,
        unit="ways to bare steel",
    )


RULE = Rule(
    name="preparation-tools-missing",
    title="Nothing to bare the steel with",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Paint, rust and underseal burn into pores and poison, and a work clamp on paint makes no circuit.",
    remedy="Bare, bright steel under weld and work clamp.",
    sources=(
        Source(Tag.READ, "US Army course OD0017: phosgene from cleaners"),
        PRACTICE,
    ),
    check=check,
    mark="no discs",
    asks_for=(ToolKind.FILE, ToolKind.GRINDER, ToolKind.DISC),
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.FILE),
)
