"""Keep a sample of the present schema, for every later kitlist to open: `python tests/store/samples/make.py`.

Run it when a schema is released. The sample is the demo's kit with a removed battery that has a
reading; it is named for the newest migration that it has had.
"""

from __future__ import annotations

import gzip
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

from kitlist.base import resources
from kitlist.store import changes, schema, start
from kitlist.store.importing import import_toml

HERE = Path(__file__).resolve().parent


def main() -> None:
    """Write the sample of the present schema."""
    with tempfile.TemporaryDirectory() as folder:
        store = start(Path(folder) / "kit.db")
        import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
        changes.add(store, "battery", {"name": "old spare", "place": "loose"})
        changes.add(store, "reading", {"battery": "old spare", "volts": 12.1, "taken_at": "2026-05-01T08:00"})
        changes.remove(store, "battery", "old spare")
        changes.edit(store, "tool", "chocks", {"note": "worn"})
        with closing(sqlite3.connect(store.path)) as connection:
            connection.execute("VACUUM")
        target = HERE / f"{schema.numbered()[-1].stem}.db.gz"
        target.write_bytes(gzip.compress(store.path.read_bytes(), mtime=0))
    print(f"Wrote {target.name}.")


if __name__ == "__main__":
    main()
