"""What is packed: how many of which tools and gear, and what is not there."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.terms import GearKind, ToolKind
from kitlist.kit import Ballast, Clamp, Gear, Item, Kit, Lead, Rod, Tool
from kitlist.rules.core import Gap, quoted

Thing = Lead | Ballast | Clamp | Rod | Gear | Tool | Item


def tools(kit: Kit, *kinds: ToolKind) -> tuple[Tool, ...]:
    """The packed tools of some kinds."""
    return tuple(tool for tool in kit.tools if tool.what in kinds and tool.count > 0)


def gear(kit: Kit, *kinds: GearKind) -> tuple[Gear, ...]:
    """The packed gear of some kinds that is not known to be unsound."""
    return tuple(g for g in kit.gear if g.what in kinds and g.count > 0 and g.sound is not False)


def counted(things: tuple[Gear, ...] | tuple[Tool, ...]) -> int:
    """How many pieces that makes."""
    return sum(thing.count for thing in things)


def stowed(kit: Kit) -> Iterator[Thing]:
    """Everything that is packed, kind by kind."""
    for things in (kit.gear, kit.leads, kit.ballasts, kit.clamps, kit.rods, kit.tools, kit.items):
        for thing in things:
            if thing.count > 0:
                yield thing


def listed(names: tuple[str, ...] | list[str], most: int = 4) -> str:
    """Names in a line, the first few and how many more.

    >>> listed(["a", "b", "c"], most=2)
    'a, b and 1 more'
    """
    if len(names) <= most:
        return ", ".join(names)
    return f"{', '.join(names[:most])} and {len(names) - most} more"


def to_pack(kit: Kit, what: ToolKind | GearKind, name: str, *, fields: str = "") -> str:
    """What to type once they are packed: of the first that the kit knows, packed or not, else anew.

    >>> to_pack(Kit(), GearKind.SAFETY_GLASSES, "safety glasses")
    'kitlist gear add "safety glasses" what=safety-glasses count=NUMBER'
    """
    noun, things = ("tool", kit.tools) if isinstance(what, ToolKind) else ("gear", kit.gear)
    sound = [thing for thing in things if thing.what is what and getattr(thing, "sound", None) is not False]
    known = sorted(sound, key=lambda thing: thing.count == 0)
    tail = f" {fields}" if fields else ""
    if not known:
        return f"kitlist {noun} add {quoted(name)} what={what} count=NUMBER{tail}"
    return f"kitlist {noun} edit {quoted(known[0].name)} count=NUMBER{tail}"


def missing(
    what: str,
    remedy: str,
    *,
    needed: int = 1,
    have: int = 0,
    unit: str = "pieces",
    command: str = "",
    subject: str = "",
) -> Gap:
    """The gap of a thing that is not packed, or too few of it; `subject` where one of them is."""
    return Gap(
        subject=subject or what,
        what=f"No {what} packed: 0 of {needed}" if have == 0 else f"{have} of {needed} {what} packed",
        remedy=remedy,
        command=command,
        measured=have,
        required=needed,
        unit=unit,
    )


def said_ac(tool: Tool) -> str:
    """What to add where a tool's volts are those of AC, by its name or note; "" where they are DC or not known."""
    return f", {tool.rating_v:g} V AC stands beside it" if tool.rating_v is not None and tool.dc_v is None else ""
