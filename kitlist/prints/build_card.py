"""The glovebox card of one trip: what its hardware, bank and rods make of the fixed wording. It holds no reading."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from math import ceil

from kitlist.errors import PrintError
from kitlist.kit import Kit, Trip
from kitlist.outlook import HardwareOutlook, hardware_outlook
from kitlist.prints.build_words import bank_words
from kitlist.prints.document import Box, Card, Hookup, Marks, PolarityBanner, RodRow, RodTable
from kitlist.prints.words import card_faces
from kitlist.terms import ToolKind

LINK_CHARACTERS = 24  # a link step and its volts stay on one line; longer names give way to the drawing's numbers
FACE_BATTERIES = 3  # more than these are freed in one step, to keep to nine steps a face
LEAST_WATER_L = 9.0
THICK_MM = 25.0  # where the table of rod by plate ends


def build_card(kit: Kit, trip: Trip, *, on: date, revision: int = 1) -> Card:
    """The card. Raises PrintError where no bank is chosen, or its current cannot be foretold."""
    if not trip.bank:
        raise PrintError(
            f"no bank is chosen for {trip.name}, and a card is made for a bank",
            hint="kitlist trip edit TRIP bank=FIRST,SECOND,THIRD",
        )
    outlook = hardware_outlook(kit, trip, on=on)
    if outlook.bank.rig is None:
        raise PrintError(
            f"the bank's current cannot be foretold; not known: {', '.join(outlook.bank.not_known)}",
            hint="kitlist ready says what to write down.",
        )
    drawing = hookup(kit, outlook, trip)
    isolated = drawing.opening == "isolator"
    faces = card_faces(
        values=_values(kit, trip, outlook, drawing.opening),
        for_each={"battery": _batteries(trip), "link": _links(trip, outlook.go_v)},
        inserts={
            "hookup": drawing,
            "rods": rod_table(outlook),
            "polarity": PolarityBanner(outlook.polarity),
        },
        flags={"isolator"} if isolated else set(),
    )
    return Card(
        kit=trip.crew or trip.name,
        bank=bank_words(trip),
        faces=faces,
        marks=Marks(printed_on=on, revision=revision),
    )


def hookup(kit: Kit, outlook: HardwareOutlook, trip: Trip) -> Hookup:
    """The drawing of the trip's bank, in linking order."""
    numbers = {name: str(number) for number, name in enumerate(trip.bank, start=1)}
    isolator = any(tool.what is ToolKind.ISOLATOR and tool.count for tool in kit.tools)
    return Hookup(
        strings=tuple(
            tuple(Box(name, numbers[name], _detail(kit, name)) for name in string) for string in trip.strings
        ),
        polarity=outlook.polarity,
        opening="isolator" if isolator else "far plug",
    )


def _detail(kit: Kit, name: str) -> str:
    battery = kit.battery[name]
    size = f"{battery.c20_ah:g} Ah " if battery.c20_ah else ""
    return f"{size}{battery.chemistry.words}"


def rod_table(outlook: HardwareOutlook) -> RodTable:
    """Every packed kind of rod by the steel it is for, its range, and what this bank is for it."""
    rows: dict[tuple[str, str], RodRow] = {}
    for rod in outlook.rods:
        low_mm, high_mm = rod.steel_mm if rod.steel_mm else (None, None)
        steel = "not known" if low_mm is None else f"{low_mm:g}–{high_mm:g} mm"
        if high_mm is not None and high_mm >= THICK_MM:
            steel = f"{low_mm:g} mm and over"
        amps = f"{rod.range.low_a:.0f}–{rod.range.high_a:.0f} A" if rod.range else "see packet"
        row = RodRow(steel=steel, rod=rod.words, amps=amps, verdict=str(rod.fit) if rod.fit else "not known")
        rows.setdefault((row.steel, row.rod), row)
    return RodTable(rows=tuple(rows[key] for key in sorted(rows)))


def _values(kit: Kit, trip: Trip, outlook: HardwareOutlook, opening: str) -> dict[str, str]:
    water_l = sum((tool.volume_l or 0) * tool.count for tool in kit.tools if tool.what is ToolKind.WATER)
    return {
        "clear_m": "11 m",
        "wait_h": "1 h",
        "go_v": f"{outlook.go_v:.2f} V",
        "rest_v": f"{outlook.go_v:.2f} V",
        "vent_m": "0.5 m",
        "water_l": f"{max(water_l, LEAST_WATER_L):g} L",
        "shade": f"{outlook.shade}",
        "bystander_m": "10 m",
        "stop_v": f"{outlook.stop_v:g} V",
        "watch_min": "60 min",
        "watch_again_h": "3 h",
        "opening": opening,
    }


def _batteries(trip: Trip) -> list[dict[str, str]]:
    if len(trip.bank) <= FACE_BATTERIES:
        return [{"battery": name, "leads": "2"} for name in trip.bank]
    return [{"battery": f"all {len(trip.bank)} batteries", "leads": str(2 * len(trip.bank))}]


def _links(trip: Trip, go_v: float) -> list[dict[str, str]]:
    """One entry a link: which battery's + to whose −, and the volts to expect over all that is linked by then."""
    numbers = {name: str(number) for number, name in enumerate(trip.bank, start=1)}
    fits = all(len(f"Link {a} + to {b} −") <= LINK_CHARACTERS for string in trip.strings for a, b in pairwise(string))
    shown = {name: name for name in trip.bank} if fits else numbers
    return [
        {"from": shown[a], "to": shown[b], "link_v": f"{floor_to(linked * go_v):.1f} V"}
        for string in trip.strings
        for linked, (a, b) in enumerate(pairwise(string), start=2)
    ]


def floor_to(volts: float) -> float:
    """Volts rounded down to 0.1, so that the card never asks for more than the batteries' floor makes."""
    return -ceil(-round(volts, 6) * 10) / 10
