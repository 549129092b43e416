"""The one way in which rows are written: an open change, which inserts, updates and deletes typed rows.

Statements are plain SQL made from the row classes of `kitlist.store.tables`, or from the table's name where loading
those would take longer than the whole command, as for one reading. So a hundred thousand readings go
the same way as a single one, and at the speed of the database. What is written goes into the journal in the same
transaction, row by row, before and after; rows that an import brings together are kept there as a span.
"""

from __future__ import annotations

import sqlite3
import uuid
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from functools import cache
from operator import itemgetter
from typing import TYPE_CHECKING, Any

from kitlist.store import rows
from kitlist.store.measured import COLUMN, SUMMED, checksum, sum_of
from kitlist.store.noting import AT_ONCE, Noting, Signature

if TYPE_CHECKING:
    from kitlist.store.tables import Row

    Table = type[Row] | str


class Writer:
    """One open change of the store. Everything written through it is kept when its block ends, or nothing is."""

    def __init__(self, connection: sqlite3.Connection, signature: Signature | None = None) -> None:
        self.connection = connection
        self.noting = Noting(connection, signature or Signature())
        self._known_columns: dict[str, dict[str, int]] = {}

    def insert(self, row: Row) -> int:
        """Insert a row; returns its number in the table."""
        return self.insert_values(type(row), row.model_dump())

    def insert_values(self, table: Table, values: Mapping[str, Any]) -> int:
        """Insert a row given by column."""
        values = {column: bound(value) for column, value in values.items() if column != COLUMN}
        kept = values | _sum(_name(table), values)
        done = self.connection.execute(_insertion(table, tuple(kept)), tuple(kept.values()))
        number = int(done.lastrowid or 0)
        numbered = "id" in self._columns(_name(table))
        self.noting.inserted(_name(table), values | ({"id": number} if numbered else {}))
        return number

    def insert_if_new(self, row: Row) -> None:
        """Insert a row where none has its key."""
        values = row.model_dump()
        key = {column: values[column] for column in self.key_of(type(row))}
        condition, bounds = _condition(key)
        there = self.connection.execute(f"SELECT 1 FROM {_name(type(row))} WHERE {condition}", bounds).fetchone()
        if there is None:
            self.insert_values(type(row), values)

    def insert_all(self, table: Table, columns: Sequence[str], many: Iterable[Sequence[Any]]) -> bool:
        """Insert rows of bound values in a table that numbers them; where one has a key that is there, none, and False.

        The rows have no numbers yet, or numbers that follow each other.
        """
        waiting: list[Sequence[Any]] = list(many)
        if summed := SUMMED.get(_name(table)):
            measured = itemgetter(*(columns.index(column) for column in summed))
            waiting = [(*row, checksum(measured(row))) for row in waiting]
            columns = (*columns, COLUMN)
        statement = f"{_insertion(table, tuple(columns))} ON CONFLICT DO NOTHING"
        if "id" in columns:
            first = int(waiting[0][columns.index("id")]) if waiting else 1
        else:
            query = f"SELECT coalesce(max(id), 0) FROM {_name(table)}"
            first = int(self.connection.execute(query).fetchone()[0]) + 1
        self.connection.execute("SAVEPOINT all_of_them")
        made = self.connection.executemany(statement, waiting).rowcount
        if made == len(waiting):
            self.noting.inserted_together(_name(table), first, first + made - 1)
        else:
            self.connection.execute("ROLLBACK TO all_of_them")
        self.connection.execute("RELEASE all_of_them")
        return made == len(waiting)

    def update(self, table: Table, where: Mapping[str, Any], **values: Any) -> int:
        """Set columns of every row that has the values of `where`; returns how many rows there are."""
        given = {column: bound(value) for column, value in values.items()}
        key = self.key_of(table)
        found = self.rows(table, where)
        for before in found:
            changed = {column: value for column, value in given.items() if before[column] != value}
            if changed:
                summed = _sum(_name(table), before | changed)
                self._set(_name(table), {column: before[column] for column in key}, changed | summed)
                told = {column: before[column] for column in (*key, *changed)}
                self.noting.updated(_name(table), told, told | changed)
        return len(found)

    def _set(self, table: str, key: Mapping[str, Any], values: Mapping[str, Any]) -> None:
        """Set columns of the row with a key, in two steps where its name changes in its case alone."""
        name = values.get("name")
        if name is not None and "name" in key and key["name"].casefold() == name.casefold():
            between = f"being renamed {uuid.uuid4()}"  # SQLite carries no change of case alone to what refers to it
            self._set(table, key, {"name": between})
            key = {"name": between}
        assigned = ", ".join(f"{column} = ?" for column in values)
        condition, bounds = _condition(key)
        self.connection.execute(f"UPDATE {table} SET {assigned} WHERE {condition}", (*values.values(), *bounds))

    def delete(self, table: Table, where: Mapping[str, Any]) -> int:
        """Delete every row that has the values of `where`; returns how many."""
        found = self.rows(table, where)
        condition, bounds = _condition(where)
        self.connection.execute(f"DELETE FROM {_name(table)} WHERE {condition}", bounds)
        self.noting.deleted(_name(table), found)
        return len(found)

    def delete_numbered(self, table: Table, first: int, last: int) -> None:
        """Delete the rows of a span of numbers."""
        for at in range(first, last + 1, AT_ONCE):
            span = (at, min(at + AT_ONCE - 1, last))
            self.noting.deleted(
                _name(table), self._found(f"SELECT * FROM {_name(table)} WHERE id BETWEEN ? AND ?", span)
            )
        self.connection.execute(f"DELETE FROM {_name(table)} WHERE id BETWEEN ? AND ?", (first, last))

    def rows(self, table: Table, where: Mapping[str, Any]) -> list[dict[str, Any]]:
        """The rows that have the values of `where`, as the store keeps them."""
        condition, bounds = _condition(where)
        return self._found(f"SELECT * FROM {_name(table)} WHERE {condition}", bounds)

    def _found(self, query: str, bounds: Sequence[Any]) -> list[dict[str, Any]]:
        found = self.connection.execute(query, bounds)
        columns = [column[0] for column in found.description]
        return [{c: v for c, v in zip(columns, row, strict=True) if c != COLUMN} for row in found]

    def key_of(self, table: Table) -> tuple[str, ...]:
        """The columns by which a row of a table is found."""
        places = self._columns(_name(table))
        return tuple(sorted((column for column, place in places.items() if place), key=lambda column: places[column]))

    def _columns(self, table: str) -> dict[str, int]:
        """The columns of a table, each with its place in the key from 1, or 0."""
        if table not in self._known_columns:
            described = self.connection.execute(f"PRAGMA table_info({table})").fetchall()
            self._known_columns[table] = {name: place for _, name, _, _, _, place in described}
        return self._known_columns[table]

    def roll_back(self) -> None:
        """Give everything up that was written through this change."""
        self.connection.execute("ROLLBACK")


def bound(value: Any) -> Any:
    """A value as the store keeps it: moments and days as text, yes and no as 1 and 0.

    >>> bound(date(2026, 11, 25)), bound(True), bound("post"), bound(None)
    ('2026-11-25', 1, 'post', None)
    """
    if isinstance(value, datetime):
        return rows.moment(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, bool):
        return int(value)
    return str(value) if isinstance(value, str) else value


def _sum(table: str, row: Mapping[str, Any]) -> dict[str, int]:
    return {COLUMN: sum_of(table, row)} if table in SUMMED else {}


@cache
def _insertion(table: Table, columns: tuple[str, ...]) -> str:
    marks = ", ".join("?" * len(columns))
    return f"INSERT INTO {_name(table)} ({', '.join(columns)}) VALUES ({marks})"


def _name(table: Table) -> str:
    return table if isinstance(table, str) else str(table.__tablename__)


def _condition(where: Mapping[str, Any]) -> tuple[str, tuple[Any, ...]]:
    """Equality of every column, `IS` so that nothing equals nothing."""
    return " AND ".join(f"{column} IS ?" for column in where) or "1", tuple(bound(value) for value in where.values())
