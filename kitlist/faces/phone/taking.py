"""Readings from a phone, as `kitlist volts` takes them; what cannot be taken stays typed, with the reason beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from kitlist.base import clean
from kitlist.base.errors import KitlistError
from kitlist.base.measures import with_unit
from kitlist.faces.phone.forms import Fields
from kitlist.faces.words import reading_text
from kitlist.kit import Battery, Reading
from kitlist.kit.entry import BadEntry
from kitlist.store import Store, changes, readings

SHARED = ("rested", "battery_temp")
CHECKS = ("charging", "quick_load")


@dataclass(frozen=True, slots=True)
class Row:
    """One battery on the page: what was typed, what was recorded or why it could not be."""

    battery: Battery
    volts: str = ""
    load: str = ""
    told: str = ""
    wrong: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Last:
    """The newest reading of a battery: its volts, when, what it says, and the key that takes it back."""

    volts: str
    when: str
    says: str
    key: str


def same(sent: Fields, before: Fields, battery: str) -> bool:
    """Whether a form says of a battery what it said when it was sent before."""
    fields = (f"volts:{battery}", f"load:{battery}", *SHARED, *CHECKS)
    return all(sent.get(what, "").strip() == before.get(what, "").strip() for what in fields)


def rows(
    store: Store, sent: Fields, *, at: datetime | None = None, before: Mapping[str, Row] | None = None
) -> Iterator[Row]:
    """Every battery in the order of `kitlist volts`; with `at`, what was typed is recorded as read then.

    `before` has the rows that were recorded already, by the battery's name.
    """
    for battery in changes.listed(store, "battery"):
        if before and battery.name in before:
            yield before[battery.name]
            continue
        volts, load = (sent.get(f"{what}:{battery.name}", "").strip() for what in ("volts", "load"))
        row = Row(battery, volts, load)
        if at is not None and load and not volts:
            yield Row(battery, load=load, wrong="amperes without volts")
        else:
            yield _recorded(store, row, sent, at) if at is not None and volts else row


def _recorded(store: Store, row: Row, sent: Fields, at: datetime) -> Row:
    given: dict[str, str | bool] = {"battery": row.battery.name, "volts": row.volts}
    given |= {word: typed for word in SHARED if (typed := sent.get(word, "").strip())}
    given |= {word: True for word in CHECKS if sent.get(word) == "yes"}
    if row.load:
        given["load"] = row.load
    try:
        kept = changes.add(store, "reading", given, by_clock=at)
    except BadEntry as refused:
        return Row(row.battery, row.volts, row.load, wrong="; ".join(p.sentence for p in refused.problems))
    except KitlistError as error:
        return Row(row.battery, row.volts, row.load, wrong=error.message)
    return Row(row.battery, told=meaning(store, kept))


def meaning(store: Store, reading: Reading) -> str:
    """What a reading was and what it says of its battery, in the words of `kitlist volts`."""
    battery = changes.one(store, "battery", reading.battery)
    vehicle = changes.one(store, "vehicle", battery.vehicle) if battery.vehicle else None
    return f"{reading_text.recorded(reading)} {reading_text.says(battery, reading, vehicle)}".strip()


def last_of_all(store: Store) -> dict[str, Last]:
    """The newest reading of every battery that has one, by the battery's name."""
    found = readings.last_of_all(store)
    vehicles = {vehicle.name: vehicle for vehicle in changes.listed(store, "vehicle")}
    shown = {}
    for battery in changes.listed(store, "battery"):
        if (reading := found.get(battery.name)) is not None:
            says = reading_text.says(battery, reading, vehicles.get(battery.vehicle or ""))
            at = reading.taken_at.isoformat(" ", "microseconds")
            shown[battery.name] = Last(
                volts=clean.typeset(with_unit(reading.volts_v, "V")),
                when=f"{reading.taken_at:%Y-%m-%d %H:%M}",
                says=clean.typeset(clean.plain(says)),
                key=f"{battery.name}@{at}",
            )
    return shown
