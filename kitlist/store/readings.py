"""Readings afterwards: which there are, and taking out one that was mistyped. A reading has no name but its moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kitlist.base import names
from kitlist.kit import Reading
from kitlist.store import changes, rows
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


def _moment(connection: sqlite3.Connection, battery: str, at: str, which: str) -> str:
    query = f"SELECT taken_at FROM reading WHERE battery = ? AND {which} ORDER BY taken_at DESC"
    known = [taken_at for (taken_at,) in connection.execute(query, (battery,))]
    return names.resolve(at.strip().replace("T", " "), known, what=f"reading of {battery}")
