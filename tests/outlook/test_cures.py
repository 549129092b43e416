"""A cure that is named for a repair gives it a rod when it is followed."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from kitlist.base.terms import BallastMetal, Position, ToolKind
from kitlist.kit import Ballast
from kitlist.outlook import look_out
from kitlist.outlook.cures import cures, rod_in_range
from kitlist.rules.core import Example
from kitlist.rules.example import BAG, rod, tool, with_repair


def hot(thickness_mm: float, **repair: object) -> Example:
    """Three batteries and 3.2 mm rods."""
    shown = with_repair(thickness_mm=thickness_mm, **repair)
    plate = tool("plate", ToolKind.SCRAP_PLATE, thickness_mm=thickness_mm)
    strip = Ballast(name="strip", metal=BallastMetal.STAINLESS, width_mm=40, thickness_mm=1.5, length_m=5, bag=BAG)
    kit = replace(shown.kit, rods=(rod("rods", diameter_mm=3.2, count=4),), tools=(*shown.kit.tools, plate))
    return replace(shown, kit=replace(kit, ballasts=(strip,)))


def named(shown: Example) -> tuple[str, ...]:
    outlook = look_out(shown.kit, shown.trip, on=shown.on).repairs[0]
    assert outlook.best is None
    return cures(shown.kit, shown.trip, outlook.repair, outlook.cells[0], on=shown.on)


def served(shown: Example) -> bool:
    return look_out(shown.kit, shown.trip, on=shown.on).repairs[0].best is not None


def test_each_cure_of_a_hot_rod_has_its_number_and_serves_when_followed() -> None:
    shown = hot(6)
    found = " | ".join(named(shown))
    size = re.search(r"pack (\S+) mm E6013 \((\d+) to (\d+) A\)", found)
    steel = re.search(r"steel of (\S+) mm and over", found)
    assert size
    assert steel
    packed = replace(shown.kit, rods=(*shown.kit.rods, rod("new", diameter_mm=float(size[1]))))
    assert served(replace(shown, kit=packed))
    thicker = replace(shown.kit.repairs[0], thickness_mm=float(steel[1]))
    assert served(replace(shown, kit=replace(shown.kit, repairs=(thicker,))))
    thinner = replace(shown.kit.repairs[0], thickness_mm=float(steel[1]) - 0.5)
    assert not served(replace(shown, kit=replace(shown.kit, repairs=(thinner,))))
    assert "join in strip" in found
    assert served(replace(shown, trip=replace(shown.trip, ballast="strip")))


def test_the_strip_comes_last() -> None:
    found = named(hot(6))
    assert found[0].startswith("pack ")
    assert found[-1].startswith("join in strip")


def test_overhead_no_thickness_cures_a_rod_over_its_range() -> None:
    assert not any("steel of" in cure for cure in named(hot(8, position=Position.OVERHEAD)))


@pytest.mark.parametrize("size_mm", [2.0, 2.5])
def test_the_rod_that_is_named_for_a_bank_is_in_its_range(size_mm: float) -> None:
    shown = hot(8)
    thin = replace(shown.kit, rods=(rod("thin", diameter_mm=size_mm, length_mm=300),), repairs=())
    trip = replace(shown.trip, repairs=(), ballast="strip")
    cure = re.match(r"(\S+) mm E6013", rod_in_range(thin, trip, on=shown.on))
    assert cure
    packed = look_out(replace(thin, rods=(rod("new", diameter_mm=float(cure[1])),)), trip, on=shown.on)
    assert packed.rods[0].fit == "in range"
