"""A cure that is named gives the repair, or the bank, a rod when it is followed."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from kitlist.base.terms import BallastMetal, Position, ToolKind
from kitlist.kit import Ballast
from kitlist.outlook import look_out
from kitlist.outlook.cures import cures, rod_in_range
from kitlist.outlook.shaping import ways_in_range
from kitlist.rules.core import Example
from kitlist.rules.example import BAG, rod, tool, with_repair, with_trip


def hot(thickness_mm: float, *, strips: tuple[Ballast, ...] = (), **repair: object) -> Example:
    """Three batteries and 3.2 mm rods."""
    shown = with_repair(thickness_mm=thickness_mm, **repair)
    plate = tool("plate", ToolKind.SCRAP_PLATE, thickness_mm=thickness_mm)
    rods = (rod("rods", diameter_mm=3.2, count=4),)
    return replace(shown, kit=replace(shown.kit, rods=rods, tools=(*shown.kit.tools, plate), ballasts=strips))


def named(shown: Example) -> tuple[str, ...]:
    seen = look_out(shown.kit, shown.trip, on=shown.on)
    outlook = seen.repairs[0]
    assert outlook.best is None
    ways = ways_in_range(shown.kit, shown.trip, on=shown.on).get("hanger", ())
    return cures(seen, shown.trip, outlook.repair, outlook.cells[0], ways=ways)


def served(shown: Example) -> bool:
    return look_out(shown.kit, shown.trip, on=shown.on).repairs[0].best is not None


def test_rod_and_steel_have_their_numbers_and_serve_when_followed() -> None:
    shown = hot(6)
    found = " | ".join(named(shown))
    steel = re.search(r"steel of (\S+) mm and over", found)
    assert steel
    for thickness_mm, serves in ((float(steel[1]), True), (float(steel[1]) - 0.5, False)):
        repair = replace(shown.kit.repairs[0], thickness_mm=thickness_mm)
        assert served(replace(shown, kit=replace(shown.kit, repairs=(repair,)))) is serves
    size = re.search(r"pack (\S+) mm E6013 \((\d+) to (\d+) A\)", " | ".join(named(hot(7))))
    assert size
    seven = hot(7)
    packed = replace(seven.kit, rods=(*seven.kit.rods, rod("new", diameter_mm=float(size[1]))))
    assert served(replace(seven, kit=packed))


def test_a_packed_strip_comes_last_and_one_to_buy_only_where_nothing_else_serves() -> None:
    strip = Ballast(name="strip", metal=BallastMetal.STAINLESS, width_mm=40, thickness_mm=1.5, length_m=5, bag=BAG)
    assert named(hot(6, strips=(strip,)))[-1].startswith("strip as ballast")
    assert not any("buy and cut" in cure for cure in named(hot(6)))


def test_overhead_no_thickness_cures_a_rod_over_its_range() -> None:
    assert not any("steel of" in cure for cure in named(hot(8, position=Position.OVERHEAD)))


@pytest.mark.parametrize("bank", [("north-second", "south-second"), ("north-main", "north-second", "south-second")])
def test_the_rod_that_is_named_for_a_bank_is_in_its_range(bank: tuple[str, ...]) -> None:
    shown = with_trip(bank=bank)
    cure = re.match(r"(\S+) mm E6013 \((\d+) to (\d+) A\)", rod_in_range(shown.kit, shown.trip, on=shown.on))
    assert cure
    packed = replace(shown.kit, rods=(rod("new", diameter_mm=float(cure[1])),))
    seen = look_out(packed, shown.trip, on=shown.on).rods[0]
    assert seen.fit == "in range"
    assert seen.range is not None
    assert (f"{seen.range.low_a:.0f}", f"{seen.range.high_a:.0f}") == (cure[2], cure[3])


def test_a_bank_that_holds_no_arc_has_no_rod_in_range() -> None:
    shown = with_trip(bank=("north-second",))
    assert rod_in_range(shown.kit, shown.trip, on=shown.on) == ""


def test_one_rod_of_each_class_is_named_the_nearest_size_that_serves_and_no_more_than_three_cures() -> None:
    for thickness_mm in (4, 5, 6, 7):
        found = named(hot(thickness_mm))
        assert len(found) <= 3
        assert len(set(found)) == len(found)
        packs = [cure for cure in found if cure.startswith("pack ")]
        assert len(packs) <= 1  # the packed class is the usual one
    two = with_repair(thickness_mm=4)
    deep = replace(two, kit=replace(two.kit, rods=(rod("deep", designation="E6010", diameter_mm=4.0),)))
    seen = look_out(deep.kit, replace(deep.trip, bank=deep.trip.bank[:2]), on=deep.on)
    (repair,) = seen.repairs
    assert repair.best is None
    found = cures(seen, deep.trip, repair.repair, repair.cells[0], ways=())
    assert [cure.split()[3] for cure in found if cure.startswith("pack ")] == ["E6013"]  # no E6010 burns on two


def test_steel_is_a_cure_only_for_a_rod_that_is_too_hot_and_only_over_what_the_repair_has() -> None:
    assert any("steel of" in cure for cure in named(hot(6)))
    cold = with_repair(thickness_mm=6)
    thick = replace(
        cold,
        kit=replace(cold.kit, rods=(rod("thick", diameter_mm=5.0),)),
        trip=replace(cold.trip, bank=cold.trip.bank[:2]),
    )
    assert not any("steel of" in cure for cure in named(thick))


def test_without_a_thickness_no_steel_is_named() -> None:
    shown = hot(6)
    seen = look_out(shown.kit, shown.trip, on=shown.on)
    repair = replace(seen.repairs[0].repair, thickness_mm=None)
    assert not any("steel" in cure for cure in cures(seen, shown.trip, repair, seen.repairs[0].cells[0], ways=()))
