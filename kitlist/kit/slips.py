"""Days that are still to come and cannot be: a slip of the pen satisfies nothing, and is asked about."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from kitlist.base.fields import plural
from kitlist.kit import Kit

PAST = (  # kind, field, the other fields that say nothing without it
    ("battery", "in_service_since", ()),
    ("battery", "welded_on", ()),
    ("rod", "opened_on", ()),
    ("gear", "tested_on", ()),
    ("gear", "cell_changed_on", ()),
    ("tool", "checked_on", ()),
    ("mend", "settled_on", ("settled", "settled_by")),
)
GONE = (("reading", "taken_at"), ("bead", "welded_on"))  # without their day these are nothing at all
_EMPTY = {"settled_by": ""}


@dataclass(frozen=True, slots=True)
class Slip:
    """A thing with a day that is still to come, and what to type to put it right."""

    kind: str
    name: str
    field: str
    day: date
    command: str


def slips(kit: Kit, *, on: date) -> tuple[Slip, ...]:
    """Every day of a kit that should be past and lies after `on`."""
    return tuple(_slips(kit, on))


def without_slips(kit: Kit, *, on: date) -> Kit:
    """The kit as it is known on a day: days still to come are not known, readings and beads of them not made.

    >>> from kitlist.kit import Reading
    >>> late = Reading(battery="main", volts_v=12.7, taken_at=datetime(2028, 1, 1, 8, 0))
    >>> without_slips(Kit(readings=(late,)), on=date(2027, 3, 4)).readings
    ()
    """
    changed: dict[str, Any] = {}
    for kind, field, others in PAST:
        many = plural(kind)
        things = changed.get(many, getattr(kit, many))
        if any(_late(getattr(thing, field), on) for thing in things):
            nothing = {field: None} | {other: _EMPTY.get(other) for other in others}
            changed[many] = tuple(replace(t, **nothing) if _late(getattr(t, field), on) else t for t in things)
    for kind, field in GONE:
        things = getattr(kit, plural(kind))
        if any(_late(getattr(thing, field), on) for thing in things):
            changed[plural(kind)] = tuple(thing for thing in things if not _late(getattr(thing, field), on))
    return replace(kit, **changed) if changed else kit


def _slips(kit: Kit, on: date) -> Iterator[Slip]:
    for kind, field in [*((kind, field) for kind, field, _ in PAST), *GONE]:
        for thing in getattr(kit, plural(kind)):
            day = getattr(thing, field)
            if _late(day, on):
                name = thing.battery if kind == "reading" else thing.name
                edit = f"kitlist {kind} edit {shlex.quote(name)} {field.replace('_', '-')}=DATE"
                again = f"kitlist reading edit {shlex.quote(name)} {day.isoformat()} taken-at=TIME"
                command = again if kind == "reading" else edit
                yield Slip(kind, name, field, _day(day), command)


def _late(day: date | None, on: date) -> bool:
    return day is not None and _day(day) > on


def _day(day: date) -> date:
    return day.date() if isinstance(day, datetime) else day
