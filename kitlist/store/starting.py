"""Making a store with things in it already: all of it is there, or no store is."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from kitlist.base import resources
from kitlist.base.errors import BadData
from kitlist.base.leftovers import clear, part_of
from kitlist.store.importing import Imported, import_toml
from kitlist.store.noting import Signature
from kitlist.store.opening import Store, empty_file, start
from kitlist.store.snapshot import snapshot


def start_with_starter(path: Path, *, signature: Signature | None = None) -> tuple[Store, Imported]:
    """A new store with the starter kit. It is made beside its place and put there whole."""
    made = empty_file(path)
    clear(path.parent)
    part = part_of(path, "starting")
    part.unlink(missing_ok=True)
    try:
        done = import_toml(start(part, signature=signature), starter_file())
        os.replace(part, path)
    except BaseException:
        part.unlink(missing_ok=True)
        if made:
            path.unlink(missing_ok=True)
        raise
    return Store(path, signature=signature), done


def take_starter(store: Store, *, dry_run: bool = False) -> Imported:
    """The starter kit into a store that holds nothing packed yet. Raises BadData where it does."""
    kit = snapshot(store)
    kinds: tuple[tuple[Any, ...], ...] = (kit.bags, kit.gear, kit.tools, kit.leads, kit.rods)
    packed = [str(thing.name) for things in kinds for thing in things]
    if packed:
        raise BadData(
            f"the kit has things in its bags already: {', '.join(packed[:4])}",
            hint="The starter kit is for an empty one: add what is missing with kitlist gear add and kitlist tool add.",
        )
    return import_toml(store, starter_file(), dry_run=dry_run)


def starter_file() -> Path:
    """The starter kit: the usual bags and things, every count at 0."""
    return resources.folder("seed_data") / "starter.toml"
