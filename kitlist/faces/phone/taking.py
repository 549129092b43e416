"""Readings from a phone, as `kitlist volts` takes them; what cannot be taken stays typed, with the reason beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from kitlist.base.errors import KitlistError
from kitlist.faces.phone.forms import Fields
from kitlist.faces.words import reading_text
from kitlist.kit import Battery
from kitlist.kit.entry import BadEntry
from kitlist.store import Store, changes

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


def same(sent: Fields, before: Fields, battery: str) -> bool:
    """Whether a form says of a battery what it said when it was sent before."""
    fields = (f"volts:{battery}", f"load:{battery}", *SHARED, *CHECKS)
    return all(sent.get(what, "").strip() == before.get(what, "").strip() for what in fields)


def rows(
    store: Store, sent: Fields, *, at: datetime | None = None, told: Mapping[str, Row] | None = None
) -> Iterator[Row]:
    """Every battery in the order of `kitlist volts`; with `at`, what was typed is recorded as read then.

    `told` has the rows that were recorded already, by the battery's name.
    """
    for battery in changes.listed(store, "battery"):
        if told and battery.name in told:
            yield told[battery.name]
            continue
        volts, load = (sent.get(f"{what}:{battery.name}", "").strip() for what in ("volts", "load"))
        row = Row(battery, volts, load)
        if at is not None and load and not volts:
            yield Row(battery, load=load, wrong="amperes without volts")
        else:
            yield _recorded(store, row, sent, at) if at is not None and volts else row


def _recorded(store: Store, row: Row, sent: Fields, at: datetime) -> Row:
    given: dict[str, str | bool] = {"battery": row.battery.name, "volts": row.volts}
    given |= {word: told for word in SHARED if (told := sent.get(word, "").strip())}
    given |= {word: True for word in CHECKS if sent.get(word) == "yes"}
    if row.load:
        given["load"] = row.load
    try:
        kept = changes.add(store, "reading", given, by_clock=at)
    except BadEntry as refused:
        return Row(row.battery, row.volts, row.load, wrong="; ".join(p.sentence for p in refused.problems))
    except KitlistError as error:
        return Row(row.battery, row.volts, row.load, wrong=error.message)
    vehicle = changes.one(store, "vehicle", row.battery.vehicle) if row.battery.vehicle else None
    said = reading_text.says(row.battery, kept, vehicle)
    return Row(row.battery, told=f"{reading_text.recorded(kept)} {said}".strip())
