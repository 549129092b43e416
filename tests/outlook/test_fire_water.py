"""Water against a grass fire: what throws it counts while it is packed and good; what is poured does not."""

from __future__ import annotations

from datetime import date

import pytest

from kitlist.base.terms import Extinguishant, ToolKind
from kitlist.kit import Kit, Tool
from kitlist.outlook.fire_water import FireWater, fire_water

LAST = date(2027, 3, 9)
PUMP = Tool(name="knapsack pump", what=ToolKind.WATER, volume_l=15)
CAN = Tool(name="jerrycan", what=ToolKind.WATER, volume_l=20)


def found(*tools: Tool) -> FireWater:
    return fire_water(Kit(tools=tools), until=LAST)


def extinguisher(**fields: object) -> Tool:
    usual = {"agent": Extinguishant.WATER, "amount_kg": 6, "expires_on": LAST}
    return Tool(name="red", what=ToolKind.EXTINGUISHER, **(usual | fields))  # type: ignore[arg-type]


def test_each_pump_counts_as_often_as_it_is_packed_and_a_can_is_only_poured() -> None:
    two = Tool(name="hose", what=ToolKind.WATER, volume_l=8, count=2)
    unknown = Tool(name="sprayer", what=ToolKind.WATER)
    seen = found(PUMP, CAN, two, unknown)
    assert (seen.litres_l, seen.poured, seen.thrown) == (31.0, (CAN,), (PUMP, two, unknown))
    gone = Tool(name="pump", what=ToolKind.WATER, volume_l=9, count=0)
    assert found(gone) == FireWater((), (), 0.0)


@pytest.mark.parametrize(
    ("fields", "litres"),
    [
        ({}, 6.0),
        ({"agent": Extinguishant.FOAM}, 6.0),
        ({"agent": Extinguishant.POWDER}, 0.0),
        ({"amount_kg": None}, 0.0),
        ({"volume_l": 9.0}, 9.0),
        ({"volume_l": 9.0, "amount_kg": None}, 9.0),
        ({"expires_on": date(2027, 3, 8)}, 0.0),
        ({"expires_on": None}, 0.0),
        ({"count": 0}, 0.0),
        ({"count": 3}, 18.0),
    ],
)
def test_an_extinguisher_of_water_or_foam_counts_by_its_kilograms_until_its_last_day(
    fields: dict[str, object], litres: float
) -> None:
    assert found(extinguisher(**fields)).litres_l == litres
    assert found(PUMP, extinguisher(**fields)).litres_l == 15.0 + litres


def test_a_pump_s_kilograms_are_not_its_litres() -> None:
    assert found(Tool(name="pump", what=ToolKind.WATER, amount_kg=5)).litres_l == 0.0
