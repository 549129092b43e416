"""The numbered migrations of `migrations/`, applied through sqlite-utils, each whole or not at all."""

from __future__ import annotations

import importlib.util
import sqlite3
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from functools import cache
from pathlib import Path
from typing import Any

from kitlist.base import resources
from kitlist.base.errors import StoreError

SET = "kitlist"
Aside = Callable[[], AbstractContextManager[object]]


@cache
def numbered() -> tuple[Path, ...]:
    """The migration files, in order: 0001_kit.py and on."""
    return tuple(sorted(resources.folder("migrations").glob("[0-9][0-9][0-9][0-9]_*.py")))


def applied(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The names of the migrations that a store has had; empty for a file that is no kitlist store yet."""
    tables = connection.execute("SELECT name FROM sqlite_master WHERE name = '_sqlite_migrations'").fetchall()
    if not tables:
        return ()
    rows = connection.execute("SELECT name FROM _sqlite_migrations WHERE migration_set = ? ORDER BY id", (SET,))
    return tuple(name for (name,) in rows)


def pending(connection: sqlite3.Connection, path: Path) -> tuple[str, ...]:
    """The migrations still to come. Raises StoreError for a store that a newer kitlist has written."""
    known = [file.stem for file in numbered()]
    had = applied(connection)
    if beyond := [name for name in had if name not in known]:
        raise StoreError(
            f"the store {path} was written by a newer kitlist (it has {beyond[-1]}; this one knows up to {known[-1]})",
            hint="Bring kitlist up to date, then open it again. Nothing was changed.",
        )
    return tuple(name for name in known if name not in had)


def bring_forward(connection: sqlite3.Connection, path: Path, *, aside: Aside = nullcontext) -> None:
    """Apply what is pending in one transaction: all of it with the record of it, or nothing.

    `aside` is entered once nobody else can write and before anything is changed. Raises StoreError for a store of
    a newer kitlist, and where a migration leaves a reference that leads nowhere.
    """
    from sqlite_utils import Database
    from sqlite_utils.migrations import Migrations

    connection.execute("PRAGMA foreign_keys = OFF")  # a table that is made anew must not take others along
    connection.execute("BEGIN IMMEDIATE")
    try:
        if pending(connection, path):  # asked again: another process may have done it meanwhile
            with aside():
                steps = Migrations(SET)
                for file in numbered():
                    steps(name=file.stem)(_forward(file))
                steps.apply(Database(connection))
                if connection.execute("PRAGMA foreign_key_check").fetchone():
                    raise StoreError(f"the store {path} cannot be brought forward: its references do not hold together")
                connection.execute("COMMIT")
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        connection.execute("PRAGMA foreign_keys = ON")


def _forward(file: Path) -> Callable[[Any], None]:
    spec = importlib.util.spec_from_file_location(f"migration_{file.stem}", file)
    if spec is None or spec.loader is None:
        raise StoreError(f"the migration {file.name} cannot be read")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    forward: Callable[[Any], None] = module.forward
    return forward
