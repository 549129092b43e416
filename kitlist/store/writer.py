"""The one way in which rows are written: an open change, which inserts, updates and deletes typed rows.

Statements are plain SQL made from the row classes of `kitlist.store.tables`, so that a hundred thousand readings go
the same way as a single one, and at the speed of the database.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from functools import cache
from typing import TYPE_CHECKING, Any

from kitlist.store import rows

if TYPE_CHECKING:
    from kitlist.store.tables import Row

    Table = type[Row]


class Writer:
    """One open change of the store. Everything written through it is kept when its block ends, or nothing is."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def insert(self, row: Row) -> int:
        """Insert a row; returns its number in the table."""
        return self.insert_values(type(row), row.model_dump())

    def insert_values(self, table: Table, values: Mapping[str, Any]) -> int:
        """Insert a row given by column."""
        values = {column: bound(value) for column, value in values.items()}
        done = self.connection.execute(_insertion(table, tuple(values)), tuple(values.values()))
        return int(done.lastrowid or 0)

    def insert_if_new(self, row: Row) -> bool:
        """Insert a row where none has its key; says whether it was inserted."""
        values = {column: bound(value) for column, value in row.model_dump().items()}
        statement = f"{_insertion(type(row), tuple(values))} ON CONFLICT DO NOTHING"
        return self.connection.execute(statement, tuple(values.values())).rowcount == 1

    def insert_all(self, table: Table, columns: Sequence[str], many: Iterable[Sequence[Any]]) -> bool:
        """Insert rows of bound values, all of them; where one of them has a key that is there, none, and False."""
        statement = f"{_insertion(table, tuple(columns))} ON CONFLICT DO NOTHING"
        waiting = list(many)
        self.connection.execute("SAVEPOINT all_of_them")
        made = self.connection.executemany(statement, waiting).rowcount
        if made != len(waiting):
            self.connection.execute("ROLLBACK TO all_of_them")
        self.connection.execute("RELEASE all_of_them")
        return made == len(waiting)

    def update(self, table: Table, where: Mapping[str, Any], **values: Any) -> int:
        """Set columns of every row that has the values of `where`; returns how many rows."""
        given = {column: bound(value) for column, value in values.items()}
        assigned = ", ".join(f"{column} = ?" for column in given)
        condition, bounds = _condition(where)
        statement = f"UPDATE {table.__tablename__} SET {assigned} WHERE {condition}"
        return self.connection.execute(statement, (*given.values(), *bounds)).rowcount

    def delete(self, table: Table, where: Mapping[str, Any]) -> int:
        """Delete every row that has the values of `where`; returns how many."""
        condition, bounds = _condition(where)
        return self.connection.execute(f"DELETE FROM {table.__tablename__} WHERE {condition}", bounds).rowcount

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


@cache
def _insertion(table: Table, columns: tuple[str, ...]) -> str:
    marks = ", ".join("?" * len(columns))
    return f"INSERT INTO {table.__tablename__} ({', '.join(columns)}) VALUES ({marks})"


def _condition(where: Mapping[str, Any]) -> tuple[str, tuple[Any, ...]]:
    """Equality of every column, `IS` so that nothing equals nothing."""
    return " AND ".join(f"{column} IS ?" for column in where), tuple(bound(value) for value in where.values())
