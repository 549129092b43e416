"""Rows of the store as the kit's dataclasses and back, by each kind's own description.

Reading needs no session and no row objects: a judgement starts in half the time without them.
"""

from __future__ import annotations

import dataclasses
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from datetime import date, datetime
from enum import StrEnum
from operator import attrgetter, itemgetter
from typing import Any

from kitlist.base.fields import Field, fields_of
from kitlist.base.names import quoted
from kitlist.kit import KINDS, Reading
from kitlist.store.measured import COLUMN, SUMMED, WrongSum, checksum

READING_FIELDS = tuple(f.name for f in dataclasses.fields(Reading) if f.name != "taken_at")
_READING_VALUES = attrgetter(*READING_FIELDS)

Lists = dict[str, dict[str, tuple[str, ...]]]
"""Name of a thing -> field -> members in order."""


def things(
    connection: sqlite3.Connection,
    kind: str,
    *,
    where: str = "removed_at IS NULL",
    values: Iterable[Any] = (),
    order: str = "name",
    with_lists: bool = True,
    unchecked: bool = False,
) -> tuple[Any, ...]:
    """The things of one kind that answer to `where`, with their lists."""
    lists = lists_of(connection, kind) if with_lists else {}
    return tuple(thing for thing, _ in with_removal(connection, kind, where, values, order, lists, unchecked=unchecked))


def with_removal(
    connection: sqlite3.Connection,
    kind: str,
    where: str = "1",
    values: Iterable[Any] = (),
    order: str = "name",
    lists: Lists | None = None,
    *,
    unchecked: bool = False,
) -> Iterator[tuple[Any, str | None]]:
    """Things one after another, each with the moment of its removal or None; they are never all in memory.

    Raises WrongSum where what was measured is not what was written, unless `unchecked`.
    """
    cls = KINDS[kind]
    fields = [f for f in fields_of(cls) if f.type is not tuple]
    names = [f.name for f in fields]
    readers = [(at, read) for at, f in enumerate(fields) if (read := _reader(f.type)) is not None]
    listed = lists_of(connection, kind) if lists is None else lists
    summed = () if unchecked else SUMMED.get(kind, ())
    measured = itemgetter(*(names.index(column) for column in summed)) if summed else None
    columns = ", ".join((*names, COLUMN if summed else "0", "removed_at"))
    query = f"SELECT {columns} FROM {kind} WHERE {where} ORDER BY {order}"
    for row in connection.execute(query, tuple(values)):
        found = list(row)
        removed_at = found.pop()
        kept = found.pop()
        if measured is not None and kept != checksum(measured(found)):
            raise _wrong_sum(kind, dict(zip(names, found, strict=True)))
        try:
            for at, read in readers:
                if found[at] is not None:
                    found[at] = read(found[at])
        except (LookupError, ValueError, TypeError) as error:  # no word of ours, no day: nothing here writes such
            raise WrongSum(f"{kind} {found[0]}: {found[at]!r} is not what was written", way_out="") from error
        yield cls(**dict(zip(names, found, strict=True)), **listed.get(found[0], {})), removed_at


def _wrong_sum(kind: str, row: dict[str, Any]) -> WrongSum:
    if kind == "reading":
        at = str(row["taken_at"])[:19]
        return WrongSum(
            f"the reading of {row['battery']} at {at} is not what was written",
            way_out=f"kitlist reading remove {quoted(row['battery'])} {quoted(at)}",
        )
    said = ", ".join(column for column in SUMMED[kind] if row[column] is not None)
    return WrongSum(
        f"{kind} {row['name']}: {said}: one of them is not what was written",
        way_out=f"kitlist {kind} remove {quoted(row['name'])}",
    )


def lists_of(connection: sqlite3.Connection, kind: str) -> Lists:
    """The lists of every thing of one kind; each list lives in a table of its own, `trip_vehicle` for vehicles."""
    found: dict[str, dict[str, list[str]]] = {}
    for field in fields_of(KINDS[kind]):
        if field.type is tuple:
            member = field.about.refers
            query = f"SELECT {kind}, {member} FROM {list_table(kind, field)} ORDER BY {kind}, position"
            for owner, name in connection.execute(query):
                found.setdefault(owner, {}).setdefault(field.name, []).append(name)
    return {owner: {f: tuple(members) for f, members in lists.items()} for owner, lists in found.items()}


def list_table(kind: str, field: Field) -> str:
    """The table of a list: `trip_vehicle` for the vehicles of trips."""
    return f"{kind}_{field.about.refers}"


def names_of(connection: sqlite3.Connection, kind: str, *, where: str = "removed_at IS NULL") -> list[str]:
    """The names of one kind, the living ones unless told otherwise."""
    return [name for (name,) in connection.execute(f"SELECT name FROM {kind} WHERE {where} ORDER BY name")]


def reading_columns() -> tuple[str, ...]:
    """The columns of a reading, as `reading_row` gives them."""
    return (*READING_FIELDS, "taken_at", "removed_at")


def reading_row(reading: Reading, removed_at: str | None = None) -> tuple[Any, ...]:
    """A reading as its row, in the order of `reading_columns`."""
    return (*_READING_VALUES(reading), moment(reading.taken_at), removed_at)


def moment(value: datetime) -> str:
    """A moment as the store keeps it; one writing only, so that equal moments are equal text."""
    return value.isoformat(" ", "microseconds")


def _reader(kind: Any) -> Callable[[Any], Any] | None:
    if kind is datetime:
        return datetime.fromisoformat
    if kind is date:
        return date.fromisoformat
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return {str(member): member for member in kind}.__getitem__
    return bool if kind is bool else None
