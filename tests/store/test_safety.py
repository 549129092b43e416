"""Killed, crowded, out of room: what was acknowledged is there, and what could not be done was not half done."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import kill
import pytest

from kitlist.base.errors import KitlistError, StoreError
from kitlist.store import Store, changes, copies, start
from kitlist.store.importing import import_file
from kitlist.store.snapshot import snapshot

WRITES = int(os.environ.get("KITLIST_TEST_WRITES", "60"))  # by each writer; the bar is 1000
WRITER = """
import sys
from datetime import datetime, timedelta
from pathlib import Path
from kitlist.store import Store, changes
store = Store(Path(sys.argv[1]))
first = datetime.fromisoformat("2020-01-01T00:00")
for n in range(int(sys.argv[3])):
    values = {"battery": sys.argv[2], "volts": 12.5, "taken_at": first + timedelta(minutes=n)}
    changes.add(store, "reading", values)
"""
READER = """
import sys
from pathlib import Path
from kitlist.store import Store
from kitlist.store.snapshot import snapshot
store = Store(Path(sys.argv[1]))
seen = 0
while not Path(sys.argv[2]).exists():
    with store.viewing() as connection:
        (now,) = connection.execute("SELECT count(*) FROM reading").fetchone()
    assert now >= seen
    seen = now
    snapshot(store)
"""


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        return list(connection.iterdump())


def without_tools(lines: list[str]) -> list[str]:
    return [line for line in lines if not line.startswith(('INSERT INTO "tool"', 'INSERT INTO "journal'))]


def test_nothing_acknowledged_is_lost_when_a_process_is_killed_at_random_moments() -> None:
    finished = kill.run(28, seed=20)
    assert finished["write"] > 0


def test_two_writers_and_a_reader_at_once_see_no_error_and_every_reading_is_there(store: Store) -> None:
    for name in ("a", "b"):
        changes.add(store, "battery", {"name": name, "place": "loose"})
    done = store.path.with_name("done")
    reader = subprocess.Popen([sys.executable, "-c", READER, store.path, done], stderr=subprocess.PIPE, text=True)
    words = [[sys.executable, "-c", WRITER, store.path, name, str(WRITES)] for name in ("a", "b")]
    writers = [subprocess.Popen(w, stderr=subprocess.PIPE, text=True) for w in words]
    said = [writer.communicate()[1] for writer in writers]
    done.touch()
    said.append(reader.communicate()[1])
    assert said == ["", "", ""]
    with store.viewing() as connection:
        assert connection.execute("SELECT count(*) FROM reading").fetchone() == (2 * WRITES,)


def many_tools(path: Path) -> Path:
    lines = [f"[[tool]]\nname = 'tool {n}'\nwhat = 'grinder'\nnote = '{'x' * 100}'\n" for n in range(300)]
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


def in_a_child(work: Callable[[], None]) -> str:
    """Run something in a forked process; returns the message of the StoreError that it ended with, or nothing."""
    reader, writer = os.pipe()
    if (child := os.fork()) == 0:
        try:
            work()
            said = ""
        except StoreError as error:
            said = f"{error.message}|{error.hint}"
        except BaseException as error:
            said = f"NO STORE ERROR: {type(error).__name__}: {error}"
        os.write(writer, said.encode())
        os._exit(0)
    os.close(writer)
    with os.fdopen(reader, encoding="utf-8") as pipe:
        said = pipe.read()
    os.waitpid(child, 0)
    return said


@pytest.mark.parametrize("room", range(0, 200_000, 10_000))
def test_where_no_file_may_grow_further_an_import_leaves_the_store_as_it_was(tmp_path: Path, room: int) -> None:
    """The system's own limit on the size of a file, at twenty points of one import."""
    store = start(tmp_path / "kit.db")
    changes.add(store, "vehicle", {"name": "Heron"})
    before = dump(store.path)
    toml = many_tools(tmp_path / "many.toml")

    def work() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        limit = room if room < 100_000 else store.path.stat().st_size + (room - 100_000) // 8
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
        import_file(store, toml)

    said = in_a_child(work)
    assert said.split("|")[0].endswith(("nothing was changed", "it was not written"))
    assert "space" in said.split("|")[1]
    assert dump(store.path) == before


FULL = """
import os, sys
from pathlib import Path
from kitlist.base.errors import StoreError
from kitlist.store import Store, changes, copies
from kitlist.store.importing import import_file
disk, room, what, toml = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3], Path(sys.argv[4])
store = Store(disk / "kit.db") if what != "migrate" else None
free = os.statvfs(disk).f_bavail * os.statvfs(disk).f_frsize
with open(disk / "ballast", "wb") as file:
    file.write(bytes(max(0, free - room)))
try:
    if what == "import":
        import_file(store, toml)
    elif what == "add":
        for n in range(2000):
            changes.add(store, "tool", {"name": f"tool {n}", "what": "grinder", "note": "x" * 100})
    elif what == "backup":
        copies.backup(disk / "kit.db", disk / "backup.db")
    elif what == "migrate":
        Store(disk / "kit.db")
except StoreError as error:
    print(error.message, "|", error.hint)
else:
    print("done")
"""


def apart() -> list[str] | None:
    """The words that give a command mounts of its own: as root itself, in a chroot too, else as a root of its own."""
    if not shutil.which("unshare") or not shutil.which("mount"):
        return None
    for words in (["unshare", "-m"], ["unshare", "-rm"]):
        tried = [*words, "mount", "-t", "tmpfs", "tmpfs", "/mnt"]
        if subprocess.run(tried, capture_output=True, check=False).returncode == 0:
            return words
    return None


APART = apart()


@pytest.mark.skipif(APART is None, reason="this system lets nobody mount a small disk (unshare -m, unshare -rm)")
@pytest.mark.parametrize("what", ["add", "import", "backup", "migrate"])
def test_on_a_full_disk_it_says_so_and_the_store_is_as_before(tmp_path: Path, what: str) -> None:
    """Three amounts of room for each kind of work, on a small disk of the test's own."""
    disk = tmp_path / "disk"
    disk.mkdir()
    toml = many_tools(tmp_path / "many.toml")
    if what == "migrate":
        import gzip

        (tmp_path / "kit.db").write_bytes(gzip.decompress(kill.OLDEST.read_bytes()))
    else:
        changes.add(start(tmp_path / "kit.db"), "vehicle", {"name": "Heron"})
    (tmp_path / "full.py").write_text(FULL, encoding="utf-8")
    before = dump(tmp_path / "kit.db")
    for room in (0, 20_000, 100_000):
        script = (
            f"mount -t tmpfs -o size=4m tmpfs {disk} && cp {tmp_path}/kit.db {disk}/ && "
            f"{sys.executable} {tmp_path}/full.py {disk} {room} {what} {toml}; cp {disk}/kit.db* {tmp_path}/after/"
        )
        shutil.rmtree(tmp_path / "after", ignore_errors=True)
        (tmp_path / "after").mkdir()
        done = subprocess.run([*(APART or ()), "sh", "-c", script], capture_output=True, text=True, check=False)
        assert "Traceback" not in done.stderr
        assert "full; nothing was changed" in done.stdout or "no room for" in done.stdout, (room, done)
        assert "Free some space" in done.stdout
        after = dump(tmp_path / "after" / "kit.db")
        if what == "add":  # those that were acknowledged before the disk was full are kept, in the journal too
            assert without_tools(after) == without_tools(before)
        else:
            assert after == before


def test_a_backup_that_cannot_be_written_leaves_no_half_file(store: Store, tmp_path: Path) -> None:
    target = tmp_path / "backup.db"

    def work() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))
        copies.backup(store.path, target)

    assert "nothing was changed" in in_a_child(work)
    assert {p.name for p in tmp_path.iterdir() if "backup" in p.name} == set()


def test_a_failing_import_leaves_no_copy_behind_that_would_push_out_a_better_one(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    bad = tmp_path / "bad.toml"
    bad.write_text("[[vehicle]]\nname = 5\n", encoding="utf-8")
    with pytest.raises(KitlistError):
        import_file(store, bad)
    assert not list((tmp_path / "kit.db.copies").iterdir())
    assert len(snapshot(store).vehicles) == 1
