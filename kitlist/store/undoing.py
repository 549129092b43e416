"""Taking a command back: every row that it changed becomes what it was before, all of them or none.

A row is taken back only where it still is what the command made of it; where something later stands on it, the
command is refused in a sentence that names what. Taking back is a command itself, and can be taken back.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NoReturn

from kitlist.base.errors import BadData, NotFound
from kitlist.kit import KINDS
from kitlist.store import changes, journalled, rows
from kitlist.store.journalled import Given, RowChange, title
from kitlist.trips.check_off import KINDS as STOWED

if TYPE_CHECKING:
    from kitlist.store.opening import Store
    from kitlist.store.writer import Table, Writer

HINT = "kitlist journal shows what was changed, the newest first."
_ABOUT = ("check_off", "trip_use")  # tables that name a thing by its kind and name


@dataclass(frozen=True, slots=True)
class TakenBack:
    """A command that was taken back, and the number under which that itself stands in the journal."""

    entry: Given
    number: int


def undo(store: Store, number: int | None = None) -> TakenBack:
    """Take back the command of a number, else the last one that stands. Raises NotFound, BadData."""
    with store.writing() as change:
        entry = _wanted(change.connection, number)
        changed = journalled.changes_of(change.connection, entry.number)
        for one in reversed(changed):
            try:
                _take_back(change, entry, one)
            except sqlite3.IntegrityError:
                why = "what it refers to is not there now" if one.after is None else "something later stands on it"
                _refuse(entry, f"{one.title}: {why}")
        if number is not None:
            _hold_together(change, entry, changed)
        change.noting.took_back(entry.number, entry.undoes)
        return TakenBack(entry, int(change.noting.number or 0))


def _wanted(connection: sqlite3.Connection, number: int | None) -> Given:
    if number is None:
        last = connection.execute(
            "SELECT max(id) FROM journal WHERE undoes IS NULL AND undone_by IS NULL AND NOT lasting"
        ).fetchone()[0]
        if last is None:
            raise NotFound("there is nothing to take back", hint=HINT)
        return journalled.entry(connection, last)
    found = journalled.entry(connection, number)
    if found.undone_by is not None:
        hint = f"To have it again: kitlist undo {found.undone_by}"
        raise BadData(f"{found.named} was taken back already, by {found.undone_by}", hint=hint)
    if found.lasting:
        raise BadData(f"{found.named} cannot be taken back: it stays in the journal for what it tells", hint=HINT)
    return found


def _take_back(change: Writer, entry: Given, one: RowChange) -> None:
    from kitlist.store.tables import ALL

    table = next((t for t in ALL if t.__tablename__ == one.what), None)
    if table is None:
        _refuse(entry, f"this kitlist keeps no {one.what}")
    if one.span is not None:
        _take_back_span(change, entry, one, table, one.span)
    elif one.after is None:
        _bring_back(change, entry, one, table)
    else:
        _put_back(change, entry, one, table, one.after)


def _put_back(change: Writer, entry: Given, one: RowChange, table: Table, after: dict[str, Any]) -> None:
    """Undo a row that came, or whose columns changed."""
    key = {column: after[column] for column in change.key_of(table)}
    there = change.rows(table, key)
    if not there or any(column not in there[0] or there[0][column] != value for column, value in after.items()):
        later = journalled.later_command(change.connection, one)
        _refuse(entry, f"{one.title} was changed since" + (f" by {later.named}" if later else ""), later)
    if not one.before:
        if standing := _standing_on(change.connection, one.what, there[0]):
            _refuse(entry, f"{standing} stands on {one.title}")
        change.delete(table, key)
    else:
        (before,) = one.before
        change.update(table, key, **{column: value for column, value in before.items() if after[column] != value})


def _bring_back(change: Writer, entry: Given, one: RowChange, table: Table) -> None:
    """Undo rows that went."""
    if len(one.before) > 1 and "id" in one.before[0]:
        columns = tuple(one.before[0])
        if not change.insert_all(table, columns, [tuple(row.values()) for row in one.before]):
            _refuse(entry, f"something later stands where {one.title} was")
        return
    for row in one.before:
        if change.rows(table, {column: row[column] for column in change.key_of(table)}):
            _refuse(entry, f"something later stands where {one.title} was")
        change.insert_values(table, row)


def _take_back_span(change: Writer, entry: Given, one: RowChange, table: Table, span: tuple[int, int]) -> None:
    """Undo rows that came together, where none of them went or changed since."""
    first, last = span
    query = f"SELECT count(*) FROM {one.what} WHERE id BETWEEN ? AND ?"
    (there,) = change.connection.execute(query, span).fetchone()
    later = journalled.later_command(change.connection, one)
    if there != last - first + 1 or later is not None:
        _refuse(entry, f"{one.title} were changed since" + (f" by {later.named}" if later else ""), later)
    change.delete_numbered(table, first, last)


def _standing_on(connection: sqlite3.Connection, what: str, row: dict[str, Any]) -> str:
    """The first thing that refers to a row that is to go; "" where nothing does."""
    if what not in KINDS or what == "reading":
        return ""
    for other in _tables(connection):
        for reference in connection.execute(f"PRAGMA foreign_key_list({other})").fetchall():
            if reference[2] == what:
                query = f"SELECT * FROM {other} WHERE {reference[3]} = ? LIMIT 1"
                if found := _first(connection, query, (row["name"],)):
                    return title(other, found)
    for other in _ABOUT if what in STOWED else ():
        query = f"SELECT * FROM {other} WHERE kind = ? AND thing = ? LIMIT 1"
        if found := _first(connection, query, (what, row["name"])):
            return title(other, found)
    return ""


def _tables(connection: sqlite3.Connection) -> list[str]:
    query = "SELECT name FROM sqlite_master WHERE type = 'table' AND sql LIKE '%REFERENCES%' ORDER BY name"
    return [name for (name,) in connection.execute(query)]


def _first(connection: sqlite3.Connection, query: str, values: tuple[Any, ...]) -> dict[str, Any]:
    found = connection.execute(query, values)
    row = found.fetchone()
    return dict(zip([column[0] for column in found.description], row, strict=True)) if row else {}


def _hold_together(change: Writer, entry: Given, changed: tuple[RowChange, ...]) -> None:
    """Refuse where a thing would refer to one that is removed, or would not hold together in itself."""
    for kind, name in {(c.what, c.name_before) for c in changed if c.what in KINDS and c.what != "reading"}:
        things = rows.things(change.connection, kind, where="name = ? AND removed_at IS NULL", values=(name,))
        if not things:
            if name and (users := changes.users_of(change.connection, kind, name)):
                _refuse(entry, f"{users[0]} refers to {kind} {name}")
            continue
        problems: Sequence[tuple[str, str]] = getattr(things[0], "problems", tuple)()
        gone = changes.missing(change.connection, kind, things[0])
        if problems or (gone and kind not in changes.HISTORY):
            why = problems[0][1] if problems else f"{gone[0]} {gone[1]} is not in the kit now" if gone else ""
            _refuse(entry, f"{kind} {name} would not hold together: {why}")


def _refuse(entry: Given, why: str, later: Given | None = None) -> NoReturn:
    hint = f"Take that back first: kitlist undo {later.number}" if later else HINT
    raise BadData(f"{entry.named} cannot be taken back: {why}", hint=hint)
