"""Water against a grass fire: what throws it counts, and litres that are only poured do not."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from kitlist.base.noted import noted
from kitlist.base.terms import Extinguishant, ToolKind
from kitlist.kit import Kit, Tool


@dataclass(frozen=True, slots=True)
class FireWater:
    """The packed things that throw water, those that only hold it, and the litres of the first that are known."""

    thrown: tuple[Tool, ...]
    poured: tuple[Tool, ...]
    litres_l: float


def fire_water(kit: Kit, *, until: date) -> FireWater:
    """What is packed: pumps and the like, and water or foam extinguishers that are good to the last day.

    >>> pump = Tool(name="knapsack pump", what=ToolKind.WATER, volume_l=15)
    >>> can = Tool(name="jerrycan", what=ToolKind.WATER, volume_l=20)
    >>> fire_water(Kit(tools=(pump, can)), until=date(2027, 3, 9)).litres_l
    15.0
    """
    packed = [tool for tool in kit.tools if tool.what is ToolKind.WATER and tool.count > 0]
    poured = tuple(tool for tool in packed if noted("water that is not thrown", f"{tool.name} {tool.note}"))
    sprayed = (tool for tool in kit.tools if tool.count > 0 and _sprays(tool, until))
    thrown = (*(tool for tool in packed if tool not in poured), *sprayed)
    return FireWater(thrown, poured, float(sum((_litres(tool) or 0) * tool.count for tool in thrown)))


def _sprays(tool: Tool, until: date) -> bool:
    """Whether it is an extinguisher of water or foam, of known size, and in date."""
    wet = tool.what is ToolKind.EXTINGUISHER and tool.agent in (Extinguishant.WATER, Extinguishant.FOAM)
    return wet and _litres(tool) is not None and tool.expires_on is not None and tool.expires_on >= until


def _litres(tool: Tool) -> float | None:
    """A kilogram of water is a litre."""
    return tool.amount_kg if tool.volume_l is None and tool.what is ToolKind.EXTINGUISHER else tool.volume_l
