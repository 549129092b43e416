"""Each trouble that a store can be in gets a sentence and what to do; each is made for real where it can be."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, StoreError
from kitlist.store import Store, changes, opening, start
from kitlist.store.snapshot import snapshot

NOW = datetime.fromisoformat("2026-11-25T07:30")


@contextmanager
def unwritable(path: Path) -> Iterator[None]:
    """Nobody can write the file or folder, not even root; skips where the system cannot do that."""
    if os.geteuid() != 0:
        mode = path.stat().st_mode
        path.chmod(mode & 0o555)
        try:
            yield
        finally:
            path.chmod(mode)
        return
    if subprocess.run(["chattr", "+i", path], capture_output=True, check=False).returncode:
        pytest.skip("root can write everywhere here, and chattr does not work on this file system")
    try:
        yield
    finally:
        subprocess.run(["chattr", "-i", path], check=True)


def add(store: Store, name: str = "Heron") -> None:
    changes.add(store, "vehicle", {"name": name})


def test_a_store_locked_by_another_process_is_said_to_be_in_use(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening, "WAIT_S", 0.05)
    with closing(sqlite3.connect(store.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        for work in (lambda: add(store), lambda: snapshot(store), lambda: Store(store.path)):
            with pytest.raises(StoreError, match="in use by another process") as caught:
                work()
            assert caught.value.hint == "Try again when the other command has ended."
    add(store)


def test_a_file_that_can_only_be_read_is_read_and_not_written(store: Store) -> None:
    add(store)
    with unwritable(store.path):
        assert len(snapshot(Store(store.path)).vehicles) == 1
        with pytest.raises(StoreError, match="can only be read; nothing was changed") as caught:
            add(store, "Plover")
        assert "permissions" in caught.value.hint
    assert len(snapshot(store).vehicles) == 1


def test_a_store_in_a_folder_that_can_only_be_read_is_read_and_not_written(tmp_path: Path) -> None:
    folder = tmp_path / "card"
    folder.mkdir()
    store = start(folder / "kit.db")
    add(store)
    with unwritable(folder):
        assert len(snapshot(Store(store.path)).vehicles) == 1
        with pytest.raises(StoreError, match="nothing was changed") as caught:
            add(store, "Plover")
        assert "folder" in caught.value.hint
        with pytest.raises(StoreError, match="cannot make a store") as caught:
            start(folder / "new.db")
    assert len(snapshot(store).vehicles) == 1


def test_an_old_store_that_can_only_be_read_says_so(tmp_path: Path) -> None:
    import gzip

    folder = tmp_path / "card"
    folder.mkdir()
    path = folder / "kit.db"
    path.write_bytes(gzip.decompress((Path(__file__).parent / "samples" / "0001_kit.db.gz").read_bytes()))
    with unwritable(path), unwritable(folder), pytest.raises(StoreError, match=r"can only be read|cannot"):
        Store(path)


def test_a_damaged_store_says_how_to_get_it_back(store: Store) -> None:
    for n in range(40):
        add(store, f"wagon {n}")
    with store.path.open("r+b") as file:
        file.seek(8192)
        file.write(b"\x99" * (store.path.stat().st_size - 8192))
    with pytest.raises(StoreError, match="is damaged") as caught:
        snapshot(Store(store.path))
    assert "kitlist recover" in caught.value.hint


def test_a_store_cut_short_to_nothing_is_not_taken_for_a_new_one(store: Store) -> None:
    store.path.write_bytes(b"")
    with pytest.raises(StoreError, match="is empty") as caught:
        Store(store.path)
    assert "kitlist start" in caught.value.hint
    assert store.path.stat().st_size == 0


def test_a_database_of_another_program_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE album (name)")
    before = path.read_bytes()
    with pytest.raises(StoreError, match="no kitlist store"):
        Store(path)
    assert path.read_bytes() == before


def test_a_folder_that_is_gone_is_told_from_a_store_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="its folder is not there") as caught:
        Store(tmp_path / "stick" / "kit.db")
    assert "disk or card" in caught.value.hint
    with pytest.raises(StoreError, match="is a folder, not a store"):
        Store(tmp_path)


def test_a_folder_that_goes_while_the_store_is_open_gets_a_sentence(tmp_path: Path) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    store = start(folder / "kit.db")
    folder.rename(tmp_path / "pulled")
    with pytest.raises(StoreError, match="cannot be opened") as caught:
        add(store)
    assert "disk or card" in caught.value.hint


def test_without_a_home_folder_it_says_what_to_name(tmp_path: Path) -> None:
    environment = {k: v for k, v in os.environ.items() if k not in ("HOME", "KITLIST_STORE", "XDG_DATA_HOME")}
    script = (
        "import os, pwd\n"
        "def nobody(uid):\n    raise KeyError(uid)\n"
        "pwd.getpwuid = nobody\n"
        "from kitlist.base.errors import StoreError\nfrom kitlist.store import default_path\n"
        "try:\n    print(default_path())\nexcept StoreError as error:\n    print(error.message, error.hint)\n"
    )
    words = [sys.executable, "-c", script]
    said = subprocess.run(words, env=environment, cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    assert said.strip() == (
        "no home folder is known, so there is no place for the store "
        "Name a file with --store FILE or KITLIST_STORE=FILE."
    )
    assert list(tmp_path.iterdir()) == []


def test_a_home_that_nobody_has_gets_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("KITLIST_STORE", "~nobody-of-that-name/kit.db")
    with pytest.raises(StoreError, match="home that is not known"):
        opening.default_path()


def reading(store: Store, taken_at: str | None = None, *, clock: datetime = NOW, battery: str = "a") -> datetime:
    values = {"battery": battery, "volts": 12.5} | ({"taken_at": taken_at} if taken_at else {})
    taken: datetime = changes.add(store, "reading", values, by_clock=clock).taken_at
    return taken


def test_a_reading_in_the_future_is_refused_beyond_ten_minutes(store: Store) -> None:
    changes.add(store, "battery", {"name": "a", "place": "loose"})
    assert reading(store, "2026-11-25T07:39") == NOW + timedelta(minutes=9)
    with pytest.raises(BadData, match="would be in the future: the clock says 2026-11-25 07:30") as caught:
        reading(store, "2026-11-25T07:41")
    assert "--at" in caught.value.hint


def test_where_the_clock_was_set_back_the_moment_must_be_given(store: Store) -> None:
    changes.add(store, "battery", {"name": "a", "place": "loose"})
    reading(store)
    behind = datetime.fromisoformat("2000-01-01T00:00")
    with pytest.raises(BadData, match="this machine's clock is behind") as caught:
        reading(store, clock=behind)
    assert "--at" in caught.value.hint
    assert reading(store, "2026-11-26T08:00", clock=behind) == datetime.fromisoformat("2026-11-26T08:00")


def test_a_journey_into_another_time_zone_counts_only_against_the_same_battery(store: Store) -> None:
    for name in ("a", "b"):
        changes.add(store, "battery", {"name": name, "place": "loose"})
    reading(store)
    west = NOW - timedelta(hours=2)
    assert reading(store, clock=west, battery="b") == west
    with pytest.raises(BadData, match="or its time zone has changed"):
        reading(store, clock=west)
    with pytest.raises(BadData, match="clock is behind"):
        reading(store, clock=NOW - timedelta(hours=27), battery="b")
