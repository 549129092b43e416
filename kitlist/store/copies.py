"""Copies of the store: backup, recover, and a ring of automatic ones in a folder beside it.

Every copy is made by SQLite's own backup in one consistent view, read back and counted before it gets its name.
Automatic copies are numbered, not dated: a clock that was set back cannot put them in the wrong order.
"""

from __future__ import annotations

import errno
import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from kitlist.base.errors import StoreError
from kitlist.base.leftovers import clear, part_of
from kitlist.store import ring, schema
from kitlist.store.trouble import damage, explained, passing, written

WAIT_S = 30.0  # how long a command waits for another one that is writing
BESIDE = ("-journal", "-wal", "-shm")  # what SQLite keeps beside a store
REPLACED = "replaced"  # what `recover` took the place of; kept until somebody deletes it


@contextmanager
def aside(store: Path, what: str) -> Iterator[Path]:
    """Put a copy aside before `what` is done; it goes again where that fails, for then nothing was changed."""
    with _reserved(store, f"before-{what}") as target:
        with explained(store), closing(connect_to_read(store)) as source:
            copy(source, target)
        yield target
    for old in ring.automatic(store)[ring.KEPT :]:
        with suppress(OSError):
            old.unlink()


def connect_to_read(path: Path) -> sqlite3.Connection:
    """A connection that changes nothing, not even by accident; it may still roll an interrupted write back."""
    connection = sqlite3.connect(f"{path.resolve().as_uri()}?mode=rw", uri=True, timeout=WAIT_S, isolation_level=None)
    connection.execute("PRAGMA query_only = ON")
    return connection


def backup(store: Path, target: Path | None = None, *, replace: bool = False) -> tuple[Path, dict[str, int]]:
    """Copy a store whole, history and all; returns where and how many rows of each table.

    Without a target it goes to the folder of copies under the next number. Raises StoreError where a file of
    that name is there (unless `replace`), the store does not check out, or the copy does not read back the same.
    """
    if target is None:
        with _reserved(store, "backup") as numbered:
            return backup(store, numbered, replace=True)
    if target.exists() and target.samefile(store):
        raise StoreError("a store cannot be its own backup", hint="Name another file.")
    if target.exists() and not target.is_file():
        raise StoreError(f"{target} is no file that a backup could take the place of", hint="Name another.")
    if target.exists() and not replace:
        raise StoreError(f"there is already a file at {target}", hint="Name another, or add --replace.")
    with explained(store), closing(connect_to_read(store)) as source:
        sound(source, store)
        return target, copy(source, target)


def recover(store: Path, source: Path) -> tuple[Path | None, dict[str, int]]:
    """Put a backup in the place of the store; returns where the replaced store is kept, and the rows by table.

    The backup is checked, copied and brought forward first. A running command of another process sees the
    store before or the store after, and nothing that it wrote before is missing from the replaced copy.
    """
    store = store.resolve()  # behind a link, the real one is put right
    if not source.is_file():
        raise StoreError(f"there is no backup at {source}", hint=ring.way_back(store))
    if store.exists() and source.samefile(store):
        raise StoreError("that is the store itself, not a backup of it", hint=ring.way_back(store))
    clear(store.parent)
    fresh = part_of(store, "recovering")
    try:
        _checked_copy(source, fresh)
        with closing(sqlite3.connect(fresh, isolation_level=None)) as new:
            counts = row_counts(new)
            kept, done = _replace(store, new) if store.exists() else (None, False)
        if not done:
            with written(store):
                for ending in BESIDE:  # SQLite would roll the new store back by the journal of the damaged one
                    store.with_name(store.name + ending).unlink(missing_ok=True)
                os.replace(fresh, store)
                _on_disk(store.parent)
    finally:
        for ending in ("", "-journal"):
            with suppress(OSError):
                fresh.with_name(fresh.name + ending).unlink(missing_ok=True)
    with explained(store), closing(connect_to_read(store)) as now:
        sound(now, store)
        if (found := row_counts(now)) != counts:
            raise StoreError(f"the recovered store {store} does not read back the same: {found} for {counts}")
    return kept, counts


def _checked_copy(source: Path, fresh: Path) -> None:
    """A copy of a backup, checked and brought forward; the backup itself is left as it is."""
    with explained(source), closing(connect_to_read(source)) as old:
        if not schema.applied(old):
            raise StoreError(f"{source} is a database, but no kitlist store", hint="Name another file.")
        schema.pending(old, source)
        sound(old, source)
        copy(old, fresh)
    with explained(fresh), closing(sqlite3.connect(fresh, isolation_level=None)) as new:
        schema.bring_forward(new, fresh)


def _replace(store: Path, new: sqlite3.Connection) -> tuple[Path, bool]:
    """Keep the present store aside and write the new one over it, both under one lock.

    A damaged one is kept as it is, and False says that the new one is still to take its place.
    """
    with _reserved(store, REPLACED) as kept:
        with explained(store), closing(sqlite3.connect(store, timeout=WAIT_S, isolation_level=None)) as present:
            try:
                present.execute("PRAGMA locking_mode = EXCLUSIVE")  # nobody writes between the copy and the replacing
                present.execute("BEGIN EXCLUSIVE")
                present.execute("COMMIT")
                damaged = bool(damage(present))
                if not damaged:
                    copy(present, kept)
            except Exception as error:  # whatever a damaged file makes of being looked at
                if passing(error):
                    raise
                damaged = True
            if not damaged:
                new.backup(present)
        if damaged:
            _keep(store, kept)
    return kept, not damaged


def _keep(store: Path, kept: Path) -> None:
    """Copy a damaged store and what SQLite keeps beside it aside as they are: there is one in its place throughout."""
    with written(kept):
        for ending in ("", *BESIDE):
            part = store.with_name(store.name + ending)
            if part.exists():
                copied = kept.with_name(kept.name + ending)
                shutil.copyfile(part, copied)
                _on_disk(copied)
        _on_disk(kept.parent)


def copy(source: sqlite3.Connection, target: Path) -> dict[str, int]:
    """Copy a database with SQLite's backup; it gets its name when it has been read back. Returns rows by table."""
    part = part_of(target)
    clear(target.parent)
    try:
        with written(target):
            if not target.parent.is_dir():  # a stick that is not in: its folder is not to be made in its place
                raise FileNotFoundError(errno.ENOENT, "no folder")
            part.unlink(missing_ok=True)
        source.execute("SAVEPOINT copying")  # one view for the copy and for the count
        try:
            counts = row_counts(source)
            with explained(target), closing(sqlite3.connect(part, isolation_level=None)) as made:
                source.backup(made)
            with explained(target), closing(sqlite3.connect(part, isolation_level=None)) as made:
                verdict = [text for (text,) in made.execute("PRAGMA quick_check")]
                found = row_counts(made)
        finally:
            source.execute("RELEASE copying")
        if verdict != ["ok"] or found != counts:
            raise StoreError(f"the copy {target} does not read back the same: {verdict[0]}, {found} for {counts}")
        with written(target):
            os.replace(part, target)
            _on_disk(target.parent)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return counts


def sound(connection: sqlite3.Connection, path: Path) -> None:
    """Raise StoreError for a database that is damaged or whose references lead nowhere."""
    with explained(path):
        found = damage(connection)
    if found:
        raise StoreError(f"the store {path} is damaged: {found}", hint=ring.way_back(path))


def row_counts(connection: sqlite3.Connection) -> dict[str, int]:
    """Rows of every table, by name."""
    tables = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"
    names = [name.replace('"', '""') for (name,) in connection.execute(tables)]
    return {name: int(connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]) for name in names}


@contextmanager
def _reserved(store: Path, what: str) -> Iterator[Path]:
    """A name for a copy, taken while it is made and free again where that fails."""
    with written(ring.folder_of(store)):
        clear(store.resolve().parent)
        clear(ring.folder_of(store))
        target = ring.reserved(store, what)
    try:
        yield target
    except BaseException:
        with suppress(OSError):
            target.unlink()
        raise


def _on_disk(folder: Path) -> None:
    """Have the new name itself on disk, where the system can do that for a folder."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
