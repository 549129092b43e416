"""Where the store is, how it is opened, and the two ways into it: reading and writing."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kitlist.errors import StoreError
from kitlist.store import schema
from kitlist.store.trouble import explained

if TYPE_CHECKING:
    from sqlalchemy import Engine
    from sqlmodel import Session

WAIT_S = 30.0  # how long a command waits for another one that is writing


def default_path() -> Path:
    """`KITLIST_STORE`, else a file in the platform's data folder."""
    if named := os.environ.get("KITLIST_STORE"):
        return Path(named).expanduser()
    from platformdirs import user_data_path

    return user_data_path("kitlist", appauthor=False) / "kit.db"


def connect(path: Path) -> sqlite3.Connection:
    """A connection with foreign keys on, writes on disk before they are acknowledged, transactions ours to open."""
    connection = sqlite3.connect(f"{path.resolve().as_uri()}?mode=rw", uri=True, timeout=WAIT_S, isolation_level=None)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = EXTRA")
    return connection


def start(path: Path) -> Store:
    """Make a new, empty store. Raises StoreError where a file already is, or the folder cannot be written."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch(exist_ok=False)
    except FileExistsError:
        if path.is_file() and path.stat().st_size > 0:
            raise StoreError(f"there is already a file at {path}", hint="Use it as it is, or name another.") from None
    except OSError as error:
        raise StoreError(
            f"cannot make a store at {path}: {error.strerror}", hint="Name another with --store."
        ) from None
    return Store(path)


class Store:
    """An open store. Opening brings an older file forward, after putting a copy of it aside."""

    def __init__(self, path: Path) -> None:
        self.path = path
        if not path.is_file():
            raise StoreError(
                f"there is no store at {path}", hint="`kitlist start` makes one; `kitlist start --starter` with a kit."
            )
        with explained(path), closing(connect(path)) as connection:
            if waiting := schema.pending(connection, path):
                if schema.applied(connection):
                    copy_aside(connection, path.with_name(f"{path.name}.before-{waiting[0]}"))
                schema.bring_forward(connection)

    @contextmanager
    def viewing(self) -> Iterator[sqlite3.Connection]:
        """One consistent view of the store as plain rows; nothing can be written through it."""
        with explained(self.path), closing(connect(self.path)) as connection:
            connection.execute("PRAGMA query_only = ON")
            connection.execute("BEGIN")
            yield connection

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """One consistent view of the store."""
        with self._session("BEGIN") as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """One change of the store: all of it is on disk when the block ends, or none of it."""
        with self._session("BEGIN IMMEDIATE") as session:
            yield session
            session.commit()

    @contextmanager
    def _session(self, begin: str) -> Iterator[Session]:
        from sqlmodel import Session

        engine = self._engine.execution_options(begin=begin)
        with explained(self.path), Session(engine, expire_on_commit=False, autoflush=False) as session:
            yield session

    @cached_property
    def _engine(self) -> Engine:
        from sqlalchemy import NullPool, create_engine, event

        engine = create_engine("sqlite://", creator=lambda: connect(self.path), poolclass=NullPool)

        def begin(connection: Any) -> None:
            connection.exec_driver_sql(connection.get_execution_options()["begin"])

        event.listen(engine, "begin", begin)
        return engine


def copy_aside(connection: sqlite3.Connection, target: Path) -> None:
    """Copy a store with SQLite's own backup, and check the copy."""
    with closing(sqlite3.connect(target)) as copy:
        connection.backup(copy)
        (verdict,) = copy.execute("PRAGMA quick_check").fetchone()
    if verdict != "ok":
        raise StoreError(f"the copy {target} of the store does not read back well: {verdict}")
