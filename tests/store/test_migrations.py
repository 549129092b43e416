"""Every schema that there was opens and is brought forward; a migration that fails leaves the file as it was."""

from __future__ import annotations

import gzip
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from kitlist.base import resources
from kitlist.base.errors import StoreError
from kitlist.kit import KINDS
from kitlist.store import Store, ring, schema, start
from kitlist.store.importing import import_file
from kitlist.store.snapshot import snapshot

SAMPLES = sorted((Path(__file__).parent / "samples").glob("*.db.gz"))
SCHEMA = "SELECT name, sql FROM sqlite_master WHERE name NOT LIKE '!_%' ESCAPE '!' ORDER BY name"


def sample(path: Path, file: Path = SAMPLES[0]) -> Path:
    path.write_bytes(gzip.decompress(file.read_bytes()))
    return path


def ask(path: Path, query: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query).fetchall()


@pytest.fixture
def and_one_more(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A migration of a kitlist to come, which can be made to fail half-way."""
    folder = tmp_path / "migrations"
    shutil.copytree(resources.folder("migrations"), folder, ignore=shutil.ignore_patterns("__pycache__"))
    later = folder / "9999_later.py"
    monkeypatch.setattr(resources, "folder", lambda name: folder if name == "migrations" else tmp_path / name)
    later.write_text("def forward(db):\n    db.execute('CREATE TABLE later (x)')\n    db.execute('DROP TABLE tool')\n")
    schema.numbered.cache_clear()
    return later


@pytest.fixture(autouse=True)
def _forget_the_migrations() -> object:
    yield
    schema.numbered.cache_clear()


def test_a_sample_is_there_from_the_first_schema_on() -> None:
    assert SAMPLES[0].name == "0001_kit.db.gz"
    assert {file.name.removesuffix(".db.gz") for file in SAMPLES} <= {file.stem for file in schema.numbered()}


@pytest.mark.parametrize("file", SAMPLES, ids=lambda f: f.name)
def test_every_sample_opens_and_has_all_that_it_had(tmp_path: Path, file: Path, store: Store) -> None:
    path = sample(tmp_path / "old.db", file)
    kinds = [kind for kind in KINDS if ask(path, f"SELECT 1 FROM sqlite_master WHERE name = '{kind}'")]
    before = {kind: ask(path, f"SELECT count(*) FROM {kind}")[0] for kind in kinds}
    assert before["battery"] == (5,)
    kit = snapshot(Store(path))
    assert {kind: ask(path, f"SELECT count(*) FROM {kind}")[0] for kind in kinds} == before
    assert ask(path, "PRAGMA integrity_check") == [("ok",)]
    assert ask(path, SCHEMA) == ask(store.path, SCHEMA)
    import_file(store, resources.folder("seed_data") / "demo" / "kit.toml")
    assert [b.name for b in kit.batteries] == [b.name for b in snapshot(store).batteries]
    assert kit.readings[0].volts_v == snapshot(store).readings[0].volts_v


def test_a_copy_is_put_aside_before_a_migration(tmp_path: Path) -> None:
    path = sample(tmp_path / "kit.db")
    before = path.read_bytes()
    Store(path)
    (copy,) = ring.automatic(path)
    assert copy.name == f"00001-before-{schema.numbered()[1].stem}.db"
    assert ask(copy, "SELECT name FROM _sqlite_migrations") == [("0001_kit",)]
    assert len(copy.read_bytes()) == len(before)
    Store(path)
    assert ring.automatic(path) == (copy,)


@pytest.mark.parametrize("fault", ["raise RuntimeError('half-way')", "db.execute('no sql')", "raise KeyboardInterrupt"])
def test_a_migration_that_fails_half_way_leaves_the_store_as_it_was(
    tmp_path: Path, and_one_more: Path, fault: str
) -> None:
    path = sample(tmp_path / "kit.db")
    before = ask(path, SCHEMA)
    and_one_more.write_text(and_one_more.read_text() + f"    {fault}\n")
    with pytest.raises((RuntimeError, StoreError, KeyboardInterrupt)):
        Store(path)
    assert ask(path, SCHEMA) == before
    assert ask(path, "SELECT name FROM _sqlite_migrations") == [("0001_kit",)]
    assert ring.automatic(path) == ()


def test_a_process_that_dies_half_way_leaves_the_store_as_it_was(tmp_path: Path, and_one_more: Path) -> None:
    path = sample(tmp_path / "kit.db")
    before = ask(path, SCHEMA)
    and_one_more.write_text(and_one_more.read_text() + "    import os\n    os.kill(os.getpid(), 9)\n")
    script = (
        "import sys\nfrom pathlib import Path\nfrom kitlist.base import resources\n"
        "resources.folder = lambda name: Path(sys.argv[1])\n"
        "from kitlist.store import Store\nStore(Path(sys.argv[2]))\n"
    )
    done = subprocess.run([sys.executable, "-c", script, and_one_more.parent, path], check=False)
    assert done.returncode == -9
    assert ask(path, SCHEMA) == before
    and_one_more.write_text("def forward(db):\n    db.execute('CREATE TABLE later (x)')\n")
    Store(path)
    assert ("later",) in ask(path, "SELECT name FROM sqlite_master")


def test_a_migration_that_leaves_a_reference_to_nowhere_is_undone(tmp_path: Path, and_one_more: Path) -> None:
    path = sample(tmp_path / "kit.db")
    and_one_more.write_text("def forward(db):\n    db.execute('DELETE FROM vehicle')\n")
    with pytest.raises(StoreError, match="do not hold together"):
        Store(path)
    assert ask(path, "SELECT count(*) FROM vehicle") == [(3,)]


def test_two_processes_that_open_an_old_store_at_once_bring_it_forward_once(tmp_path: Path) -> None:
    path = sample(tmp_path / "kit.db")
    script = "import sys\nfrom pathlib import Path\nfrom kitlist.store import Store\nStore(Path(sys.argv[1]))\n"
    both = [subprocess.Popen([sys.executable, "-c", script, path], stderr=subprocess.PIPE, text=True) for _ in "ab"]
    assert [process.communicate()[1] for process in both] == ["", ""]
    names = [name for (name,) in ask(path, "SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert names == [file.stem for file in schema.numbered()]


def test_a_start_that_was_interrupted_can_be_begun_again(tmp_path: Path) -> None:
    path = tmp_path / "kit.db"
    path.touch()
    with pytest.raises(StoreError, match="is empty"):
        Store(path)
    assert start(path).path == path
