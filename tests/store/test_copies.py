"""Backup, recovery and the ring of automatic copies."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from kitlist.base.errors import StoreError
from kitlist.store import Store, changes, copies, ring, schema
from kitlist.store.importing import import_file
from kitlist.store.snapshot import snapshot
from new_store import new_store


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def vehicles(path: Path) -> list[str]:
    return [vehicle.name for vehicle in snapshot(Store(path)).vehicles]


def imported(store: Store, name: str) -> None:
    file = store.path.with_name("one.toml")
    file.write_text(f"[[vehicle]]\nname = '{name}'\n", encoding="utf-8")
    import_file(store, file)


def damage(path: Path) -> None:
    """Overwrite the middle of the file, as a failing card does."""
    with path.open("r+b") as file:
        file.seek(4096)
        file.write(b"\x99" * (path.stat().st_size - 8192))


def test_a_backup_holds_everything_history_and_all(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    changes.remove(store, "vehicle", "Heron")
    made, counts = copies.backup(store.path, tmp_path / "copy.db")
    assert dump(made) == dump(store.path)
    assert counts["vehicle"] == 1


def test_a_backup_without_a_name_goes_beside_the_store_and_no_ring_prunes_it(store: Store) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    made, _ = copies.backup(store.path)
    assert made == store.path.with_name("kit.db.copies") / "00001-backup.db"
    for n in range(ring.KEPT + 2):
        imported(store, f"wagon {n}")
    assert made.exists()


def test_a_backup_never_writes_over_a_file_unless_told_to_nor_over_the_store(store: Store, tmp_path: Path) -> None:
    target = tmp_path / "copy.db"
    copies.backup(store.path, target)
    changes.add(store, "vehicle", {"name": "Heron"})
    with pytest.raises(StoreError, match="already a file"):
        copies.backup(store.path, target)
    assert vehicles(target) == []
    copies.backup(store.path, target, replace=True)
    assert vehicles(target) == ["Heron"]
    with pytest.raises(StoreError, match="there is no folder"):
        copies.backup(store.path, tmp_path / "stick" / "copy.db")
    assert not (tmp_path / "stick").exists()
    with pytest.raises(StoreError, match="is no file"):
        copies.backup(store.path, tmp_path, replace=True)
    with pytest.raises(StoreError, match="its own backup"):
        copies.backup(store.path, store.path, replace=True)


def test_a_backup_taken_while_another_process_writes_is_of_one_moment(store: Store, tmp_path: Path) -> None:
    changes.add(store, "battery", {"name": "a", "place": "loose"})
    script = (
        "import sys\nfrom pathlib import Path\nfrom kitlist.store import Store, changes\n"
        "store = Store(Path(sys.argv[1]))\n"
        "for n in range(60):\n"
        "    values = {'battery': 'a', 'volts': 12.5, 'taken_at': f'2026-01-01T{n // 60:02d}:{n % 60:02d}'}\n"
        "    changes.add(store, 'reading', values)\n"
    )
    with subprocess.Popen([sys.executable, "-c", script, store.path]) as writer:
        made = [copies.backup(store.path, tmp_path / f"{n}.db")[1]["reading"] for n in range(8)]
    assert writer.returncode == 0
    assert made == sorted(made)
    for n, count in enumerate(made):
        with closing(sqlite3.connect(tmp_path / f"{n}.db")) as copy:
            assert copy.execute("SELECT count(*), count(DISTINCT taken_at) FROM reading").fetchone() == (count, count)


def test_recover_brings_a_backup_back_and_keeps_what_it_replaces(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    copies.backup(store.path, tmp_path / "copy.db")
    changes.add(store, "vehicle", {"name": "Plover"})
    kept, counts = copies.recover(store.path, tmp_path / "copy.db")
    assert (vehicles(store.path), counts["vehicle"]) == (["Heron"], 1)
    assert kept is not None
    copies.recover(store.path, kept)
    assert vehicles(store.path) == ["Heron", "Plover"]
    changes.add(Store(store.path), "vehicle", {"name": "Stilt"})
    assert not list(tmp_path.rglob(".*"))


def test_recover_brings_an_older_backup_forward_and_leaves_the_backup_as_it_is(tmp_path: Path) -> None:
    import gzip

    sample = Path(__file__).parent / "samples" / "0001_kit.db.gz"
    old = tmp_path / "old.db"
    old.write_bytes(gzip.decompress(sample.read_bytes()))
    before = old.read_bytes()
    kept, _ = copies.recover(tmp_path / "kit.db", old)
    assert kept is None
    assert old.read_bytes() == before
    assert vehicles(tmp_path / "kit.db") == ["Heron", "Plover", "Stilt"]


def test_recover_takes_the_place_of_a_damaged_store_and_keeps_that_too(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    copies.backup(store.path, tmp_path / "copy.db")
    damage(store.path)
    broken = store.path.read_bytes()
    kept, _ = copies.recover(store.path, tmp_path / "copy.db")
    assert kept is not None
    assert kept.read_bytes() == broken
    assert vehicles(store.path) == ["Heron"]


def test_a_damaged_backup_is_refused_and_the_store_stays(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    copies.backup(store.path, tmp_path / "copy.db")
    damage(tmp_path / "copy.db")
    before = dump(store.path)
    with pytest.raises(StoreError, match="is damaged"):
        copies.recover(store.path, tmp_path / "copy.db")
    assert dump(store.path) == before


def test_a_damaged_store_is_not_backed_up_as_if_it_were_sound(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    damage(store.path)
    with pytest.raises(StoreError, match="is damaged"):
        copies.backup(store.path, tmp_path / "copy.db")
    assert not (tmp_path / "copy.db").exists()


def test_recover_refuses_what_is_no_backup(store: Store, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear all, " * 500)
    with closing(sqlite3.connect(tmp_path / "other.db")) as other:
        other.execute("CREATE TABLE x (y)")
    for name, said in (
        ("letter.txt", "is not a kitlist store"),
        ("other.db", "no kitlist store"),
        ("none.db", "there is no backup"),
        ("kit.db", "the store itself"),
    ):
        with pytest.raises(StoreError, match=said):
            copies.recover(store.path, tmp_path / name)
    assert vehicles(store.path) == []


def test_an_import_puts_a_copy_aside_and_the_last_five_are_kept(store: Store) -> None:
    for n in range(ring.KEPT + 3):
        imported(store, f"wagon {n}")
    there = ring.automatic(store.path)
    assert len(there) == ring.KEPT
    assert [len(vehicles(copy)) for copy in there] == [7, 6, 5, 4, 3]
    assert [copy.name[:5] for copy in there] == ["00007", "00006", "00005", "00004", "00003"]


def test_an_import_that_adds_nothing_makes_no_copy(store: Store) -> None:
    imported(store, "Heron")
    imported(store, "Heron")
    assert not list(ring.folder_of(store.path).glob("*"))


def test_a_first_import_into_an_empty_store_makes_no_copy(store: Store) -> None:
    imported(store, "Heron")
    assert not ring.folder_of(store.path).exists()


def test_the_newest_copy_is_named_where_the_store_is_damaged(store: Store) -> None:
    imported(store, "Heron")
    imported(store, "Plover")
    damage(store.path)
    with pytest.raises(StoreError) as caught:
        snapshot(Store(store.path))
    assert f"kitlist recover {ring.automatic(store.path)[0]}" in caught.value.hint


def test_two_processes_never_take_the_same_number(tmp_path: Path) -> None:
    taken = {ring.reserved(tmp_path / "kit.db", "backup").name for _ in range(20)}
    assert len(taken) == 20


def test_a_new_store_has_the_newest_schema(tmp_path: Path) -> None:
    store = new_store(tmp_path / "new.db")
    with closing(sqlite3.connect(store.path)) as connection:
        assert schema.applied(connection) == tuple(file.stem for file in schema.numbered())


def test_a_copy_that_does_not_read_back_the_same_is_none_and_takes_no_place(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    target = tmp_path / "copy.db"
    counted = iter([{"vehicle": 1}, {"vehicle": 0}] * 2)
    monkeypatch.setattr(copies, "row_counts", lambda connection: next(counted))
    for _ in range(2):
        with pytest.raises(StoreError, match="does not read back the same"):
            copies.backup(store.path, target)
        assert not target.exists()
        assert not list(tmp_path.rglob(".*"))
