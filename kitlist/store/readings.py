"""Readings afterwards: which there are, and taking out one that was mistyped. A reading has no name but its moment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData
from kitlist.kit import Reading, entry
from kitlist.store import changes, clock, rows
from kitlist.store.opening import Store

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.writer import Writer


def listed(store: Store, battery: str | None, *, count: int) -> tuple[Reading, ...]:
    """The newest readings of one battery, or of all, newest first."""
    with store.viewing() as connection:
        where, values = "removed_at IS NULL", []
        if battery is not None:
            values = [names.resolve(battery, rows.names_of(connection, "battery"), what="battery")]
            where += " AND battery = ?"
        order = f"taken_at DESC, battery LIMIT {int(count)}"
        return rows.things(connection, "reading", where=where, values=values, order=order)


def last_of_all(store: Store) -> dict[str, Reading]:
    """The newest reading of every battery that has one, by the battery's name."""
    where = (
        "removed_at IS NULL AND NOT EXISTS (SELECT 1 FROM reading later WHERE later.battery = reading.battery "
        "AND later.removed_at IS NULL AND later.taken_at > reading.taken_at)"
    )
    with store.viewing() as connection:
        return {r.battery: r for r in rows.things(connection, "reading", where=where, order="battery")}


def remove(store: Store, battery: str, at: str) -> Reading:
    """Take one reading out of the kit; it stays in the history, and `restore` brings it back."""
    with store.writing() as change:
        return remove_within(change, battery, at)


def remove_within(change: Writer, battery: str, at: str) -> Reading:
    """`remove` inside an open change."""
    return _marked(change, battery, at, changes.now())


def restore(store: Store, battery: str, at: str) -> Reading:
    """Bring back a reading that was removed."""
    with store.writing() as change:
        return _marked(change, battery, at, None)


def _marked(change: Writer, battery: str, at: str, removed_at: str | None) -> Reading:
    """Find a living (or removed) reading by its battery and any unambiguous start of its moment, and mark it."""
    from kitlist.store.tables import ReadingRow

    which = "removed_at IS NULL" if removed_at else "removed_at IS NOT NULL"
    connection = change.connection
    full = names.resolve(battery, rows.names_of(connection, "battery"), what="battery")
    moment = _moment(connection, full, at, which)
    where = "battery = ? AND taken_at = ?"
    change.update(ReadingRow, {"battery": full, "taken_at": moment}, removed_at=removed_at)
    found: Reading = rows.things(connection, "reading", where=where, values=(full, moment), order="id")[0]
    return found


def correct(store: Store, battery: str, at: str, values: Mapping[str, Any], *, by_clock: datetime) -> Reading:
    """Change fields of one reading that was mistyped; the journal keeps what it was. Returns it as it is now."""
    where = "battery = ? AND taken_at = ?"
    with store.writing() as change:
        connection = change.connection
        batteries = rows.names_of(connection, "battery")
        full = names.resolve(battery, batteries, what="battery")
        key = {"battery": full, "taken_at": _moment(connection, full, at, "removed_at IS NULL")}
        (old,) = rows.things(connection, "reading", where=where, values=tuple(key.values()), order="id")
        now: Reading = entry.build("reading", changes.changed("reading", old, values))
        now = replace(now, battery=names.resolve(now.battery, batteries, what="battery"))
        if now.taken_at != old.taken_at:
            clock.refuse_impossible(connection, now, by_clock=by_clock)
        taken = (now.battery, rows.moment(now.taken_at))
        if taken != tuple(key.values()) and any(rows.with_removal(connection, "reading", where, taken, "id")):
            raise BadData(f"{now.battery} already has a reading at {now.taken_at:%Y-%m-%d %H:%M:%S}")
        change.update("reading", key, **dict(zip(rows.reading_columns(), rows.reading_row(now), strict=True)))
    return now


def shortest(store: Store, reading: Reading) -> str:
    """The shortest way of writing when a reading was taken that means no other of its battery: mostly minutes."""
    with store.viewing() as connection:
        found = connection.execute("SELECT taken_at FROM reading WHERE battery = ?", (reading.battery,)).fetchall()
    minute = f"{reading.taken_at:%Y-%m-%d %H:%M}"
    alike = sum(1 for (taken_at,) in found if taken_at.startswith(minute))
    return (minute if alike <= 1 else reading.taken_at.isoformat(" ")).replace(" ", "T")


def _moment(connection: sqlite3.Connection, battery: str, at: str, which: str) -> str:
    query = f"SELECT taken_at FROM reading WHERE battery = ? AND {which} ORDER BY taken_at DESC"
    known = [taken_at for (taken_at,) in connection.execute(query, (battery,))]
    if at.strip().casefold() == "last" and known:
        return str(known[0])
    return names.resolve(at.strip().replace("T", " "), known, what=f"reading of {battery}")
