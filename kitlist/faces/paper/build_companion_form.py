"""The paper that a companion without kitlist fills in: a vehicle, its batteries, what labels and meter say."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from enum import StrEnum

from kitlist.base.fields import Field, fields_of
from kitlist.base.terms import CrankingStandard, Terminal
from kitlist.faces.paper.document import Marks
from kitlist.faces.paper.form import Form, FormTable
from kitlist.kit import Battery, Reading, Trip

BATTERIES = ("First battery", "Second battery", "Third battery")
ASKED: dict[str, str] = {
    "name": "What you call it",
    "place": "Its work",
    "chemistry": "What is inside",
    "c20_ah": "Capacity at 20 h, Ah",
    "cranking_a": "Cranking rating, A",
    "cranking_standard": "Its standard",
    "condition": "What the eye sees",
    "built_in_cutoff": "Electronics inside",
    "terminals": "Its terminals",
    "stays_connected": "Left connected when parked",
}
"""The fields of a battery that a companion is asked for, as their label and their eye give them."""
_SAID: dict[type, Callable[[str], str]] = {
    CrankingStandard: str.upper,
    Terminal: lambda word: word.replace(" m", " M"),  # a thread is written M8
}
READ = {"taken_at": "Day and time", "volts_v": "Volts, V", "rested_h": "Rested, h", "battery_temp_c": "Battery, °C"}


def build_companion_form(trip: Trip | None, *, on: date) -> Form:
    """The form, for one trip or for any; every question is a field that `import` takes."""
    asked = tuple(field for field in fields_of(Battery) if field.name in ASKED)
    read = tuple(READ[field.name] for field in sorted(fields_of(Reading), key=_order) if field.name in READ)
    return Form(
        kit=trip.crew if trip else "",
        trip=trip.name if trip else "",
        title="A companion's vehicle",
        tables=(
            FormTable(
                title="The vehicle",
                note="Its batteries may be linked with ours. Tick one box a field; leave open what nobody knows. "
                "Volts: at the posts, all loads, engine and chargers off, after 6 h of rest or more.",
                blanks=(
                    "What you call it",
                    "Whose it is",
                    "Starter draws, A, if known",
                    "12 or 24 V; one starting battery, or two",
                ),
                headings=("On its batteries' labels", *BATTERIES),
                rows=(*((ASKED[field.name],) for field in asked), *((word,) for word in read)),
                choices=tuple(_choices(field) for field in asked),
            ),
            FormTable(
                title="To type it in",
                note="kitlist share --blank > F.toml, the same words into it, then kitlist import F.toml --trip TRIP.",
            ),
        ),
        marks=Marks(printed_on=on),
    )


def _choices(field: Field) -> tuple[str, ...]:
    """What can be ticked for a field: each of its words but "unknown", or yes and no; () where one writes."""
    if field.type is bool:
        return ("yes", "no")
    if not (isinstance(field.type, type) and issubclass(field.type, StrEnum)):
        return ()
    known = (member for member in field.type if member.value != "unknown")
    said = _SAID.get(field.type, str)
    return tuple(said(str(getattr(member, "words", member)).replace("-", " ")) for member in known)


def _order(field: object) -> int:
    names = list(READ)
    name = getattr(field, "name", "")
    return names.index(name) if name in names else len(names)
