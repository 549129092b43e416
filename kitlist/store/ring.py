"""Where the copies of a store are: a folder beside it, numbered, not dated, for a clock can be set back."""

from __future__ import annotations

import os
from pathlib import Path

from kitlist.base.leftovers import PLACE_BYTES
from kitlist.base.names import quoted

KEPT = 5  # automatic copies kept; the oldest goes when a sixth is made


def folder_of(store: Path) -> Path:
    """The folder of a store's copies: `kit.db.copies` beside `kit.db`, beside the real one where that is a link."""
    real = store.resolve()
    return real.with_name(f"{real.name}.copies")


def automatic(store: Path) -> tuple[Path, ...]:
    """The automatic copies of a store, the newest first."""
    made = (p for p in _numbered(store) if "-before-" in p.name and p.stat().st_size > PLACE_BYTES)
    return tuple(sorted(made, reverse=True))


def reserved(store: Path, what: str) -> Path:
    """A new file under the next free number, taken so that no other process takes the same."""
    folder = folder_of(store)
    folder.mkdir(exist_ok=True)
    number = max((int(p.name[:5]) for p in _numbered(store)), default=0)
    while True:
        number += 1
        target = folder / f"{number:05d}-{what}.db"
        try:
            with target.open("x", encoding="ascii") as place:
                place.write(str(os.getpid()))
        except FileExistsError:
            continue
        return target


def way_back(store: Path) -> str:
    """What to type to get a store back: its newest automatic copy, else where a backup would be."""
    try:
        there = automatic(store)
    except OSError:
        there = ()
    if there:
        return f"A copy from before the last great change is there: kitlist recover {quoted(there[0])}"
    return "kitlist recover FILE puts a backup in its place; kitlist --store FILE start begins a new one."


def _numbered(store: Path) -> list[Path]:
    return list(folder_of(store).glob("[0-9][0-9][0-9][0-9][0-9]-*.db"))
