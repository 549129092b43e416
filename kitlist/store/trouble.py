"""Turns what SQLite says into a sentence and what to do about it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from kitlist.errors import StoreError

_SENTENCES = (
    ("locked", "the store {path} is in use by another process", "Try again when the other command has ended."),
    ("readonly", "the store {path} can only be read", "Copy it to a folder you may write to, or mend its permissions."),
    ("full", "the disk that holds the store {path} is full; nothing was changed", "Free some space and try again."),
    ("not a database", "{path} is not a kitlist store", "Name another file with --store."),
    ("malformed", "the store {path} is damaged", "Put a copy of it back, or start a new one with --store."),
    ("unable to open", "the store {path} cannot be opened", "Check that the folder is there and may be written to."),
    ("disk i/o", "the disk failed while using the store {path}", "Check the disk, then try again."),
)


def _sentence(said: str, path: Path) -> StoreError:
    for word, sentence, hint in _SENTENCES:
        if word in said.lower():
            return StoreError(sentence.format(path=path), hint=hint)
    return StoreError(f"the store {path} could not do that: {said}", hint="Run again with --traceback to see where.")


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Raise StoreError in place of anything that sqlite3 or SQLAlchemy raises inside."""
    try:
        yield
    except sqlite3.Error as error:
        raise _sentence(str(error), path) from error
    except Exception as error:
        if isinstance(inner := getattr(error, "orig", None), sqlite3.Error):
            raise _sentence(str(inner), path) from error
        raise
