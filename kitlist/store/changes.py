"""Adding, changing and removing. Each call is one transaction: all of it, or nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData
from kitlist.base.fields import Field, fields_of, named_by
from kitlist.kit import KINDS, Reading, entry, label_words, plain
from kitlist.store import clock, rows
from kitlist.store.opening import Store

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.writer import Writer

HISTORY = ("reading", "bead", "acceptance", "mend", "weld")  # kinds that may go on referring to what was removed


def add(store: Store, kind: str, values: Mapping[str, Any], *, by_clock: datetime | None = None) -> Any:
    """Add one thing from raw values; returns it as it was kept. Raises BadData, NotFound, StoreError.

    With `by_clock`, what the machine's clock says, a reading is refused that is later than it, or that was given
    no moment of its own while the store holds a reading from after it (see `kitlist.store.clock`).
    """
    with store.writing() as change:
        return add_within(change, kind, values, by_clock=by_clock)


def add_within(change: Writer, kind: str, values: Mapping[str, Any], *, by_clock: datetime | None = None) -> Any:
    """`add` inside an open change."""
    if by_clock is not None:
        values = {"taken_at": by_clock} | dict(values)
    thing = entry.build(kind, full_names(change.connection, kind, values))
    if by_clock is not None:
        clock.refuse_impossible(change.connection, thing, by_clock=by_clock)
    insert(change, kind, thing)
    return thing


def edit(store: Store, kind: str, name: str, values: Mapping[str, Any]) -> Any:
    """Change some fields of one thing; `none` empties a field that may be empty. Returns it as it is now."""
    with store.writing() as change:
        return edit_within(change, kind, name, values)


def edit_within(change: Writer, kind: str, name: str, values: Mapping[str, Any]) -> Any:
    """`edit` inside an open change."""
    old = find(change.connection, kind, name, unchecked=True)
    thing = entry.build(kind, changed(kind, old, full_names(change.connection, kind, values)))
    if thing.name.casefold() != old.name.casefold():
        _refuse_taken(change.connection, kind, thing.name)
    write(change, kind, old.name, thing)
    return thing


def changed(kind: str, old: Any, values: Mapping[str, Any]) -> dict[str, Any]:
    """The raw values of one thing with some of them changed; `none` empties a field that may be empty."""
    optional = {f.name: f.optional for f in fields_of(KINDS[kind])}
    found = {f.name: plain(getattr(old, f.name)) for f in fields_of(KINDS[kind])}
    for word, value in label_words.spelled_out(named_by(KINDS[kind]), values).items():
        field = _field_name(kind, word)
        emptied = optional.get(field) and str(value).casefold() == "none"
        found.pop(field, None)
        found[word] = None if emptied else value  # under the word it was given by, as messages name it
    return found


def remove(store: Store, kind: str, name: str) -> Any:
    """Take one thing out of the kit; its history stays, and `restore` brings it back."""
    with store.writing() as change:
        thing = find(change.connection, kind, name, unchecked=True)
        if users := users_of(change.connection, kind, thing.name):
            raise BadData(
                f"{kind} {thing.name!r} is still used by {', '.join(users)}", hint="Change those first, then remove it."
            )
        mark_removed(change, kind, thing.name, now())
    return thing


def restore(store: Store, kind: str, name: str) -> str:
    """Bring back a thing that was removed; returns its name. Raises BadData where what it refers to is removed too."""
    with store.writing() as change:
        gone = rows.names_of(change.connection, kind, where="removed_at IS NOT NULL")
        full = names.resolve(name, gone, what=f"removed {kind}")
        thing = rows.things(change.connection, kind, where="name = ?", values=(full,))[0]
        if kind not in HISTORY and (gone_too := missing(change.connection, kind, thing)):
            target, other = gone_too
            raise BadData(
                f"{kind} {full!r} refers to {target} {other!r}, which was removed too",
                hint=f"First: kitlist {target} restore {names.quoted(other)}",
            )
        mark_removed(change, kind, full, None)
    return full


def missing(connection: sqlite3.Connection, kind: str, thing: Any) -> tuple[str, str] | None:
    """The first thing that one thing refers to and that is not in the kit now, as kind and name."""
    for field in fields_of(KINDS[kind]):
        if target := field.about.refers:
            value = getattr(thing, field.name)
            living = set(rows.names_of(connection, target))
            for other in value if isinstance(value, tuple) else (value,):
                if other is not None and other not in living:
                    return target, other
    return None


def find(connection: sqlite3.Connection, kind: str, name: str, *, unchecked: bool = False) -> Any:
    """One living thing by any unambiguous start of its name."""
    full = names.resolve(name, rows.names_of(connection, kind), what=kind)
    living = "name = ? AND removed_at IS NULL"
    return rows.things(connection, kind, where=living, values=(full,), unchecked=unchecked)[0]


def insert(change: Writer, kind: str, thing: Any, *, removed_at: str | None = None, free: bool = False) -> None:
    """Insert one checked thing inside an open write, as living or as removed at a moment.

    `free` says that its name is known to be free: looking through all names for each would be slow for thousands.
    """
    if free:
        pass
    elif kind == "reading":
        _refuse_second_reading(change.connection, thing)
    else:
        _refuse_taken(change.connection, kind, thing.name)
    change.insert_values(kind, _columns(kind, thing) | {"removed_at": removed_at})  # a kind's table has its name
    _insert_lists(change, kind, thing)


def _columns(kind: str, thing: Any) -> dict[str, Any]:
    fields = fields_of(KINDS[kind])
    return {f.name: _plain_value(getattr(thing, f.name)) for f in fields if f.type is not tuple}


def _plain_value(value: Any) -> Any:
    return value.strip() if type(value) is str else plain(value)


def now() -> str:
    """The moment as the mark of a removal has it."""
    return datetime.now(UTC).strftime("%Y-%m-%d %H:%M:%S")


def mark_removed(change: Writer, kind: str, name: str, removed_at: str | None) -> None:
    """Mark a named thing as removed at a moment, or as living again."""
    change.update(kind, {"name": name}, removed_at=removed_at)


def write(change: Writer, kind: str, old_name: str, thing: Any) -> None:
    """Put a checked thing in place of an old one inside an open write."""
    change.update(kind, {"name": old_name}, **_columns(kind, thing))
    before = rows.lists_of(change.connection, kind).get(thing.name, {})
    if any(before.get(field.name, ()) != getattr(thing, field.name) for field in _lists(kind)):
        for field in _lists(kind):
            change.delete(rows.list_table(kind, field), {kind: thing.name})
        _insert_lists(change, kind, thing)


def _insert_lists(change: Writer, kind: str, thing: Any) -> None:
    for field in _lists(kind):
        for position, member in enumerate(getattr(thing, field.name)):
            values = {kind: thing.name, "position": position, field.about.refers: member}
            change.insert_values(rows.list_table(kind, field), values)


def _lists(kind: str) -> tuple[Field, ...]:
    """The fields of a kind that are lists, each in a table of its own."""
    return tuple(field for field in fields_of(KINDS[kind]) if field.type is tuple)


def _refuse_taken(connection: sqlite3.Connection, kind: str, name: str) -> None:
    """Refuse a name that a thing has already, whatever the case, living or removed."""
    query = f"SELECT name, removed_at FROM {kind}"
    for there, removed_at in connection.execute(query):
        if there.casefold() != name.casefold():
            continue
        if removed_at is None:
            raise BadData(f"there is already a {kind} called {there!r}", hint="Choose another name, or edit that one.")
        raise BadData(
            f"a {kind} called {there!r} was removed and keeps its name",
            hint=f"`kitlist {kind} restore {names.quoted(there)}` brings it back; or choose another name.",
        )


def _refuse_second_reading(connection: sqlite3.Connection, reading: Reading) -> None:
    at = (reading.battery, rows.moment(reading.taken_at))
    for _, removed_at in rows.with_removal(connection, "reading", "battery = ? AND taken_at = ?", at, "id"):
        moment = reading.taken_at.isoformat()
        battery = names.quoted(reading.battery)
        again = f"That one was removed: kitlist reading restore {battery} {moment}. Or g"
        raise BadData(
            f"{reading.battery} already has a reading at {reading.taken_at:%Y-%m-%d %H:%M:%S}",
            hint=f"{again if removed_at else 'G'}ive another time with --at.",
        )


def full_names(connection: sqlite3.Connection, kind: str, values: Mapping[str, Any]) -> dict[str, Any]:
    """Values with every reference spelled as the kit spells it; any unambiguous start will do."""
    given = dict(values)
    refers = {f.name: (f.about.refers, f.type is tuple) for f in fields_of(KINDS[kind]) if f.about.refers}
    for word, value in values.items():
        target, several = refers.get(_field_name(kind, word), ("", False))
        if not target or value is None or str(value).casefold() == "none":
            continue
        known = rows.names_of(connection, target)
        if several:
            parts = value.split(",") if isinstance(value, str) else value
            given[word] = [names.resolve(str(part), known, what=target) for part in parts if str(part).strip()]
        else:
            given[word] = names.resolve(str(value), known, what=target)
    return given


def _field_name(kind: str, word: str) -> str:
    word = word.replace("-", "_").casefold()
    fields = named_by(KINDS[kind]).get(word, ())
    return fields[0] if len(fields) == 1 else word


def users_of(connection: sqlite3.Connection, kind: str, name: str) -> list[str]:
    """The living things that refer to one thing, as `kind name`; history does not count."""
    found = []
    for other, cls in KINDS.items():
        for field in fields_of(cls):
            if other in HISTORY or field.about.refers != kind:
                continue
            query = f"SELECT name FROM {other} WHERE removed_at IS NULL AND {field.name} = ? ORDER BY name"
            if field.type is tuple:
                listed_in = f"SELECT {other} FROM {other}_{kind} WHERE {kind} = ?"
                query = f"SELECT name FROM {other} WHERE removed_at IS NULL AND name IN ({listed_in}) ORDER BY name"
            found += [f"{other} {user}" for (user,) in connection.execute(query, (name,))]
    return found


def listed(store: Store, kind: str) -> tuple[Any, ...]:
    """Every living thing of one kind, by name."""
    with store.viewing() as connection:
        return rows.things(connection, kind)


def one(store: Store, kind: str, name: str) -> Any:
    """One thing by its full name."""
    with store.viewing() as connection:
        return rows.things(connection, kind, where="name = ? AND removed_at IS NULL", values=(name,))[0]


def removed(store: Store, kind: str) -> tuple[tuple[str, str], ...]:
    """The names of the things of one kind that were removed, each with the moment of it."""
    with store.viewing() as connection:
        gone = rows.with_removal(connection, kind, "removed_at IS NOT NULL")
        return tuple((thing.name, str(removed_at)) for thing, removed_at in gone)


def shown(store: Store, kind: str, name: str) -> dict[str, Any]:
    """One thing as plain values by field. Raises NotFound."""
    with store.viewing() as connection:
        thing = find(connection, kind, name)
    return {f.name: plain(getattr(thing, f.name)) for f in dataclasses.fields(thing)}
