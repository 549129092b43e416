"""Kill writers, importers, backups, recoveries and migrations at random moments.

    python tests/store/kill.py --times 300

After each kill the store must check out, and every write that was acknowledged before must be there; an import, a
migration or a recovery is there whole or not at all. SIGKILL tests what a program's death does; that a power cut
does no more rests on SQLite's journal and `PRAGMA synchronous = EXTRA`.
"""

from __future__ import annotations

import argparse
import gzip
import os
import random
import signal
import sqlite3
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import datetime, timedelta
from pathlib import Path

from kitlist.store import Store, changes, copies, schema, start
from kitlist.store.importing import import_file

OLDEST = Path(__file__).resolve().parent / "samples" / "0001_kit.db.gz"
FIRST = datetime.fromisoformat("2020-01-01T00:00")
FAILED = "failed: "
ROWS = 600  # readings of one import
Acknowledge = Callable[[str], object]


def check(true: bool, what: str) -> None:
    """Raise where something was lost or broken."""
    if not true:
        raise SystemExit(f"LOST: {what}")


def killed(job: Callable[[Acknowledge], None], after_s: float) -> list[str]:
    """Run a job in a process of its own, kill it after a while, and return what it acknowledged."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        try:
            job(lambda text: os.write(writer, f"{text}\n".encode()))
        except BaseException as error:
            os.write(writer, f"{FAILED}{type(error).__name__}: {error}\n".encode())
        os._exit(0)
    os.close(writer)
    time.sleep(after_s)
    with suppress(ProcessLookupError):
        os.kill(child, signal.SIGKILL)
    with os.fdopen(reader, encoding="utf-8") as pipe:
        acknowledged = pipe.read().split("\n")[:-1]
    os.waitpid(child, 0)
    check(not any(text.startswith(FAILED) for text in acknowledged), f"an error: {acknowledged[-1:]}")
    return acknowledged


def rows(path: Path, query: str, *values: object) -> list[tuple[object, ...]]:
    """What a query finds; opening the file rolls back what was interrupted."""
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query, values).fetchall()


def sound(path: Path) -> None:
    """Raise unless SQLite finds the file whole and every reference leads somewhere."""
    check(rows(path, "PRAGMA integrity_check") == [("ok",)], f"{path.name} is damaged")
    check(rows(path, "PRAGMA foreign_key_check") == [], f"{path.name} has references that lead nowhere")


class Trial:
    """One store that is written to and killed again and again, and what must be in it."""

    def __init__(self, folder: Path, chance: random.Random) -> None:
        self.folder = folder
        self.chance = chance
        self.store = start(folder / "kit.db")
        changes.add(self.store, "battery", {"name": "main", "place": "loose"})
        self.taken: set[str] = set()
        self.next = 0
        self.round = 0
        self.backed_up = copies.backup(self.store.path, folder / "early.db")[0]
        self.finished: Counter[str] = Counter()

    def moments(self, count: int) -> list[datetime]:
        """So many moments that no reading has yet."""
        self.next += count
        return [FIRST + timedelta(minutes=n) for n in range(self.next - count, self.next)]

    def there(self) -> set[str]:
        """The moments of all readings in the store."""
        return {str(taken_at) for (taken_at,) in rows(self.store.path, "SELECT taken_at FROM reading")}

    def write(self) -> None:
        """Readings one by one; each is acknowledged when `add` has returned."""
        moments = self.moments(5000)

        def job(acknowledge: Acknowledge) -> None:
            for taken_at in moments:
                changes.add(self.store, "reading", {"battery": "main", "volts": 12.5, "taken_at": taken_at})
                acknowledge(taken_at.isoformat(" ", "microseconds"))

        acknowledged = killed(job, self.chance.uniform(0, 0.25))
        self.finished["write"] += len(acknowledged)
        there = self.there()
        self.taken |= set(acknowledged)
        check(self.taken <= there, "an acknowledged reading")
        check(len(there - self.taken) <= 1, "more is there than was begun")
        self.taken = there

    def import_(self) -> None:
        """Imports one after another; each is there whole or not at all."""
        files = [self.folder / f"import-{n}.csv" for n in range(4)]
        brought = []
        for file in files:
            moments = self.moments(ROWS)
            lines = [f"main,12.4,{taken_at.isoformat()}\n" for taken_at in moments]
            file.write_text("battery,volts_v,taken_at\n" + "".join(lines), encoding="utf-8")
            brought.append({taken_at.isoformat(" ", "microseconds") for taken_at in moments})

        def job(acknowledge: Acknowledge) -> None:
            for number, file in enumerate(files):
                import_file(self.store, file, kind="reading")
                acknowledge(str(number))

        acknowledged = killed(job, self.chance.uniform(0, 0.4))
        self.finished["import"] += len(acknowledged)
        there = self.there()
        check(self.taken <= there, "a reading from before an import")
        for number, moments_of_it in enumerate(brought):
            found = len(moments_of_it & there)
            check(found in ((ROWS,) if str(number) in acknowledged else (0, ROWS)), f"{found} rows of an import")
        self.taken = there

    def back_up(self) -> None:
        """Backups one after another; a file that has its name is whole, and the store is as it was."""
        before = self.there()
        targets = [self.folder / f"backup-{self.round}-{n}.db" for n in range(9)]

        def job(acknowledge: Acknowledge) -> None:
            for target in targets:
                copies.backup(self.store.path, target)
                acknowledge(target.name)

        acknowledged = killed(job, self.chance.uniform(0, 0.2))
        self.finished["backup"] += len(acknowledged)
        check(self.there() == before, "a backup changed the store")
        for target in targets:
            check(target.exists() or target.name not in acknowledged, "an acknowledged backup")
            if target.exists():
                sound(target)
                found = rows(target, "SELECT count(*) FROM reading")
                check(found == [(len(before),)], "a backup that is not whole")
                target.unlink()

    def recover(self) -> None:
        """A recovery of an early backup: the store is one or the other, and what it replaced is kept."""
        before = self.there()

        def job(acknowledge: Acknowledge) -> None:
            copies.recover(self.store.path, self.backed_up)
            acknowledge("recovered")

        acknowledged = killed(job, self.chance.uniform(0, 0.3))
        self.finished["recover"] += len(acknowledged)
        there = self.there()
        check(there in ((set(),) if acknowledged else (before, set())), "a recovery that is neither old nor new")
        replaced = sorted((self.folder / "kit.db.copies").glob("*-replaced.db"))
        if there != before:
            sound(replaced[-1])
            check(rows(replaced[-1], "SELECT count(*) FROM reading") == [(len(before),)], "what a recovery replaced")
        for file in replaced:
            file.unlink()
        self.taken = there

    def migrate(self) -> None:
        """A store of the first schema opened by this kitlist: it is of the first or of the newest, with all in it."""
        path = self.folder / f"old-{self.round}.db"
        path.write_bytes(gzip.decompress(OLDEST.read_bytes()))
        everything = {kind: rows(path, f"SELECT name FROM {kind}") for kind in ("battery", "rod", "tool", "trip")}

        def job(acknowledge: Acknowledge) -> None:
            Store(path)
            acknowledge("migrated")

        acknowledged = killed(job, self.chance.uniform(0, 0.12))
        self.finished["migrate"] += len(acknowledged)
        sound(path)
        known = [(file.stem,) for file in schema.numbered()]
        had = rows(path, "SELECT name FROM _sqlite_migrations ORDER BY id")
        check(had in ([known] if acknowledged else [known[:1], known]), f"a migration half-way: {had}")
        for kind, names in everything.items():
            check(rows(path, f"SELECT name FROM {kind}") == names, f"a {kind} of an old store")
        check(Store(path).path == path, "an old store that does not open")


def run(times: int, seed: int) -> Counter[str]:
    """Kill so many times, in turn; returns how many of each kind of work were acknowledged."""
    with tempfile.TemporaryDirectory() as name:
        trial = Trial(Path(name), random.Random(seed))
        jobs = (trial.write, trial.import_, trial.migrate, trial.back_up, trial.write, trial.import_, trial.recover)
        for number in range(times):
            trial.round = number
            jobs[number % len(jobs)]()
            sound(trial.store.path)
        check(Store(trial.store.path).path.exists(), "the store does not open")
        return trial.finished


def main() -> None:
    """Read the words and run."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--times", type=int, default=300)
    words.add_argument("--seed", type=int, default=int(time.time()))
    given = words.parse_args()
    print(f"{given.times} kills, seed {given.seed}", flush=True)
    finished = run(given.times, given.seed)
    print("acknowledged: " + ", ".join(f"{n} {what}" for what, n in sorted(finished.items())))
    print("Every acknowledged write is there; integrity_check ok after each kill.")


if __name__ == "__main__":
    main()
