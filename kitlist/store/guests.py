"""A vehicle and its batteries for a companion's kit, as a small file; and a companion's, joined to a trip as guests.

Guests are kept apart: each name carries whose it is, `Heron (Ada)`, and nothing of the kit's own is ever changed but
the trip's list of vehicles. The same file joined again changes nothing.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData, BadFile
from kitlist.base.fields import fields_of
from kitlist.base.terms import DAMAGED
from kitlist.kit import KINDS, Battery, Reading, Vehicle, entry, plain, raw_values
from kitlist.store import changes, clock, rows, snapshot, tomlfile
from kitlist.store.entries import Entry, WrongEntry
from kitlist.store.opening import Store

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.writer import Writer

READINGS_SHARED = 3
SHARED = ("vehicle", "battery", "reading")
_OWN = ("bag", "note", "removed_at")  # what stays at home
_HEAD = """\
# A vehicle and its batteries, shared by {owner} for a companion's kit. Plain text: read it before you send it.
# To join it to a trip:  kitlist import FILE --trip "NAME OF TRIP"
"""
_BLANK = """\
# Fill in what you know between the quotes; leave the rest as it is. One [[battery]] for each battery, and
# one [[reading]] each time its volts were read.
# Then send the file back. They type:  kitlist import FILE --trip "NAME OF TRIP"

[[vehicle]]
name = ""          # what you call the vehicle
guest_of = "?"     # your name, as it may stand on their paper
system = "12V"     # 12V; or 24V, which is two 12 V batteries with a bridge from one to the other
start_batteries = "single"  # single, twin (two side by side) or pair (the two of 24 V)
alternator = ""    # what its alternator is rated for, as 100A

[[battery]]
name = ""          # main, second, ...
place = "start"    # start, second or loose
chemistry = ""     # flooded, calcium, efb, agm, gel or lithium: on its label
c20 = ""           # capacity on its label, as 70Ah
cranking_a = ""    # cranking rating on its label, as 680A
cranking_standard = ""  # sae, en, din, jis: beside that rating
condition = ""     # sound, cracked, leaking, swollen
built_in_cutoff = ""    # electronics inside that cut it off: yes or no
terminals = ""     # post, stud-m6, stud-m8, stud-m10
stays_connected = ""    # left connected when parked: yes or no

[[reading]]
battery = ""       # the name that you gave the battery above
volts = ""         # at the posts, all loads off, as 12.71
taken_at = ""      # day and time, as 2027-05-05T07:00
rested = ""        # hours since engine, charger and loads went off, as 12h
battery_temp = ""  # as 9C
"""


@dataclass(frozen=True, slots=True)
class Joined:
    """What joining a file did: the names that were added, and what was kept as it is although the file differs."""

    trip: str
    added: tuple[str, ...]
    differs: tuple[str, ...]


def share(store: Store, vehicle: str, *, by: str) -> str:
    """The file of one vehicle, its batteries and their newest readings. No notes and no bags. Raises NotFound."""
    kit = snapshot.snapshot(store)
    name = names.resolve(vehicle, [v.name for v in kit.vehicles], what="vehicle")
    going = next(v for v in kit.vehicles if v.name == name)
    owner = going.guest_of or raw_values.one_line(by)
    if not owner:
        raise BadData("whose it is is not said", hint="--by WHOSE: the name as it may stand on their paper")
    welded = dict(kit.welded)
    batteries = [replace(b, welded_on=welded.get(b.name)) for b in kit.batteries if b.vehicle == name]
    readings = [r for b in batteries for r in kit.readings_of[b.name][:READINGS_SHARED]]
    things: list[tuple[str, Any]] = [("vehicle", replace(going, guest_of=owner))]
    things += [("battery", battery) for battery in batteries] + [("reading", reading) for reading in readings]
    return _HEAD.format(owner=owner) + "".join(_table(kind, thing) for kind, thing in things)


def blank() -> str:
    """A form in plain text for a companion without kitlist."""
    return _BLANK


def _table(kind: str, thing: Any) -> str:
    lines = [f"\n[[{kind}]]\n"]
    for field in fields_of(KINDS[kind]):
        value = getattr(thing, field.name)
        if field.name not in _OWN and value is not None and value != "" and value != field.default:
            lines.append(f"{field.name} = {_written(value)}\n")
    return "".join(lines)


def _written(value: Any) -> str:
    if isinstance(value, date | datetime):
        return value.isoformat()
    return json.dumps(plain(value), ensure_ascii=False)


def is_shared(path: Path) -> bool:
    """Whether a file holds a companion's vehicle and nothing else; a whole kit may have guests in it too."""
    if path.suffix.lower() != ".toml" or not path.is_file():
        return False
    items = [item for item in tomlfile.read(path) if isinstance(item, Entry)]
    vehicles = [item for item in items if item.kind == "vehicle"]
    guests = [item for item in vehicles if item.values.get("guest_of")]
    return bool(guests) and len(vehicles) == 1 and all(item.kind in SHARED for item in items)


def join(store: Store, path: Path, trip: str, *, dry_run: bool = False, by_clock: datetime | None = None) -> Joined:
    """Join what a file holds to a trip, all of it or nothing. Raises BadFile with every line that cannot be taken.

    With `by_clock`, what the machine's clock says, a reading that is later than it is one of those.
    """
    found, wrong = _read(path)
    for _, thing in found if by_clock else ():
        if isinstance(thing, Reading) and clock.too_late(thing.taken_at, by_clock=by_clock or thing.taken_at):
            wrong.append(
                f"{path.name}: the reading of {thing.battery} at {thing.taken_at} is later than this machine's clock, "
                f"{by_clock:%Y-%m-%d %H:%M}: which clock is right? Correct the moment in the file, or set the clock"
            )
    if wrong:
        counted = f"{len(wrong)} line{'' if len(wrong) == 1 else 's'}"
        raise BadFile(f"{path.name}: {counted} cannot be taken; nothing was", lines=tuple(wrong))
    added: list[str] = []
    differs: list[str] = []
    with store.writing() as change:
        going = changes.find(change.connection, "trip", trip)
        found = _spelled(change.connection, found)
        for kind, thing in found:
            told = _join_one(change, kind, thing)
            if told is None:
                added.append(f"{kind} {_title(thing)}")
            elif told:
                differs.append(told)
        new = [t.name for kind, t in found if kind == "vehicle" and t.name not in going.vehicles]
        if new:
            changes.write(change, "trip", going.name, replace(going, vehicles=(*going.vehicles, *new)))
        if dry_run:
            change.roll_back()
    return Joined(going.name, tuple(added), tuple(differs))


def _spelled(connection: sqlite3.Connection, found: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """The guests with the names that are there already as the kit spells them."""
    known = {kind: {n.casefold(): n for n in rows.names_of(connection, kind)} for kind in SHARED if kind != "reading"}
    spelled = []
    for kind, thing in found:
        refers = {f.name: f.about.refers for f in fields_of(KINDS[kind]) if f.about.refers in known} | {"name": kind}
        as_kept = {}
        for column, other in refers.items():
            given = getattr(thing, column, None)
            if given and given.casefold() in known[other]:
                as_kept[column] = known[other][given.casefold()]
        spelled.append((kind, replace(thing, **as_kept)))
    return spelled


def _read(path: Path) -> tuple[list[tuple[str, Any]], list[str]]:
    """The guests of a file under their names, and every line that cannot be taken."""
    wrong: list[str] = []
    items: list[Entry] = []
    for item in tomlfile.read(path):
        if isinstance(item, WrongEntry):
            wrong.append(f"{path.name}:{item.line}: {item.sentence}")
        elif item.kind not in SHARED:
            wrong.append(f"{path.name}:{item.line}: a shared file holds {', '.join(SHARED)}, no {item.kind}")
        else:
            items.append(item)
    vehicles = {
        str(i.values.get("name", "")): str(i.values.get("guest_of", "")).strip(" ?")
        for i in items
        if i.kind == "vehicle"
    }
    if len(vehicles) != 1 or not all((*vehicles, *vehicles.values())):
        return [], [*wrong, f"{path.name}:1: a shared file holds one vehicle, with its name and whose it is (guest_of)"]
    (vehicle, owner), *_ = vehicles.items()
    found = []
    items = [item for item in items if item.kind != "reading" or any(value != "" for value in item.values.values())]
    for item in items:
        try:
            found.append((item.kind, _as_guest(item, vehicle, owner)))
        except entry.BadEntry as error:
            wrong += [f"{path.name}:{item.field_lines.get(p.field) or item.line}: {p.sentence}" for p in error.problems]
    inside = {thing.name for kind, thing in found if kind == "battery"}
    for item, (kind, thing) in zip(items, found, strict=False):
        if kind == "reading" and thing.battery not in inside and not wrong:
            wrong.append(f"{path.name}:{item.line}: the reading is of {thing.battery}, which is not in the file")
    return found, wrong


def _as_guest(item: Entry, vehicle: str, owner: str) -> Any:
    """One thing under a name that says whose it is; empty answers of the form are not known."""
    values = {key: value for key, value in item.values.items() if value != "" and key not in _OWN}
    for key in ("name",) if item.kind != "reading" else ("battery",):
        if isinstance(values.get(key), str):
            values[key] = f"{values[key]} ({owner})"
    if item.kind == "battery" and values.get("place") != "loose":
        values["vehicle"] = f"{vehicle} ({owner})"
    if item.kind == "battery" and values.get("place") == "loose":
        values |= {"place": "second", "vehicle": f"{vehicle} ({owner})"}  # it rides there, and goes on no other trip
    return entry.build(item.kind, values)


def _join_one(change: Writer, kind: str, thing: Any) -> str | None:
    """None when it was added, "" when it is there already, else how what is there differs; that stays as it is."""
    if isinstance(thing, Reading):
        at = (thing.battery, rows.moment(thing.taken_at))
        kept = rows.things(change.connection, "reading", where="battery = ? AND taken_at = ?", values=at, order="id")
        there = kept[0] if kept else None
    else:
        there = next((n for n in rows.names_of(change.connection, kind) if n.casefold() == thing.name.casefold()), None)
        there = there and changes.find(change.connection, kind, there)
    if there is None:
        changes.insert(change, kind, thing)
        return None
    if isinstance(thing, Battery) and (worse := _worse(there, thing)):
        changes.write(change, kind, there.name, replace(there, **worse))
        return None
    differing = [f.name for f in fields_of(KINDS[kind]) if getattr(there, f.name) != getattr(thing, f.name)]
    return f"{kind} {_title(thing)}: {', '.join(differing)}" if differing else ""


def _worse(there: Battery, came: Battery) -> dict[str, Any]:
    """What of a guest's battery is believed because it is worse: damage, and that it has welded since."""
    worse: dict[str, Any] = {}
    if came.condition in DAMAGED and there.condition not in DAMAGED:
        worse["condition"] = came.condition
    if came.welded_on is not None and (there.welded_on is None or came.welded_on > there.welded_on):
        worse["welded_on"] = came.welded_on
    return worse


def _title(thing: Vehicle | Battery | Reading) -> str:
    return f"{thing.battery}, {thing.taken_at}" if isinstance(thing, Reading) else thing.name
