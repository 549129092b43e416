"""The paper that a companion without kitlist fills in: a vehicle, its batteries, what labels and meter say."""

from __future__ import annotations

from datetime import date

from kitlist.base.fields import fields_of
from kitlist.faces.paper.document import Marks
from kitlist.faces.paper.form import Form, FormTable
from kitlist.kit import Battery, Reading, Trip

BATTERIES = ("First battery", "Second battery", "Third battery")
ASKED: dict[str, str] = {
    "name": "What you call it: main, second",
    "place": "Its work: start, second or loose",
    "chemistry": "Flooded, calcium, EFB, AGM, gel or lithium",
    "c20_ah": "Capacity at 20 h, Ah",
    "cranking_a": "Cranking rating, A",
    "cranking_standard": "Its standard: SAE, EN, DIN, JIS",
    "condition": "Sound, cracked, leaking or swollen",
    "built_in_cutoff": "Built-in electronics that cut off: yes, no",
    "terminals": "Posts, or studs M6, M8, M10",
    "stays_connected": "Left connected when parked: yes, no",
}
"""The fields of a battery that a companion is asked for, as their label and their eye give them."""
READ = {"taken_at": "Day and time", "volts_v": "Volts, V", "rested_h": "Rested, h", "battery_temp_c": "Battery, °C"}


def build_companion_form(trip: Trip | None, *, on: date) -> Form:
    """The form, for one trip or for any; every question is a field that `import` takes."""
    asked = tuple((ASKED[field.name],) for field in fields_of(Battery) if field.name in ASKED)
    read = tuple(READ[field.name] for field in sorted(fields_of(Reading), key=_order) if field.name in READ)
    return Form(
        kit=trip.crew if trip else "",
        trip=trip.name if trip else "",
        title="A companion's vehicle",
        tables=(
            FormTable(
                title="The vehicle",
                note="Its batteries may be linked with ours to weld. Leave open what you do not know.",
                blanks=(
                    "What you call it",
                    "Whose it is",
                    "Starter draws, A, if known",
                    "12 or 24 V; one starting battery, or two",
                ),
                headings=("On its batteries' labels", *BATTERIES),
                rows=asked,
            ),
            FormTable(
                title="Volts at the posts, all loads off",
                note="Engine and chargers off; rest 6 h or more before you read.",
                headings=("Battery", *read),
                blank_rows=len(BATTERIES),
            ),
            FormTable(
                title="To type it in",
                note="kitlist share --blank > F.toml, the same words into it, then kitlist import F.toml --trip TRIP.",
                headings=("Typed in by", "On"),
                blank_rows=1,
            ),
        ),
        marks=Marks(printed_on=on),
    )


def _order(field: object) -> int:
    names = list(READ)
    name = getattr(field, "name", "")
    return names.index(name) if name in names else len(names)
