"""Turns what SQLite and the system say into a sentence and what to do about it."""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from kitlist.base.errors import StoreError
from kitlist.store import ring
from kitlist.store.measured import WrongSum

_PASSING = {
    sqlite3.SQLITE_PERM,
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
    sqlite3.SQLITE_NOMEM,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_INTERRUPT,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_CANTOPEN,
}
"""What SQLite says of the disk, of other processes and of permissions, not of what is in the file."""

_DAMAGE = {sqlite3.SQLITE_ERROR, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_SCHEMA}
"""What it says where a statement of ours does not fit the file: a table is gone, a reference leads nowhere."""

_NOTHING = "nothing was changed"
_SENTENCES = (
    ("locked", "the store {path} is in use by another process", "Try again when the other command has ended."),
    (
        "readonly",
        f"the store {{path}} can only be read; {_NOTHING}",
        "Copy it to a folder you may write to, or mend the permissions of the file and its folder.",
    ),
    ("full", f"the disk that holds the store {{path}} is full; {_NOTHING}", "Free some space and try again."),
    ("not a database", "{path} is not a kitlist store", "Name another file with --store."),
    ("malformed", "the store {path} is damaged", ""),
    ("could not decode to utf-8", "the store {path} is damaged: it holds text that is none", ""),
    ("file is encrypted", "{path} is not a kitlist store", "Name another file with --store."),
    (
        "unable to open",
        f"the store {{path}} or its folder cannot be opened for writing; {_NOTHING}",
        "Check that the folder is there, that the disk or card is in, and that you may write to it.",
    ),
    (
        "disk i/o",
        f"the disk failed while using the store {{path}}, or lets no file grow further; {_NOTHING}",
        "Check the disk, the card and their space, then try again.",
    ),
)


def damaged(path: Path, why: str, *, way_out: str = "") -> StoreError:
    """The sentence for a store that is not as it was written; `way_out` takes out the one thing that is wrong."""
    out = f" Or take out what is wrong, and enter it anew: {way_out}" if way_out else ""
    return StoreError(f"the store {path} is damaged: {why}", hint=ring.way_back(path) + out)


def _sentence(error: sqlite3.Error, path: Path) -> StoreError:
    said = str(error)
    for word, sentence, hint in _SENTENCES:
        if word in said.lower():
            return StoreError(sentence.format(path=path), hint=hint or ring.way_back(path))
    if getattr(error, "sqlite_errorcode", 0) & 0xFF in _DAMAGE:
        return damaged(path, said)
    return StoreError(f"the store {path} could not do that: {said}", hint="Run again with --traceback to see where.")


def damage(connection: sqlite3.Connection) -> str:
    """What is wrong with a database in SQLite's own eyes; "" where nothing is."""
    wrong = [text for (text,) in connection.execute("PRAGMA integrity_check(3)") if text != "ok"]
    if wrong:
        return str(wrong[0].splitlines()[-1])
    dangling = connection.execute("PRAGMA foreign_key_check").fetchone()
    return f"a {dangling[0]} refers to a {dangling[2]} that is not there" if dangling else ""


def passing(error: Exception) -> bool:
    """Whether an error says nothing of the store: it is locked, the disk is full or away, nobody may write."""
    if isinstance(error, StoreError):
        return "damaged" not in error.message and "does not read back" not in error.message
    return isinstance(error, sqlite3.Error) and getattr(error, "sqlite_errorcode", 0) & 0xFF in _PASSING


def _damage_behind(path: Path) -> str:
    """What is wrong with the store that made a read fail in a way of its own; "" where it is sound."""
    try:
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as connection:
            return damage(connection)
    except Exception as second:
        return "" if passing(second) else str(second)


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Raise StoreError in place of what sqlite3 raises inside, and of what a damaged store makes of a read."""
    try:
        yield
    except sqlite3.Error as error:
        raise _sentence(error, path) from error
    except WrongSum as error:
        raise damaged(path, str(error), way_out=error.way_out) from error
    except (UnicodeDecodeError, ValueError, LookupError, TypeError, ArithmeticError) as error:
        why = _damage_behind(path)
        if not why and isinstance(error, UnicodeDecodeError):  # the readers of files say it themselves
            why = "it holds text that is none"
        if why:
            raise damaged(path, why) from error
        raise


@contextmanager
def written(path: Path) -> Iterator[None]:
    """Raise StoreError in place of what the system says when a file cannot be written."""
    try:
        yield
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
            raise StoreError(f"the disk has no room for {path}; it was not written", hint="Free some space.") from error
        folder = path.parent
        if not folder.is_dir():
            hint = "Make it, put the disk or card in, or name another."
            raise StoreError(f"there is no folder {folder}", hint=hint) from error
        why = os.strerror(error.errno) if error.errno else str(error)
        raise StoreError(f"cannot write {path}: {why}", hint="Name another file, or mend its permissions.") from error


def absent(path: Path) -> StoreError:
    """The sentence for a store that is not there."""
    if path.is_dir():
        return StoreError(f"{path} is a folder, not a store", hint=f"Name a file in it: --store {path / 'kit.db'}")
    if not path.parent.is_dir():
        return StoreError(
            f"there is no store at {path}: its folder is not there",
            hint="Put the disk or card in that holds it, or `kitlist start` makes folder and store.",
        )
    start = "`kitlist start` makes one; `kitlist start --starter` with a kit."
    return StoreError(f"there is no store at {path}", hint=ring.way_back(path) if _copies(path) else start)


def _copies(path: Path) -> bool:
    try:
        return bool(ring.automatic(path))
    except OSError:
        return False
