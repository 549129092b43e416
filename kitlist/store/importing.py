"""Import: every entry checked, every reference followed, every problem reported; then all of it, or nothing."""

from __future__ import annotations

import gc
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from kitlist.base.errors import BadFile, UsageError
from kitlist.kit import KINDS, PLURALS
from kitlist.store import copies, csvfile, jsonfile, tomlfile
from kitlist.store.batch import Batch
from kitlist.store.entries import Entry, WrongEntry, unreadable
from kitlist.store.opening import Store

Files = list[tuple[str, Iterator[Entry | WrongEntry]]]


@dataclass(frozen=True, slots=True)
class Imported:
    """How much an import brought in, and how much was there already, by kind; and the newest reading of it."""

    added: Counter[str]
    unchanged: Counter[str]
    newest_reading: datetime | None = None

    @property
    def words(self) -> str:
        """A sentence about it."""
        added = ", ".join(f"{n} {kind if n == 1 else PLURALS[kind]}" for kind, n in self.added.items() if n)
        same = sum(self.unchanged.values())
        return f"added {added or 'nothing'}" + (f"; {same} there already, unchanged" if same else "")


def import_file(store: Store, path: Path, *, kind: str | None = None, dry_run: bool = False) -> Imported:
    """Import a .toml, .json or .csv file, or a folder of .csv files, in one transaction.

    Raises BadFile with file, line, value and what was allowed for every bad line; then nothing was imported.
    Before anything that is kept changes, a copy of the store is put aside.
    """
    return _import(store, path, files_of(path, kind), dry_run=dry_run)


def import_toml(store: Store, path: Path, *, dry_run: bool = False) -> Imported:
    """Import a TOML file, whatever its ending."""
    return _import(store, path, [(path.name, tomlfile.read(path))], dry_run=dry_run)


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without the search for cycles: an import makes none, and looking for them grows faster than what it brings."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _import(store: Store, path: Path, files: Files, *, dry_run: bool) -> Imported:
    with _uncollected(), store.writing() as change, ExitStack() as stack:
        batch = Batch(change)
        saved = None if dry_run or batch.is_empty else stack.enter_context(copies.aside(store.path, "import"))
        for name, items in files:
            batch.take_all(name, items)
        if wrong := batch.wrong_in_order():
            counted = f"{len(wrong)} line{'s' if len(wrong) > 1 else ''}"
            raise BadFile(f"{path.name}: {counted} cannot be taken; nothing was imported", lines=wrong)
        done = Imported(batch.added, batch.unchanged, batch.newest_reading)
        if dry_run:
            change.roll_back()
        elif saved and not done.added:
            saved.unlink()
    return done


def files_of(path: Path, kind: str | None, *, empties: bool = False) -> Files:
    """What a file or a folder holds, entry by entry; with `empties`, empty cells of a .csv are there as None.

    Raises UsageError for a file of another ending.
    """
    ending = path.suffix.lower()
    if path.exists() and not (path.is_file() or path.is_dir()):
        raise UsageError(f"{path.name} is neither a file nor a folder", hint="Name a .toml, .json or .csv file.")
    if kind is not None and ending != ".csv":
        raise UsageError("--kind is for one .csv file", hint="A .toml or .json file and a folder say it themselves.")
    if ending == ".toml":
        return [(path.name, tomlfile.read(path))]
    if ending == ".json":
        return [(path.name, jsonfile.read(path))]
    if ending == ".csv":
        return [(path.name, csvfile.read(path, csvfile.kind_of(path, kind), empties=empties))]
    if path.is_dir():
        return _folder(path, empties=empties)
    if not path.exists():
        raise unreadable(path, FileNotFoundError(2, "No such file or directory"))
    hint = "End it in .toml, .json or .csv, or name a folder of .csv files."
    raise UsageError(f"what kind of file {path.name} is cannot be told", hint=hint)


def _folder(path: Path, *, empties: bool) -> Files:
    """The CSV files of a folder, each after those that it refers to."""
    found = sorted(file for file in path.iterdir() if file.suffix.lower() == ".csv" and not file.name.startswith("."))
    if not found:
        raise BadFile(f"there is no .csv file in {path}", lines=(), hint="kitlist export FOLDER writes such a folder.")
    order = list(KINDS)
    by_kind = [(order.index(csvfile.kind_of(file)), file) for file in found]
    return [(file.name, csvfile.read(file, order[at], empties=empties)) for at, file in sorted(by_kind)]
