"""The blank form of one crew: its batteries, and columns in the order in which `volts` and `bead add` ask."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.fields import fields_of
from kitlist.faces.paper.called import FORM_BATTERY, told_apart
from kitlist.faces.paper.document import Marks
from kitlist.faces.paper.form import Form, FormTable
from kitlist.kit import Battery, Bead, Kit, Trip

SPARE_ROWS, BEAD_ROWS = 2, 6
VOLTS = FormTable(
    title="Volts at the posts, all loads off",
    note="Engines and chargers off; rest 6 h or more, or main beam on, 20 A or more, for 3 min, off, and wait 5 min.",
    blanks=("Date and time", "Rested how long, h", "Battery temperature, °C"),
    headings=("Battery", "Volts, V", "If on load: A", "If at another time"),
)
BEAD_HEADINGS = {
    "name": "Name",
    "welded_on": "Day",
    "bank": "Bank, by number",
    "rod": "Rod",
    "rest_v": "Rest, V",
    "bank_v": "Bank, V",
    "current_a": "Amps, A",
    "holder_v": "Holder, V",
}
"""The fields of a practice weld that are written down by hand."""


def build_form(kit: Kit, trip: Trip, *, on: date) -> Form:
    """The form: the batteries that travel, in the order in which `volts` walks round, and room for practice welds."""
    volts = tuple((words,) for words in _batteries(kit, trip))
    return Form(
        kit=trip.crew,
        trip=trip.name,
        tables=(
            FormTable(
                title=VOLTS.title,
                note=VOLTS.note,
                blanks=VOLTS.blanks,
                headings=VOLTS.headings,
                rows=volts,
                blank_rows=SPARE_ROWS,
            ),
            FormTable(
                title="Practice welds",
                note="Clear of the batteries, helmet down; one welds, another reads the meters. Rest: the whole bank "
                "before; Bank and Amps: while welding; Holder: from holder to work while welding, if it can be read.",
                headings=tuple(_bead_headings()),
                blank_rows=BEAD_ROWS,
            ),
        ),
        marks=Marks(printed_on=on),
    )


def _batteries(kit: Kit, trip: Trip) -> Iterator[str]:
    """Each battery that travels by the number that the card gives it in the bank, its name, and where it stands."""
    going = kit.travelling(trip)
    short = told_apart([_named(battery) for battery in going], FORM_BATTERY)
    for battery in going:
        number = f"{trip.bank.index(battery.name) + 1} " if battery.name in trip.bank else ""
        yield f"{number}{short[_named(battery)]}"


def _named(battery: Battery) -> str:
    return f"{battery.name} ({battery.vehicle or battery.bag or 'loose'})"


def _bead_headings() -> Iterator[str]:
    """In the order of the kit's own description, which is the order of the command's help."""
    yield from (BEAD_HEADINGS[field.name] for field in fields_of(Bead) if field.name in BEAD_HEADINGS)
