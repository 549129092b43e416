"""Export: everything that is recorded, removed things and their readings too, in one consistent view."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, TextIO

from kitlist.base.errors import StoreError, UsageError
from kitlist.base.leftovers import clear, part_of
from kitlist.kit import KINDS, PLURALS
from kitlist.store import csvfile, journalled, jsonfile, rows, settings
from kitlist.store.opening import Store
from kitlist.store.trouble import written


def export(store: Store, path: Path, *, kind: str | None = None, replace: bool = False) -> dict[str, int]:
    """Write the kit to a .json file, one kind to a .csv file, or every kind to a folder; returns how many of each.

    Raises UsageError for another ending, StoreError where a file of that name is there and `replace` is not said.
    """
    if kind is not None and path.suffix.lower() != ".csv":
        raise UsageError("--kind is for one .csv file", hint="A .json file or a folder takes every kind.")
    if path.suffix.lower() == ".json":
        targets = {"": path}
    elif path.suffix.lower() == ".csv":
        one = csvfile.kind_of(path, kind)
        targets = {one: path}
    elif path.is_dir() or not path.suffix:
        targets = {one: path / f"{one}.csv" for one in KINDS}
        with written(path):
            path.mkdir(exist_ok=True)
    else:
        hint = "End it in .json for the whole kit or .csv for one kind, or name a folder for every kind as CSV."
        raise UsageError(f"what to write to {path.name} is not known", hint=hint)
    if there := next((p for p in targets.values() if p.exists() and not (replace and p.is_file())), None):
        raise StoreError(f"there is already a file at {there}", hint="Name another, or add --replace.")
    counts: dict[str, int] = {}
    with store.viewing() as connection:
        for one, target in targets.items():
            with _whole(target, "" if target.suffix.lower() == ".json" else "\ufeff") as file:
                if one:
                    counts[one] = csvfile.write(one, everything(connection, one), file)
                else:
                    kinds = ((k, everything(connection, k)) for k in KINDS)
                    kept = settings.within(connection)
                    counts = jsonfile.write(
                        kinds,
                        file,
                        journal=journalled.everything(connection),
                        settings=kept.as_words if kept != settings.Settings() else None,
                    )
    return counts


def everything(connection: sqlite3.Connection, kind: str) -> Iterator[tuple[Any, str | None]]:
    """Every thing of one kind, the removed ones too, in an order that does not change."""
    return rows.with_removal(connection, kind, order="battery, taken_at" if kind == "reading" else "name")


def counted(counts: dict[str, int]) -> str:
    """How many of what, in words."""
    return ", ".join(f"{n} {kind if n == 1 else PLURALS[kind]}" for kind, n in counts.items() if n) or "nothing"


@contextmanager
def _whole(path: Path, mark: str) -> Iterator[TextIO]:
    """A file that appears under its name when it is whole; `mark` tells spreadsheets that it is UTF-8."""
    part = part_of(path)
    clear(path.parent)
    try:
        with written(path):
            with part.open("w", encoding="utf-8", newline="") as file:
                file.write(mark)
                yield file
                file.flush()
                os.fsync(file.fileno())
            os.replace(part, path)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
