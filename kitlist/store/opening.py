"""Where the store is, how it is opened, and the two ways into it: reading and writing."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from kitlist.base.errors import StoreError
from kitlist.store import ring, schema
from kitlist.store.trouble import absent, explained

if TYPE_CHECKING:
    from kitlist.store.noting import Signature
    from kitlist.store.writer import Writer

WAIT_S = 30.0  # how long a command waits for another one that is writing
SYNCHRONOUS = "EXTRA"  # what is acknowledged is on the disk, the name of the journal file's going too
NO_HOME = "Name a file with --store FILE or KITLIST_STORE=FILE."


def default_path() -> Path:
    """`KITLIST_STORE`, else a file in the platform's data folder. Raises StoreError where no home folder is known."""
    if named := os.environ.get("KITLIST_STORE"):
        try:
            return Path(named).expanduser()
        except RuntimeError:
            raise StoreError(f"KITLIST_STORE names a home that is not known: {named}", hint=NO_HOME) from None
    from platformdirs import user_data_path

    try:
        folder = user_data_path("kitlist", appauthor=False)
    except RuntimeError:
        folder = Path()
    if not folder.is_absolute():  # some systems give a path that still begins with ~
        raise StoreError("no home folder is known, so there is no place for the store", hint=NO_HOME)
    return folder / "kit.db"


def connect(path: Path) -> sqlite3.Connection:
    """A connection with foreign keys on, writes on disk before they are acknowledged, transactions ours to open."""
    connection = sqlite3.connect(f"{path.resolve().as_uri()}?mode=rw", uri=True, timeout=WAIT_S, isolation_level=None)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute(f"PRAGMA synchronous = {SYNCHRONOUS}")
    return connection


def start(path: Path, *, signature: Signature | None = None) -> Store:
    """Make a new, empty store. Raises StoreError where a file already is, or the folder cannot be written."""
    made = empty_file(path)
    try:
        with explained(path), closing(connect(path)) as connection:
            schema.bring_forward(connection, path)
    except StoreError:
        if made and path.stat().st_size == 0:
            path.unlink()
        raise
    return Store(path, signature=signature)


def empty_file(path: Path) -> bool:
    """Make an empty file; False where there was one, left by a start that was interrupted."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch(exist_ok=False)
    except FileExistsError:
        if path.is_file() and path.stat().st_size == 0:
            return False
        what = "folder" if path.is_dir() else "file"
        raise StoreError(f"there is already a {what} at {path}", hint="Use it as it is, or name another.") from None
    except OSError as error:
        raise StoreError(
            f"cannot make a store at {path}: {error.strerror}", hint="Name another with --store."
        ) from None
    return True


class Store:
    """An open store. Opening brings an older file forward, after putting a copy of it aside."""

    def __init__(self, path: Path, *, rulebook: Path | None = None, signature: Signature | None = None) -> None:
        self.path = path
        self.signature = signature  # the command that opened it, for the journal
        self.rulebook = rulebook  # the owner's thresholds, where the command names a file
        if not path.is_file():
            raise absent(path)
        if path.stat().st_size == 0:
            again = f"`kitlist start` makes a new one of it. {ring.way_back(path)}"
            raise StoreError(f"the file {path} is empty: it holds no store", hint=again)
        with explained(path), closing(connect(path)) as connection:
            if not schema.applied(connection):
                raise StoreError(f"{path} is a database, but no kitlist store", hint="Name another with --store.")
            if waiting := schema.pending(connection, path):
                from kitlist.store.copies import aside

                schema.bring_forward(connection, path, aside=lambda: aside(path, waiting[0]))

    @contextmanager
    def viewing(self) -> Iterator[sqlite3.Connection]:
        """One consistent view of the store as plain rows; nothing can be written through it."""
        with explained(self.path), closing(connect(self.path)) as connection:
            connection.execute("PRAGMA query_only = ON")
            connection.execute("BEGIN")
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Writer]:
        """One change of the store: all of it is on disk when the block ends, or none of it."""
        from kitlist.store.writer import Writer

        with explained(self.path), closing(connect(self.path)) as connection:
            connection.execute("BEGIN IMMEDIATE")
            change = Writer(connection, self._signed(connection))
            yield change
            if connection.in_transaction:  # it was not given up
                change.noting.close()
                connection.execute("COMMIT")

    def _signed(self, connection: sqlite3.Connection) -> Signature | None:
        """The command's signature; who gave it stands in the settings where nothing else says it."""
        from kitlist.store.noting import Signature
        from kitlist.store.settings import within

        if self.signature is None or self.signature.who:
            return self.signature
        return Signature(self.signature.words, within(connection).by)
