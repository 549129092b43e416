"""What the journal holds: the commands that changed the store, and of each what it changed, in words."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kitlist.base import clean, names
from kitlist.base.errors import NotFound
from kitlist.base.fields import fields_of
from kitlist.kit import KINDS, PLURALS
from kitlist.store import rows
from kitlist.store.entries import is_moment
from kitlist.store.noting import LONGEST

if TYPE_CHECKING:
    from kitlist.store.opening import Store

TOLD = "told"  # lines that came with another store's journal: in words only
_ENTRY = "SELECT id, at, words, who, undoes, undone_by, lasting FROM journal"
_CHANGE = "SELECT id, what, before, after, first_row, last_row FROM journal_change"
_NAMING = ("name", "battery", "vehicle", "rod", "repair", "thing", "trip", "bead", "mend")  # columns that hold a name
_TITLES = {
    "rod_event": "what happened to {rod}: {what}",
    "check_off": "the answer about {thing}",
    "trip_use": "what {trip} took of {thing}",
    "linked_battery": "{battery}, linked on {linked_on}",
    "sheet_item": "a number of the sheet {content_hash}",
    "printed": "the {paper} of {trip}, revision {revision}",
    "setting": "the settings of the store",
    "reading": "the reading of {battery} at {taken_at}",
}


@dataclass(frozen=True, slots=True)
class Given:
    """A command that changed something; `undoes` is the command that it took back."""

    number: int
    at: str
    words: str
    who: str
    undoes: int | None
    undone_by: int | None
    lasting: bool

    @property
    def named(self) -> str:
        """The command as a sentence names it."""
        return f"{self.words or 'a change'!r} ({self.number})"


@dataclass(frozen=True, slots=True)
class RowChange:
    """Rows of one table that a command changed together: none before where they came, none after where they went."""

    number: int
    what: str
    before: tuple[dict[str, Any], ...]
    after: dict[str, Any] | None
    span: tuple[int, int] | None

    @property
    def title(self) -> str:
        """What it is about, in words."""
        if self.span is not None:
            count = self.span[1] - self.span[0] + 1
            return f"{count} {PLURALS.get(self.what, self.what) if count > 1 else self.what}"
        if len(self.before) > 1:
            return f"{len(self.before)} {PLURALS.get(self.what, self.what)}"
        return title(self.what, self.after or self.before[0])

    @property
    def name_before(self) -> str:
        """The name that the thing had before, else the one that it has."""
        row = self.before[0] if self.before else self.after or {}
        return str(row.get("name", ""))

    @property
    def names(self) -> set[str]:
        """Every name in the rows, in lower case."""
        found = (*self.before, self.after or {})
        return {str(row[column]).casefold() for row in found for column in _NAMING if row.get(column)}


@dataclass(frozen=True, slots=True)
class Came:
    """A command of another store's journal, as a file brings it."""

    at: str
    words: str
    who: str
    changes: tuple[str, ...]

    @classmethod
    def of(cls, values: Mapping[str, Any]) -> Came:
        """Checked values of a file. Raises ValueError with what is wrong."""
        at, words, who = (values.get(word) for word in ("at", "words", "who"))
        lines = values.get("changes")
        if not isinstance(at, str) or not is_moment(at):
            raise ValueError(f"at = {str(at)[:40]!r} must be a time like 2026-11-25 07:30:00")
        if not isinstance(words, str) or not isinstance(who, str):
            raise ValueError("words and who must be text")
        if not isinstance(lines, list) or not all(isinstance(line, str) for line in lines):
            raise ValueError("changes must be a list of text")
        plain = tuple(clean.plain(line) for line in lines)
        return cls(at, clean.plain(words, longest=LONGEST), clean.plain(who, longest=120), plain)


Listed = tuple[Given, tuple[RowChange, ...]]
"""A command with what it changed."""


def title(what: str, row: dict[str, Any]) -> str:
    """A row in words."""
    if what in KINDS and what != "reading":
        return f"{what} {row.get('name')}"
    if what in _TITLES and all(f"{{{column}}}" not in _TITLES[what] or column in row for column in _columns(what)):
        return _TITLES[what].format_map(row | {"taken_at": str(row.get("taken_at", ""))[:19]})
    owner, _, member = what.partition("_")
    if member in row and owner in row:
        return f"{row[member]} among the {PLURALS.get(member, member)} of {row[owner]}"
    return f"a line of {what.replace('_', ' ')}"


def _columns(what: str) -> list[str]:
    return [part.split("}")[0] for part in _TITLES[what].split("{")[1:]]


def in_words(change: RowChange) -> str:
    """A change in words: what came, what went, or which fields became what.

    >>> in_words(RowChange(1, "tool", ({"name": "grinder", "count": 1},), {"name": "grinder", "count": 2}, None))
    'tool grinder: count 1 -> 2'
    """
    if change.what == TOLD and change.after:
        return str(change.after[TOLD])
    if change.span is not None or not change.before:
        return f"{change.title}: added"
    if change.after is None:
        return f"{change.title}: gone"
    (before,) = change.before
    differing = [column for column in change.after if change.after[column] != before[column]]
    if differing == ["removed_at"]:
        return f"{change.title}: {'removed' if change.after['removed_at'] else 'brought back'}"
    pairs = [f"{_label(change.what, c)} {_value(before[c])} -> {_value(change.after[c])}" for c in differing]
    return f"{title(change.what, before)}: {', '.join(pairs)}"


def _label(what: str, column: str) -> str:
    fields = fields_of(KINDS[what]) if what in KINDS else ()
    return next((f.label for f in fields if f.name == column), column.replace("_", " "))


def _value(value: Any) -> str:
    if value is None or value == "":
        return "not known" if value is None else "nothing"
    return f"{value:g}" if isinstance(value, float) else str(value)


def entry(connection: sqlite3.Connection, number: int) -> Given:
    """One command by its number. Raises NotFound."""
    found = connection.execute(f"{_ENTRY} WHERE id = ?", (number,)).fetchone()
    if found is None:
        raise NotFound(f"the journal has no command {number}", hint="kitlist journal shows those that it has.")
    return _entry(found)


def changes_of(connection: sqlite3.Connection, number: int) -> tuple[RowChange, ...]:
    """What a command changed, in order."""
    return tuple(_change(row) for row in connection.execute(f"{_CHANGE} WHERE journal = ? ORDER BY id", (number,)))


def later_command(connection: sqlite3.Connection, change: RowChange) -> Given | None:
    """The newest command that stands and that changed the same row, or one of the same rows, later."""
    query = f"{_ENTRY} WHERE undoes IS NULL AND undone_by IS NULL AND id > (SELECT journal FROM journal_change "
    for row in connection.execute(f"{query} WHERE id = ?) ORDER BY id DESC", (change.number,)).fetchall():
        found = _entry(row)
        if any(_same(change, other) for other in changes_of(connection, found.number)):
            return found
    return None


def _same(change: RowChange, other: RowChange) -> bool:
    if change.what != other.what or other.span is not None:
        return False
    if change.span is not None:
        numbers = (row.get("id") for row in (*other.before, other.after or {}))
        return any(n is not None and change.span[0] <= n <= change.span[1] for n in numbers)
    return bool(change.names & other.names)


def listed(store: Store, thing: str | None = None, *, count: int = 20) -> tuple[Listed, ...]:
    """The newest commands with what each changed, newest first; with `thing`, those that changed what has that name.

    A thing that was renamed is followed back under its former names. Raises NotFound, Ambiguous.
    """
    with store.viewing() as connection:
        wanted = None if thing is None else _resolved(connection, thing)
        found: list[Listed] = []
        for one in (_entry(row) for row in connection.execute(f"{_ENTRY} ORDER BY id DESC").fetchall()):
            if len(found) == count:
                break
            changes = changes_of(connection, one.number)
            if wanted is not None:
                changes = tuple(c for c in changes if c.names & wanted or _within(connection, c, wanted))
                wanted |= {c.name_before.casefold() for c in changes if c.name_before and _renamed(c)}
            if changes:
                found.append((one, changes))
        return tuple(found)


def everything(connection: sqlite3.Connection) -> Iterator[dict[str, Any]]:
    """The journal for an export, oldest first: each command with what it changed."""
    for row in connection.execute(f"{_ENTRY} ORDER BY id").fetchall():
        one = _entry(row)
        changes = changes_of(connection, one.number)
        yield {
            "number": one.number,
            "at": one.at,
            "words": one.words,
            "who": one.who,
            **({"undoes": one.undoes} if one.undoes else {}),
            "changes": [in_words(change) for change in changes],
        }


def _renamed(change: RowChange) -> bool:
    return change.after is not None and change.after.get("name") != change.name_before


def _within(connection: sqlite3.Connection, change: RowChange, wanted: set[str]) -> bool:
    """Whether rows that came together hold a reading of a battery that is wanted."""
    if change.span is None or change.what != "reading":
        return False
    batteries = connection.execute("SELECT DISTINCT battery FROM reading WHERE id BETWEEN ? AND ?", change.span)
    return any(battery.casefold() in wanted for (battery,) in batteries)


def _resolved(connection: sqlite3.Connection, thing: str) -> set[str]:
    known = {name for kind in KINDS if kind != "reading" for name in rows.names_of(connection, kind, where="1")}
    try:
        return {names.resolve(thing, sorted(known), what="thing").casefold()}
    except NotFound:
        for row in connection.execute(f"{_CHANGE} WHERE before IS NOT NULL OR after IS NOT NULL"):
            if thing.strip().casefold() in _change(row).names:
                return {thing.strip().casefold()}
        raise


def _entry(row: tuple[Any, ...]) -> Given:
    number, at, words, who, undoes, undone_by, lasting = row
    return Given(number, at, words, who, undoes, undone_by, bool(lasting))


def _change(row: tuple[Any, ...]) -> RowChange:
    number, what, before, after, first, last = row
    span = None if first is None else (first, last)
    try:
        old, new = (None if text is None else dict(json.loads(text)) for text in (before, after))
        many: tuple[dict[str, Any], ...] = () if old is None else (old,)
        if old is not None and "rows" in old:
            many = tuple(dict(zip(old["columns"], values, strict=True)) for values in old["rows"])
    except (ValueError, TypeError, LookupError):  # a damaged line must not keep the kit itself from going out
        return RowChange(number, TOLD, (), {TOLD: f"a line about {what} that cannot be read any more"}, None)
    return RowChange(number, what, many, new, span)
