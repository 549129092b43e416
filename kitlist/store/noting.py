"""What a change notes in the journal as it goes: the command on its first row, then each row before and after."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

KEPT = 1000  # commands in the journal: years of a crew's trips, seconds to read through
KEPT_BYTES = 10_000_000  # of what they changed; the newest command is kept whole whatever its size
AT_ONCE = 1000  # rows deleted together that are noted in one line
LONGEST = 500  # characters kept of a command's words
LASTING = {"printed", "sheet_item"}  # paper that is out in the world is not unprinted by forgetting it
_INSERT = "INSERT INTO journal_change (journal, what, before, after, first_row, last_row) VALUES (?, ?, ?, ?, ?, ?)"


@dataclass(frozen=True, slots=True)
class Signature:
    """The command that changes the store, in its own words, and who gave it, where that is known."""

    words: str = ""
    who: str = ""


class Noting:
    """The lines of one command, written as its rows are."""

    def __init__(self, connection: sqlite3.Connection, signature: Signature) -> None:
        self.signature = signature
        self.number: int | None = None
        self._connection = connection
        self._size = 0
        self._lasting = False
        self._span: tuple[int, str, int] | None = None  # the last line, where it is a span: line, table, last row

    def by(self, who: str) -> None:
        """Who gives the command, where its own words say it."""
        self.signature = Signature(self.signature.words, who)

    def inserted(self, table: str, row: Mapping[str, Any]) -> None:
        """A row came."""
        self._line(table, None, row)

    def updated(self, table: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> None:
        """Some columns of a row changed; its key is among them."""
        self._line(table, before, after)

    def deleted(self, table: str, gone: Sequence[Mapping[str, Any]]) -> None:
        """Rows went; many together stand in one line."""
        if len(gone) == 1:
            self._line(table, gone[0], None)
            return
        for at in range(0, len(gone), AT_ONCE):
            some = gone[at : at + AT_ONCE]
            self._line(table, {"columns": list(some[0]), "rows": [list(row.values()) for row in some]}, None)

    def inserted_together(self, table: str, first: int, last: int) -> None:
        """Numbered rows came together; what they hold stands in the table itself until they are changed."""
        if last < first:
            return
        if self._span and self._span[1:] == (table, first - 1):
            self._connection.execute("UPDATE journal_change SET last_row = ? WHERE id = ?", (last, self._span[0]))
        else:
            made = self._connection.execute(_INSERT, (self._begun(), table, None, None, first, last))
            self._span = (int(made.lastrowid or 0), table, last)
        self._span = (self._span[0], table, last)

    def _line(self, table: str, before: Mapping[str, Any] | None, after: Mapping[str, Any] | None) -> None:
        number = self._begun()
        told = [None if row is None else json.dumps(row, ensure_ascii=False) for row in (before, after)]
        self._connection.execute(_INSERT, (number, table, *told, None, None))
        self._size += sum(len(text) for text in told if text)
        self._lasting = self._lasting or table in LASTING
        self._span = None

    def _begun(self) -> int:
        """The number of the command's line, written before the first of its rows."""
        if self.number is None:
            at = datetime.now(UTC).astimezone().strftime("%Y-%m-%d %H:%M:%S")
            words = self.signature.words[:LONGEST]
            made = self._connection.execute(
                "INSERT INTO journal (at, words, who, lasting, size) VALUES (?, ?, ?, 0, 0)",
                (at, words, self.signature.who[:120]),
            )
            self.number = int(made.lastrowid or 0)
        return self.number

    def took_back(self, number: int, undoes: int | None) -> None:
        """This command takes back that one, which itself may have taken another back; that one stands again."""
        self._connection.execute("UPDATE journal SET undoes = ? WHERE id = ?", (number, self._begun()))
        self._connection.execute("UPDATE journal SET undone_by = ? WHERE id = ?", (self.number, number))
        self._connection.execute("UPDATE journal SET undone_by = NULL WHERE id = ?", (undoes,))

    def keep_history(self, at: str, words: str, who: str, told: Sequence[str]) -> None:
        """A command of another store's journal, with what it changed in words; nothing of it can be taken back."""
        size = sum(len(text) for text in told)
        made = self._connection.execute(
            "INSERT INTO journal (at, words, who, lasting, size) VALUES (?, ?, ?, 1, ?)", (at, words, who, size)
        )
        lines = [
            (made.lastrowid, "told", None, json.dumps({"told": text}, ensure_ascii=False), None, None) for text in told
        ]
        self._connection.executemany(_INSERT, lines)

    def close(self) -> None:
        """Note how much the command changed, and keep the journal bounded."""
        if self.number is not None:
            kept = (self._size, self._lasting, self.number)
            self._connection.execute("UPDATE journal SET size = ?, lasting = ? WHERE id = ?", kept)
            self._forget_the_oldest()

    def _forget_the_oldest(self) -> None:
        """Keep the journal bounded; the newest commands stay."""
        sizes = self._connection.execute("SELECT id, size FROM journal ORDER BY id DESC LIMIT ?", (KEPT + 1,))
        total = 0
        for place, (number, size) in enumerate(sizes):
            total += size
            if place >= KEPT or (place > 0 and total > KEPT_BYTES):
                self._connection.execute("DELETE FROM journal WHERE id <= ?", (number,))
                return
