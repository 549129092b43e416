"""What a card calls batteries and vehicles: whole names where they fit a step, else shorter ones that still differ."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kitlist.base import clean
from kitlist.faces.paper import typeface
from kitlist.faces.paper.card_split import LIVE_WIDE_MM, STEP_PT, STEP_WIDE_MM
from kitlist.faces.paper.document import Hookup
from kitlist.faces.paper.hookup import name_room_mm
from kitlist.kit import Kit
from kitlist.outlook.card import CardFacts
from kitlist.outlook.procedure import Behind, Deed
from kitlist.outlook.procedure_terms import Task
from kitlist.outlook.procedure_words import wording


def names_for(facts: CardFacts) -> dict[str, str]:
    """A name for everything that the procedure names: as it is where it fits, else as short as it must be."""
    entries = [entry for stage in facts.procedure.stages for entry in stage.entries]
    deeds = [entry for entry in entries if isinstance(entry, Deed)]
    own = [battery.name for battery in facts.procedure.bank]
    vehicles = [deed.vehicle for deed in deeds if deed.vehicle]
    others = [name for deed in deeds for name in deed.names if name not in own and name not in vehicles]
    repairs = [entry.repair for entry in entries if isinstance(entry, Behind)]
    repairs += [repair.name for repair in facts.repairs]
    short = told_apart(vehicles, VEHICLE)
    return told_apart(repairs, REPAIR) | short | told_apart(others, _beside(short)) | told_apart(own, BATTERY)


def _beside(vehicles: Mapping[str, str]) -> NameRoom:
    """The room for a battery in the step that names the vehicle it is freed on: what the longest of them leaves."""
    step = str(wording()["step"][Task.FREE_WELDED]["do"])
    said = (step.format(vehicle=vehicle, names="") for vehicle in vehicles.values())
    taken_mm = max((typeface.width_mm(text, size_pt=STEP_PT) for text in said), default=0.0)
    return NameRoom(wide_mm=STEP_WIDE_MM - taken_mm - SPARE_MM, size_pt=STEP_PT)


def untyped(facts: CardFacts) -> tuple[str, ...]:
    """The words in the names of crew, batteries, vehicles and repairs that no family of the type has the letters of."""
    bank = facts.procedure.bank
    return _without_letters(
        [facts.crew, *(b.name for b in bank), *(b.vehicle for b in bank), *(r.name for r in facts.repairs)]
    )


def untyped_on_sheet(kit: Kit) -> tuple[str, ...]:
    """The same in names of a sheet of which two would be printed alike; one by itself has the sign for what is not had.

    A sheet numbers its lines, so that a single such name is found by its number and its place.
    """
    kinds = (kit.vehicles, kit.batteries, kit.bags, kit.gear, kit.leads, kit.ballasts, kit.clamps, kit.rods, kit.tools)
    drawn: dict[str, list[str]] = {}
    for name in dict.fromkeys(thing.name for kind in (*kinds, kit.items) for thing in kind):
        drawn.setdefault(clean.drawable(clean.plain(name), has=typeface.has), []).append(name)
    return _without_letters([name for alike in drawn.values() if len(alike) > 1 for name in alike])


def _without_letters(names: Sequence[str]) -> tuple[str, ...]:
    words = dict.fromkeys(word for name in names for word in clean.plain(name).split())
    return tuple(word for word in words if clean.SUBSTITUTE in clean.drawable(_letters(word), has=typeface.has))


def _letters(word: str) -> str:
    return "".join(character for character in word if character.isalpha())


def names_on_sheet(kit: Kit) -> dict[str, str]:
    """A name for everything that a sheet lists: as it is where it fits two lines, else as short as it must be."""
    kinds = (kit.gear, kit.leads, kit.ballasts, kit.clamps, kit.rods, kit.tools, kit.items)
    return (
        told_apart([vehicle.name for vehicle in kit.vehicles], SHEET_VEHICLE)
        | told_apart([battery.name for battery in kit.batteries], SHEET_BATTERY)
        | told_apart([bag.name for bag in kit.bags], SHEET_BAG)
        | told_apart([thing.name for things in kinds for thing in things], SHEET_THING)
    )


def names_on_labels(kit: Kit) -> dict[str, str]:
    """A name for everything that a label lists, whole or shortened so that no two are alike on it."""
    kinds = (kit.gear, kit.leads, kit.ballasts, kit.clamps, kit.rods, kit.tools, kit.items)
    return told_apart([thing.name for things in kinds for thing in things], LABEL_THING)


@dataclass(frozen=True, slots=True, kw_only=True)
class NameRoom:
    """The room that a name has: its width, its type size and weight, and on how many lines it may stand."""

    wide_mm: float
    size_pt: float
    bold: bool = False
    lines: int = 1

    def holds(self, name: str) -> bool:
        """Whether a name fits whole, broken at spaces and behind hyphens only."""
        if self.lines == 1:
            return typeface.width_mm(name, size_pt=self.size_pt, bold=self.bold) <= self.wide_mm
        lines = typeface.wrap(name, width_max_mm=self.wide_mm, size_pt=self.size_pt, bold=self.bold)
        widest = max((typeface.width_mm(x, size_pt=self.size_pt, bold=self.bold) for x in lines), default=0.0)
        return len(lines) <= self.lines and widest <= self.wide_mm


def told_apart(names: Sequence[str], room: NameRoom) -> dict[str, str]:
    """Each name, or a shorter form of it that fits its room: how it begins, or how it begins and ends.

    No two names come out alike: where neither way tells them apart, they get a number behind them.

    >>> told_apart(["heron-main"], NameRoom(wide_mm=42, size_pt=14.5))
    {'heron-main': 'heron-main'}
    """
    alike = list(dict.fromkeys(names))
    drawn = {name: clean.drawable(clean.plain(name), has=typeface.has) for name in alike}
    short: dict[str, str] = {}
    for tail_ratio in (0.0, 0.5):
        short = {name: _short(drawn[name], room, tail_ratio) for name in alike}
        if len(set(short.values())) == len(alike):
            return short
    numbered: dict[str, int] = {}
    for name in alike:
        form = short[name]
        numbered[form] = numbered.get(form, 0) + 1
        if numbered[form] > 1:
            short[name] = f"{form} #{numbered[form]}"
    return short


def _short(name: str, room: NameRoom, tail_ratio: float) -> str:
    """The name cut at its end or in its middle to fit; a name that fits is left whole."""
    if room.holds(name):
        return name
    for kept in range(len(name) - 1, 0, -1):
        tail = int(kept * tail_ratio)
        form = f"{name[: kept - tail].rstrip()}…{name[len(name) - tail :].lstrip()}"
        if room.holds(form):
            return form
    return "…"


BATTERY = NameRoom(wide_mm=33.0, size_pt=14.5)  # in a step, beside its number and its answer
VEHICLE = NameRoom(wide_mm=16.0, size_pt=14.5)  # in the step that frees its batteries
SPARE_MM = 0.5  # what kerning may add to a line
REPAIR = NameRoom(wide_mm=29.5, size_pt=12.0, bold=True, lines=2)  # in the first column of its table


STICKER = NameRoom(wide_mm=44.0, size_pt=12.0)  # below its number, behind "post of"
SHEET_THING = NameRoom(wide_mm=56.0, size_pt=12.0, bold=True, lines=2)  # in its column, beside number and count
SHEET_BAG = NameRoom(wide_mm=56.0, size_pt=14.0, bold=True)  # at the head of its column, before "part 2 of 5"
SHEET_BATTERY = NameRoom(wide_mm=36.0, size_pt=10.0)  # in its table, before what it is
SHEET_VEHICLE = NameRoom(wide_mm=24.0, size_pt=10.0)  # in the same table, and in the line below the title
FORM_BATTERY = NameRoom(wide_mm=54.0, size_pt=12.0, lines=2)  # with its vehicle, in the first column
LABEL_THING = NameRoom(wide_mm=60.0, size_pt=12.0)  # on its line, between number, gap and count
SHEET_PLACE_MM = 84.0  # beside or below a bag's name, in small type


def box_room(hookup: Hookup) -> NameRoom:
    """The room for a name in a box of a drawing."""
    return NameRoom(wide_mm=name_room_mm(hookup, width_mm=LIVE_WIDE_MM), size_pt=12.0, bold=True, lines=2)
