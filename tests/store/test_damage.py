"""Stores damaged at random: what can be told is told before data goes out, and `recover` brings the good copy back."""

from __future__ import annotations

import os
import random
import sqlite3
import struct
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from kitlist.base.errors import StoreError
from kitlist.store import Store, changes, copies, readings, ring, rows
from kitlist.store.exporting import export
from kitlist.store.measured import SUMMED
from kitlist.store.snapshot import snapshot
from new_store import demo_store
from running import kitlist

DAMAGES = int(os.environ.get("KITLIST_TEST_DAMAGES", "60"))  # the bar is 1000
PAGE = 4096
VOLTS = 12.68791


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    store = demo_store(tmp_path_factory.mktemp("good") / "kit.db")
    values = {"battery": "heron-main", "volts": VOLTS, "taken_at": "2027-05-04T07:00", "rested": "12h"}
    changes.add(store, "reading", values)
    return store.path


def flip_a_bit(content: bytearray, chance: random.Random) -> None:
    content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)


def flip_a_bit_of_the_schema(content: bytearray, chance: random.Random) -> None:
    content[chance.randrange(100, 16 * PAGE)] ^= 1 << chance.randrange(8)


def overwrite(content: bytearray, chance: random.Random) -> None:
    at = chance.randrange(len(content) - 64)
    content[at : at + 64] = chance.randbytes(64)


def empty_a_page(content: bytearray, chance: random.Random) -> None:
    at = PAGE * chance.randrange(len(content) // PAGE)
    content[at : at + PAGE] = bytes(PAGE)


def swap_two_pages(content: bytearray, chance: random.Random) -> None:
    one, two = (PAGE * chance.randrange(len(content) // PAGE) for _ in "ab")
    content[one : one + PAGE], content[two : two + PAGE] = content[two : two + PAGE], content[one : one + PAGE]


def cut_short(content: bytearray, chance: random.Random) -> None:
    del content[chance.randrange(1, len(content)) :]


HARMS: tuple[Callable[[bytearray, random.Random], None], ...] = (
    flip_a_bit, flip_a_bit_of_the_schema, overwrite, empty_a_page, swap_two_pages, cut_short,
)  # fmt: skip


def numbers(store: Store) -> dict[str, list[tuple[Any, ...]]]:
    """Everything that is measured."""
    with store.viewing() as connection:
        return {
            kind: [
                tuple(getattr(t, column) for column in columns) for t in rows.things(connection, kind, order="rowid")
            ]
            for kind, columns in SUMMED.items()
        }


@pytest.mark.parametrize("seed", range(DAMAGES))
def test_a_damaged_store_is_told_in_a_sentence_and_brought_back(good: Path, tmp_path: Path, seed: int) -> None:
    chance = random.Random(seed)
    content = bytearray(good.read_bytes())
    HARMS[seed % len(HARMS)](content, chance)
    path = tmp_path / "kit.db"
    path.write_bytes(content)
    backup = tmp_path / "backup.db"
    backup.write_bytes(good.read_bytes())
    try:
        store = Store(path)
        snapshot(store)
        export(store, tmp_path / "out.json")
        found = numbers(store)
        copies.backup(path, tmp_path / "again.db")
    except StoreError:
        pass
    else:
        assert found == numbers(Store(good)), "a number that is not what was written went out"
    copies.recover(path, backup)
    assert snapshot(Store(path)) == snapshot(Store(good))


def test_every_flipped_bit_of_a_stored_voltage_is_told(good: Path, tmp_path: Path) -> None:
    content = good.read_bytes()
    place = content.index(struct.pack(">d", VOLTS))
    path = tmp_path / "kit.db"
    for bit in range(64):
        flipped = bytearray(content)
        flipped[place + bit // 8] ^= 1 << bit % 8
        path.write_bytes(flipped)
        for look in (snapshot, lambda store: export(store, tmp_path / "out.json", replace=True)):
            with pytest.raises(StoreError, match="is damaged"):
                look(Store(path))
    assert not (tmp_path / "out.json").exists()


def test_a_reading_that_is_not_what_was_written_can_be_taken_out_and_the_rest_used(good: Path, tmp_path: Path) -> None:
    content = bytearray(good.read_bytes())
    content[content.index(struct.pack(">d", VOLTS)) + 3] ^= 1
    path = tmp_path / "kit.db"
    path.write_bytes(content)
    with pytest.raises(StoreError, match="the reading of heron-main at 2027-05-04 07:00:00 is not what was") as caught:
        snapshot(Store(path))
    assert 'kitlist reading remove heron-main "2027-05-04 07:00:00"' in caught.value.hint
    readings.remove(Store(path), "heron-main", "2027-05-04 07:00:00")
    assert all(reading.volts_v != VOLTS for reading in snapshot(Store(path)).readings)


@pytest.mark.parametrize(
    ("schema", "harm"),
    [
        ("a byte that is no text", lambda text: text.replace(b"CREATE TABLE tool", b"CREATE TABLE t\xffol")),
        (
            "a reference that leads nowhere",
            lambda text: text.replace(b"REFERENCES bag (name)", b"REFERENCES bag (namu)"),
        ),
        ("no table of that name", lambda text: text.replace(b"CREATE TABLE tool", b"CREATE TABLE toom")),
    ],
)
def test_whatever_looking_at_it_raises_every_command_names_recover_and_recover_works(
    good: Path, tmp_path: Path, schema: str, harm: Callable[[bytes], bytes]
) -> None:
    path = tmp_path / "kit.db"
    backup = tmp_path / "backup.db"
    backup.write_bytes(good.read_bytes())
    path.write_bytes(harm(good.read_bytes()))
    assert path.read_bytes() != good.read_bytes()
    for words in (("ready",), ("vehicle", "list"), ("volts", "heron-main", "12.5"), ("export", "out.json"), ("backup",),
                  ("tool", "edit", "chocks", "count=3")):  # fmt: skip
        done = kitlist(*words, store=path, cwd=tmp_path)
        assert "should not have happened" not in done.stderr, (schema, words)
        if done.returncode == 1:
            assert "kitlist recover" in done.stderr, (schema, words, done.stderr)
    done = kitlist("recover", str(backup), store=path)
    assert done.returncode == 0, done.stderr
    assert snapshot(Store(path)) == snapshot(Store(good))


def test_a_store_behind_a_link_is_brought_back_where_it_really_is(good: Path, tmp_path: Path) -> None:
    real = tmp_path / "card" / "kit.db"
    real.parent.mkdir()
    real.write_bytes(good.read_bytes()[:9000])
    link = tmp_path / "kit.db"
    link.symlink_to(real)
    copies.recover(link, good)
    assert link.is_symlink()
    assert snapshot(Store(link)) == snapshot(Store(good))
    assert ring.folder_of(link) == tmp_path / "card" / "kit.db.copies"
    assert [file.name for file in ring.folder_of(link).iterdir()] == ["00001-replaced.db"]


def test_what_killed_commands_left_is_cleared_by_the_next_and_what_is_in_use_stays(good: Path, tmp_path: Path) -> None:
    path = tmp_path / "kit.db"
    path.write_bytes(good.read_bytes())
    folder = ring.folder_of(path)
    folder.mkdir()
    gone, own = 2**22 + 1, os.getpid()  # no process has a number so high
    left = [path.with_name(f".kit.db.{gone}.recovering"), path.with_name(f".out.json.{gone}.part")]
    left += [folder / f".00001-before-import.db.{gone}.part", folder / "00001-before-import.db"]
    used = [path.with_name(f".other.json.{own}.part"), folder / "00002-before-import.db", path.with_name(".mine.part")]
    for file in (*left, *used):
        file.write_text(str(gone if file in left else own), encoding="ascii")
    assert ring.automatic(path) == ()
    made, _ = copies.backup(path)
    assert made.name == "00003-backup.db"
    assert [file for file in left if file.exists()] == []
    assert [file for file in used if not file.exists()] == []


def test_removed_rows_and_tables_are_counted_as_damage(good: Path, tmp_path: Path) -> None:
    path = tmp_path / "kit.db"
    path.write_bytes(good.read_bytes())
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("DROP TABLE tool")
    with pytest.raises(StoreError, match="no such table: tool") as caught:
        snapshot(Store(path))
    assert "kitlist recover" in caught.value.hint
