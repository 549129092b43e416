"""The demo: an invented crew's kit in a throwaway store, through the same import as everybody's."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, timedelta
from pathlib import Path

from kitlist.base import resources
from kitlist.store import Store, start
from kitlist.store.importing import import_toml
from kitlist.store.snapshot import trips

DAYS_BEFORE = 3  # the demo is judged so long before its trip


@contextmanager
def demo_store() -> Iterator[tuple[Store, date]]:
    """A store with the demo kit, gone when the block ends, and the day on which it is to be judged."""
    with tempfile.TemporaryDirectory(prefix="kitlist-demo-") as folder:
        store = start(Path(folder) / "kit.db")
        import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
        yield store, trips(store)[0].starts_on - timedelta(days=DAYS_BEFORE)
