"""Turns what SQLite and the system say into a sentence and what to do about it."""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from kitlist.base.errors import KitlistError, StoreError
from kitlist.store import ring

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


def _sentence(said: str, path: Path) -> StoreError:
    for word, sentence, hint in _SENTENCES:
        if word in said.lower():
            return StoreError(sentence.format(path=path), hint=hint or ring.way_back(path))
    return StoreError(f"the store {path} could not do that: {said}", hint="Run again with --traceback to see where.")


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Raise StoreError in place of anything that sqlite3 or SQLAlchemy raises inside."""
    try:
        yield
    except sqlite3.Error as error:
        raise _sentence(str(error), path) from error
    except KitlistError:
        raise
    except Exception as error:
        if isinstance(inner := getattr(error, "orig", None), sqlite3.Error):
            raise _sentence(str(inner), path) from error
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
