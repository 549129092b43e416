"""Kill every writing command before each call that writes, syncs, renames or unlinks: every one a kill point.

    python tests/store/kill_points.py            # all of them
    python tests/store/kill_points.py --times 300

A command runs in a forked process under strace, which kills it as it enters the N-th call. Afterwards the store must be
as before the command or as after it, and whole; a file has its earlier content or the new one, to the last byte; no
paper is half remembered. Then the same command runs again to its end, in this process, which is not the killed one, and
nothing that the killed one left is there. A fork copies what this process holds, so it is one that holds little else.
"""

from __future__ import annotations

import argparse
import gzip
import os
import random
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from kitlist.base import resources
from kitlist.faces.cli import run
from kitlist.store import changes, copies, start
from kitlist.store.importing import import_toml

CALLS = "write,pwrite64,writev,pwritev,fsync,fdatasync,ftruncate,rename,renameat,renameat2,unlink,unlinkat,link,linkat"
SAMPLE = Path(__file__).resolve().parent / "samples" / "0012_fire_answer.db.gz"
_CALL = re.compile(r"(\w+)\((.*)")
_MOMENT = re.compile(rf"{time.strftime('%Y-%m-%d')}[T ]\d\d:\d\d:\d\d\S*")
ON = ("--on", "2027-05-05")
AT = ("--at", "2026-05-04T07:00")


@dataclass(frozen=True)
class Case:
    """A command, on the demo's store or on what `prepare` makes of the folder."""

    name: str
    words: Sequence[str]
    prepare: Callable[[Path], object] = lambda folder: None
    files: tuple[str, ...] = field(default=())  # what it writes besides the store


def _guest(folder: Path) -> None:
    (folder / "guest.toml").write_text(
        '[[vehicle]]\nname = "Gull"\nguest_of = "Bo"\n[[battery]]\nname = "main"\nplace = "start"\n', encoding="utf-8"
    )


def _readings(folder: Path) -> None:
    lines = "".join(f"heron-main,12.5,2025-01-01T{n // 60:02d}:{n % 60:02d}:00\n" for n in range(900))
    (folder / "reading.csv").write_text("battery,volts_v,taken_at\n" + lines, encoding="utf-8")


def _items(folder: Path) -> None:
    lines = "\n".join(f'[[item]]\nname = "thing {n}"\nnote = "{"x" * 100}"' for n in range(40))
    (folder / "items.toml").write_text(lines, encoding="utf-8")


def _no_store(folder: Path) -> None:
    (folder / "kit.db").unlink()


def _old(folder: Path) -> None:
    (folder / "kit.db").write_bytes(gzip.decompress(SAMPLE.read_bytes()))


def _damaged(folder: Path) -> None:
    _backup(folder)
    path = folder / "kit.db"
    path.write_bytes(path.read_bytes()[:20_000])


def _backup(folder: Path) -> None:
    copies.backup(folder / "kit.db", folder / "early.db")
    changes.add(_store(folder), "vehicle", {"name": "after the backup"})


def _edited(folder: Path) -> None:
    changes.edit(_store(folder), "tool", "chocks", {"note": "worn"})


def _exported(folder: Path) -> None:
    from kitlist.store.exporting import export

    export(_store(folder), folder / "kit.json")
    text = (folder / "kit.json").read_text(encoding="utf-8").replace('"condition": "sound"', '"condition": "cracked"')
    (folder / "kit.json").write_text(text, encoding="utf-8")


def _earlier(*names: str) -> Callable[[Path], None]:
    def prepare(folder: Path) -> None:
        for name in names:
            (folder / name).write_text("0123abcd · rev 1 · an earlier paper\n", encoding="utf-8")

    return prepare


def _store(folder: Path) -> Any:
    from kitlist.store import Store

    return Store(folder / "kit.db")


CASES = (
    Case("add", ("vehicle", "add", "Tern")),
    Case("edit", ("battery", "edit", "heron-main", "condition=cracked")),
    Case("rename", ("battery", "edit", "heron-main", "name=Old One")),
    Case("remove", ("tool", "remove", "chocks")),
    Case("volts", ("volts", "heron-main", "12.61", *AT)),
    Case("remove reading", ("reading", "remove", "heron-main", "2027-04-24 07:00")),
    Case("used", ("used", "Dry lake survey", "general rods=1", "fire water=2L", "--linked", "bank")),
    Case("check-off", ("check-off", "--by", "Ada", "chocks=there", "shovel=damaged")),
    Case("undo", ("undo",), _edited),
    Case("start", ("start", "--starter"), _no_store),
    Case("import readings", ("import", "reading.csv"), _readings),
    Case("import things", ("import", "items.toml"), _items),
    Case("update", ("import", "kit.json", "--update", "--yes"), _exported),
    Case("join", ("import", "guest.toml", "--trip", "Dry"), _guest),
    Case("bring forward", ("vehicle", "list"), _old),
    Case("sheet", ("print", "sheet", *ON, "--out", "sheet.txt"), _earlier("sheet.txt"), ("sheet.txt",)),
    Case("card", ("print", "card", *ON, "--out", "card.html"), _earlier("card.html"), ("card.html",)),
    Case("form", ("print", "form", *ON, "--out", "form.txt"), files=("form.txt",)),
    Case("chart", ("bank", *ON, "--chart", "chart.svg"), files=("chart.svg",)),
    Case("export", ("export", "kit.json", "--replace"), files=("kit.json",)),
    Case("export folder", ("export", "sheets", "--replace"), files=("sheets/battery.csv", "sheets/reading.csv")),
    Case("backup", ("backup", "copy.db", "--replace"), files=()),
    Case("recover", ("recover", "early.db"), _backup),
    Case("recover damaged", ("recover", "early.db"), _damaged),
)


def check(true: bool, what: str) -> None:
    """Raise where something was lost, broken or left."""
    if not true:
        raise SystemExit(f"BROKEN: {what}")


class Yard:
    """Where cases run: a demo's store, made once, and a folder for each run."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.made = folder / "demo.db"
        import_toml(start(self.made), resources.folder("seed_data") / "demo" / "kit.toml")
        self.runs = 0

    @contextmanager
    def run_of(self, case: Case) -> Iterator[Path]:
        """A folder of its own with the store, prepared."""
        self.runs += 1
        folder = self.folder / f"run{self.runs}"
        folder.mkdir()
        shutil.copy(self.made, folder / "kit.db")
        case.prepare(folder)
        try:
            yield folder
        finally:
            shutil.rmtree(folder)

    def points(self, case: Case) -> list[tuple[str, int]]:
        """Each call of a whole run that touches the folder: its name, and the how-manieth of that name it is."""
        with self.run_of(case) as folder:
            trace = self.folder / "trace.txt"
            code = _traced(case, folder, ["-y", "-o", str(trace)])
            check(code == 0, f"{case.name} does not work: {code}")
            seen: Counter[str] = Counter()
            found = []
            for line in trace.read_text(encoding="utf-8", errors="replace").splitlines():
                if call := _CALL.match(line):
                    seen[call[1]] += 1
                    if str(folder) in call[2] or f".{folder.name}" in call[2] or '"' in call[2].split(",")[0]:
                        found.append((call[1], seen[call[1]]))
            return found

    def kill(self, case: Case, before: dict[str, Any], after: dict[str, Any], point: tuple[str, int]) -> bool:
        """Kill a case at one point and hold what is left to what must be; False where it ended before that."""
        name, number = point
        with self.run_of(case) as folder:
            code = _traced(case, folder, ["-o", "/dev/null", "-e", f"inject={name}:signal=KILL:when={number}"])
            what = f"{case.name}, killed at {name} number {number}"
            now = seen_in(folder, case)
            for part, content in now.items():
                check(content in (before[part], after[part]), f"{what}: {part} is neither as before nor as after")
            check(code != 0 or now == after, f"{what}: it ended well and did not do all")
            if now["store"] == before["store"] or case.name == "bring forward":
                again = _whole(case, folder)
                check(
                    again in (0, 2, 1) if case.name == "start" else again == 0,
                    f"{what}: it does not run again: {again}",
                )
                if again == 0:
                    check(seen_in(folder, case)["store"] == after["store"], f"{what}: done again it is not as after")
                    left = [p for p in folder.rglob(".*") if p.name.startswith(".")]
                    # a place killed before its process stood in it is empty, and goes after an hour
                    left += [p for p in folder.rglob("0*.db") if 0 < p.stat().st_size < 100]
                    check(left == [], f"{what}: it leaves {[p.name for p in left]}")
            return code != 0


def seen_in(folder: Path, case: Case) -> dict[str, Any]:
    """What is in the folder: the store's rows and every file of the case, or None for what is not there."""
    found: dict[str, Any] = {"store": rows_of(folder / "kit.db")}
    for name in case.files:
        path = folder / name
        found[name] = path.read_bytes() if path.exists() else None
    for name in ("copy.db",) if case.name == "backup" else ():
        found[name] = rows_of(folder / name)
    return found


def rows_of(path: Path) -> Any:
    """Every row but those that hold the moment of the run; None for no store, "damaged" for a damaged one."""
    if not path.exists() or path.stat().st_size == 0:
        return None
    try:
        with closing(sqlite3.connect(path)) as connection:
            if connection.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
                return "damaged"
            check(connection.execute("PRAGMA foreign_key_check").fetchall() == [], "references that lead nowhere")
            query = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"
            tables = [name for (name,) in connection.execute(query).fetchall()]
            found = {t: [_timeless(row) for row in connection.execute(f"SELECT * FROM {t}")] for t in tables}
            return {table: rows for table, rows in found.items() if rows} or None
    except sqlite3.DatabaseError:
        return "damaged"


def _timeless(row: tuple[Any, ...]) -> tuple[Any, ...]:
    """A row without the moment of the run, which is another one each time."""
    return tuple(_MOMENT.sub("", value) if isinstance(value, str) else value for value in row)


def _whole(case: Case, folder: Path) -> int:
    """Run a case to its end in this process; its exit code."""
    here = Path.cwd()
    os.chdir(folder)
    try:
        with open(os.devnull, "w", encoding="utf-8") as nothing, redirect_stdout(nothing), redirect_stderr(nothing):
            return run(["--store", "kit.db", *case.words])
    finally:
        os.chdir(here)


def _traced(case: Case, folder: Path, words: list[str]) -> int:
    """Run a case in a forked process under strace with `words`; its exit code, or that of the signal."""
    child = os.fork()
    if child == 0:
        try:
            os.chdir(folder)
            nothing = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nothing, stream)
            os.kill(os.getpid(), signal.SIGSTOP)
            code = run(["--store", "kit.db", *case.words])
        except BaseException:
            code = 99
        os._exit(code)
    os.waitpid(child, os.WUNTRACED)
    tracer = subprocess.Popen(
        ["strace", "-q", "-p", str(child), "-e", f"trace={CALLS}", *words], stderr=subprocess.PIPE, text=True
    )
    _wait_until_traced(child, tracer)
    os.kill(child, signal.SIGCONT)
    _, status = os.waitpid(child, 0)
    tracer.communicate()
    return os.waitstatus_to_exitcode(status)


def _wait_until_traced(child: int, tracer: subprocess.Popen[str]) -> None:
    for _ in range(2000):
        status = Path(f"/proc/{child}/status").read_text(encoding="ascii")
        if "TracerPid:\t0\n" not in status:
            return
        if tracer.poll() is not None:
            raise SystemExit(f"BROKEN: strace: {tracer.communicate()[1]}")
        time.sleep(0.002)
    raise SystemExit("BROKEN: strace does not attach")


def works() -> bool:
    """Whether this system has strace and lets it trace."""
    if shutil.which("strace") is None:
        return False
    return subprocess.run(["strace", "-o", "/dev/null", "true"], capture_output=True, check=False).returncode == 0


Point = tuple[Case, dict[str, Any], dict[str, Any], tuple[str, int]]
"""A case, what is there before and after it, and the call at which it is killed."""


def _of_every_kind(every: Sequence[Point], times: int, chance: random.Random) -> list[Point]:
    """The first and the last call of every name in every case, and others by chance up to so many.

    Of a case that judges or draws, which takes long, no others.
    """
    kinds: dict[tuple[str, str], list[Point]] = {}
    for point in every:
        kinds.setdefault((point[0].name, point[3][0]), []).append(point)
    chosen = [one for found in kinds.values() for one in (found[0], *found[1:][-1:])]
    quick = [one for found in kinds.values() for one in found[1:-1] if not one[0].files]
    return chosen + chance.sample(quick, max(0, min(len(quick), times - len(chosen))))


def run_points(times: int | None, seed: int, folder: Path, cases: Sequence[Case]) -> tuple[Counter[str], int]:
    """Kill these cases at so many points, or at all; returns how many by case, and how many there are."""
    yard = Yard(folder)
    every: list[Point] = []
    for case in cases:
        with yard.run_of(case) as place:
            before = seen_in(place, case)
            check(_whole(case, place) == 0, f"{case.name} does not work")  # what it loads is there in every fork
            after = seen_in(place, case)
        every += [(case, before, after, point) for point in yard.points(case)]
    chosen = every if times is None else _of_every_kind(every, times, random.Random(seed))
    done: Counter[str] = Counter()
    for case, before, after, point in chosen:
        yard.kill(case, before, after, point)
        done[case.name] += 1
    return done, len(every)


def main() -> None:
    """Read the words and run."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--times", type=int, default=None)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--share", type=int, nargs=2, default=(0, 1), metavar=("K", "N"), help="every N-th case from K")
    given = words.parse_args()
    begun = time.monotonic()
    first, step = given.share
    with tempfile.TemporaryDirectory() as name:
        done, every = run_points(given.times, given.seed, Path(name), CASES[first::step])
    print(", ".join(f"{count} {what}" for what, count in done.items()), f"in {time.monotonic() - begun:.0f} s")
    print(f"killed at {done.total()} of {every} points")


if __name__ == "__main__":
    main()
