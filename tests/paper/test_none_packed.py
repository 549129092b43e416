"""What is recorded with none of it is short on the sheet exactly where a gap of the verdict misses it."""

from __future__ import annotations

from dataclasses import replace

from kitlist.base.terms import ToolKind
from kitlist.faces.paper.build_items import item, things
from kitlist.kit import Item as OwnItem
from kitlist.kit import Kit
from kitlist.readiness import Readiness, assess
from kitlist.rules.example import tool, whole

KINDS = ("gear", "leads", "rods", "tools")


def of(kit: Kit) -> Readiness:
    example = whole()
    return assess(kit, example.trip, on=example.on)


def test_each_thing_of_a_whole_kit_counted_none_is_short_where_a_gap_says_so_and_nowhere_else() -> None:
    kit = whole().kit
    assert of(kit).gaps == ()
    free = []
    for kind in KINDS:
        for thing in getattr(kit, kind):
            none = replace(thing, count=0)
            readiness = of(replace(kit, **{kind: tuple(none if x is thing else x for x in getattr(kit, kind))}))
            line = item(none, readiness)
            if readiness.gaps:
                assert (line.have, line.short_by > 0) == ("0", True), thing.name
                assert line.gap_word in ("missing", "short"), thing.name
            else:
                assert (line.need, line.have, line.short_by, line.gap_word) == ("0", "0", 0, "none packed"), thing.name
                free.append(thing.name)
    assert free == ["flat bar", "blowlamp"]  # of repairs that carry a load, and of batteries under the frost


def test_what_no_rule_knows_is_short_of_what_its_owner_says_must_be_carried_only() -> None:
    kit = whole().kit
    kit = replace(
        kit,
        tools=(*kit.tools, tool("tow rope", ToolKind.OTHER, count=0)),
        items=(OwnItem(name="fan belt", must_carry=2, count=1), OwnItem(name="map", must_carry=0, count=0)),
    )
    readiness = of(kit)
    lines = {thing.name: item(thing, readiness) for thing in things(kit)}
    assert [lines[name].short_by for name in ("tow rope", "fan belt", "map")] == [0, 1, 0]
    assert lines["tow rope"].gap_word == "none packed"
