"""What stands beside a thing on sheet and label: the fault's word only where the fault is known, and the count."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kitlist.base.terms import GearKind, ToolKind
from kitlist.faces.paper.build_items import item
from kitlist.faces.paper.document import SheetItem
from kitlist.rules import Example
from kitlist.rules.example import whole, with_gear, with_lead, with_tool, with_trip
from paper.built import judged


def beside(name: str, example: Example) -> SheetItem:
    readiness = judged(example)
    kit = readiness.kit
    return next(item(thing, readiness) for thing in (*kit.gear, *kit.leads, *kit.tools) if thing.name == name)


@pytest.mark.parametrize(
    ("name", "build", "word"),
    [
        ("jacket", lambda: with_gear(GearKind.JACKET, sound=False), "unsound"),
        ("jacket", lambda: with_gear(GearKind.JACKET, sound=None), "not known"),
        ("work lead", lambda: with_lead("work lead", rating_a=100), "underrated"),
        ("work lead", lambda: with_lead("work lead", rating_a=None), "not known"),
        ("spanner", lambda: with_tool(ToolKind.SPANNER, insulating=False), "bare"),
        ("spanner", lambda: with_tool(ToolKind.SPANNER, insulating=None), "not known"),
        ("battery covers", lambda: with_tool(ToolKind.BATTERY_COVER, insulating=None), "not known"),
        ("battery covers", lambda: with_tool(ToolKind.BATTERY_COVER, insulating=False), "not insulating"),
        ("masks", lambda: with_gear(GearKind.MASK, protection="FFP1"), "too weak"),
        ("masks", lambda: with_gear(GearKind.MASK, protection=""), "not known"),
        ("voltmeter", lambda: with_tool(ToolKind.VOLTMETER, rating_v=20), "underrated"),
        ("helmet", lambda: with_gear(GearKind.HELMET, shade=9), "too light"),
        ("helmet", lambda: with_gear(GearKind.HELMET, shade=None), "not known"),
        ("jacket", whole, ""),
    ],
)
def test_a_mark_names_the_fault_only_where_it_is_known(name: str, build: Callable[[], Example], word: str) -> None:
    assert beside(name, build()).gap_word == word


def test_every_thing_that_nobody_has_looked_over_is_marked_and_not_the_first_alone() -> None:
    unseen = with_gear(GearKind.HELMET, sound=None)
    assert [beside(name, unseen).gap_word for name in ("helmet", "second helmet")] == ["not known"] * 2


@pytest.mark.parametrize(
    ("name", "build", "counts"),
    [
        ("battery covers", lambda: with_tool(ToolKind.BATTERY_COVER, count=1), ("3", "1", 2, "short")),
        (
            "battery covers",
            lambda: with_tool(ToolKind.BATTERY_COVER, count=1, insulating=None),
            ("3", "1", 2, "short"),
        ),
        (
            "battery covers",
            lambda: with_tool(ToolKind.BATTERY_COVER, count=1, insulating=False),
            ("1", "1", 0, "not insulating"),
        ),
        ("glasses", lambda: with_gear(GearKind.SAFETY_GLASSES, count=1), ("2", "1", 1, "short")),
        ("glasses", lambda: with_trip(people=5), ("5", "2", 3, "short")),
    ],
)
def test_what_is_counted_shows_how_many_are_wanted(
    name: str, build: Callable[[], Example], counts: tuple[str, str, int, str]
) -> None:
    line = beside(name, build())
    assert (line.need, line.have, line.short_by, line.gap_word) == counts
