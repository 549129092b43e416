"""What breaks a stuck rod's current when the isolator does not, and that card and rule say the same of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import ToolKind
from kitlist.kit import Kit
from kitlist.outlook.second_way import SecondWay, second_way
from kitlist.readiness import assess
from kitlist.rules.core import Example
from kitlist.rules.example import with_lead, with_tool


def fused(rating_a: float | None, rating_v: float | None = 80, count: int = 1) -> Kit:
    return with_tool(ToolKind.FUSE, rating_a=rating_a, rating_v=rating_v, count=count).kit


@pytest.mark.parametrize(
    ("kit", "way"),
    [
        (fused(250), SecondWay.FUSE),  # 250 A clears at 875 A
        (fused(251), None),
        (fused(200), SecondWay.FUSE),
        (fused(199), None),  # it blows while welding at 200 A
        (fused(None), None),
        (fused(250, None), None),
        (fused(250, 32), None),
        (fused(250, count=0), None),
    ],
)
def test_a_fuse_counts_that_bears_the_weld_and_that_the_stuck_rod_blows(kit: Kit, way: SecondWay | None) -> None:
    assert second_way(kit, stuck_a=875, likely_a=200) is way


@pytest.mark.parametrize(("breaks_a", "way"), [(900, SecondWay.PLUG), (899, None), (None, None)])
def test_a_plug_counts_whose_breaking_current_is_written_down(breaks_a: float | None, way: SecondWay | None) -> None:
    shown = with_lead("holder lead", plug_breaks_a=breaks_a)
    bare = tuple(tool for tool in shown.kit.tools if tool.what is not ToolKind.FUSE)
    assert second_way(replace(shown.kit, tools=bare), stuck_a=900, likely_a=200) is way


def noted(example: Example) -> bool:
    gaps = assess(example.kit, example.trip, on=example.on).gaps
    return any(gap.rule == "isolator-underrated" for gap in gaps)


def test_the_note_about_an_isolator_that_may_weld_shut_goes_with_a_second_way() -> None:
    weak = with_tool(ToolKind.ISOLATOR, rating_a=300)
    assert noted(weak)
    fuses = tuple(replace(t, rating_a=205) if t.what is ToolKind.FUSE else t for t in weak.kit.tools)
    assert not noted(replace(weak, kit=replace(weak.kit, tools=fuses)))
