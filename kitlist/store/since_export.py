"""What was changed in the kit since a file was exported from it: the journal that the file carries says from where on.

A file that says nothing of it, another store's, and one from before the journal's oldest command cannot be set against
the kit; then nothing is known to be changed since.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from kitlist.base.errors import BadData
from kitlist.base.fields import fields_of
from kitlist.kit import KINDS
from kitlist.store import journalled, rows
from kitlist.store.journalled import RowChange

_LISTS = {
    rows.list_table(kind, f): (kind, f.name) for kind, cls in KINDS.items() for f in fields_of(cls) if f.type is tuple
}
"""The table of each list, with the kind and the field that it belongs to."""

NAME = "name"


@dataclass(frozen=True, slots=True)
class Since:
    """What the commands after an export made of the kit; each with the command that did it first.

    `base` is the value that a field had at the export, `lists` are lists of which only the change is known.
    """

    known: bool = False
    base: dict[tuple[str, str, str], tuple[Any, str]] = field(default_factory=dict)
    lists: dict[tuple[str, str, str], str] = field(default_factory=dict)
    added: dict[tuple[str, str], str] = field(default_factory=dict)
    renamed: dict[tuple[str, str], str] = field(default_factory=dict)
    reading_ids: set[int] = field(default_factory=set)


def since(connection: sqlite3.Connection, journal: Sequence[dict[str, Any]]) -> Since:
    """What was changed after the last command of an exported journal. Raises BadData where that is forgotten."""
    last = journal[-1] if journal else {}
    number = last.get("number")
    if not isinstance(number, int):
        return Since()
    row = connection.execute("SELECT at, words FROM journal WHERE id = ?", (number,)).fetchone()
    if row is None:
        (oldest,) = connection.execute("SELECT coalesce(min(id), 0) FROM journal").fetchone()
        (words,) = connection.execute("SELECT count(*) FROM journal WHERE at < ?", (str(last.get("at")),)).fetchone()
        if number < oldest and not words:
            raise BadData(
                "the file was exported before the oldest command that the journal still has: what was changed since "
                "is not known",
                hint="Export anew, change that file, and take it in: kitlist export kit.json --replace",
            )
        return Since()
    if (row[0], row[1]) != (last.get("at"), last.get("words")):
        return Since()  # the number is of another store's journal
    found = Since(known=True)
    later = connection.execute("SELECT id, words FROM journal WHERE id > ? ORDER BY id", (number,)).fetchall()
    for command, words in later:
        for change in journalled.changes_of(connection, command):
            _note(found, change, f"{words or 'a change'} ({command})")
    return found


def _note(found: Since, change: RowChange, by: str) -> None:
    kind = change.what
    if change.span is not None:
        if kind == "reading":
            found.reading_ids.update(range(change.span[0], change.span[1] + 1))
        return
    if kind in _LISTS:
        owner, of = _LISTS[kind]
        for row in (*change.before, change.after or {}):
            if owner in row:
                found.lists.setdefault((owner, str(row[owner]).casefold(), of), by)
        return
    if kind not in KINDS:
        return
    after = change.after
    if after is not None and not change.before:
        if kind == "reading":
            found.reading_ids.add(int(after["id"]))
        else:
            found.added.setdefault((kind, str(after[NAME]).casefold()), by)
    if after is None or kind == "reading":
        return
    for before in change.before:
        if NAME in before and str(before[NAME]).casefold() != str(after.get(NAME)).casefold():
            found.renamed[kind, str(before[NAME]).casefold()] = by
            found.renamed[kind, str(after[NAME]).casefold()] = by
        folded = str(before.get(NAME, "")).casefold()
        for column, value in before.items():
            if column != NAME and (kind, folded) not in found.added:
                found.base.setdefault((kind, folded, column), (value, by))
