"""New stores for tests: every migration runs once for all of them, and each store is a copy of what they made. What a
start itself does, and what it leaves where it fails, is tested on `kitlist.store.start`."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from kitlist.base import resources
from kitlist.store import Store, start
from kitlist.store.importing import import_toml


def new_store(path: Path) -> Store:
    """An empty store at a place where nothing is yet, as `start` makes it, in a fiftieth of its time."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("xb") as file:
        file.write(_started())
    return Store(path)


@cache
def _started() -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        return start(Path(folder) / "kit.db").path.read_bytes()


def demo_store(path: Path) -> Store:
    """A store with the demo's kit at a place where nothing is yet."""
    path.write_bytes(_demo())
    return Store(path)


@cache
def _demo() -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        store = new_store(Path(folder) / "kit.db")
        import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
        return store.path.read_bytes()
