"""Ratios of the store at a club's size, for a person to read: `python tests/benchmarks/store.py`. Nothing is asserted.

Times are processor times of whole processes, the least of several: other work on the machine disturbs them little.
"""

from __future__ import annotations

import csv
import os
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

import club

BASE = ["-c", "import typer, sqlmodel, sqlite_utils"]
INSERT = """
import csv, sys
from sqlite_utils import Database
db = Database(sys.argv[1])
db.execute("PRAGMA foreign_keys = ON")
numbers = ("volts_v", "rested_h", "battery_temp_c", "meter_accuracy_ratio")
with open(sys.argv[2], newline="") as file:
    rows = [row | {n: float(row[n]) for n in numbers} for row in csv.DictReader(file)]
for row in rows:
    row |= {"charging": 0, "quick_load": 0, "note": "", "taken_at": row["taken_at"].replace("T", " ") + ".000000"}
with db.atomic():
    db["reading"].insert_all(rows)
"""


def run(words: list[str]) -> tuple[float, float]:
    """Processor seconds and the greatest memory, MB, of one Python process."""
    quiet = subprocess.DEVNULL
    with subprocess.Popen([sys.executable, *words], stdout=quiet, stderr=quiet, env=os.environ | COMPILED) as process:
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, 10, 11):
        raise SystemExit(f"python {' '.join(words)[:200]}: exit code {process.returncode}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def least(words: list[str], *, runs: int = 7) -> tuple[float, float]:
    """The least processor seconds and memory of several runs, after one that nobody counts."""
    run(words)
    found = [run(words) for _ in range(runs)]
    return min(seconds for seconds, _ in found), min(memory for _, memory in found)


def kitlist(store: Path, *words: str) -> list[str]:
    """The words of one command."""
    return ["-m", "kitlist", "--store", str(store), *words]


def told(what: str, ratio: float, most: float) -> None:
    """Print one ratio beside the most it should be."""
    print(f"{what}: {ratio:.2f} (at most {most})", flush=True)


def emptied(store: Path) -> Path:
    """The store without its readings, as it was before an import."""
    from sqlite_utils import Database

    database = Database(str(store))
    with database.atomic():
        database["reading"].delete_where()
    database.vacuum()
    database.close()
    return store


def main() -> None:
    """Print each ratio beside the most it should be."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        COMPILED["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")  # as installed: compiled once
        demo = club.demo(folder / "demo.db").path
        judged, _ = least(kitlist(demo, "ready", "--on", "2027-05-05"))
        told("ready on the demo against its imports", judged / least(BASE)[0], 1.5)

        large = club.club(folder / "club.db")
        names = club.batteries_of(large)
        few = club.readings_csv(folder / "few.csv", names, 10_000)
        many = club.readings_csv(folder / "many.csv", names)
        memory = {}
        seconds = {}
        for file in (few, many):
            taken = []
            for _ in range(3):
                emptied(large.path)
                taken.append(run(kitlist(large.path, "import", str(file), "--kind", "reading")))
            seconds[file] = min(s for s, _ in taken)
            memory[file] = min(m for _, m in taken)
        inserted = []
        for _ in range(3):
            emptied(large.path)
            inserted.append(run(["-c", INSERT, str(large.path), str(many)])[0])
        told("import of 100,000 readings against sqlite-utils' own insert", seconds[many] / min(inserted), 2)
        told("memory of that import against one of 10,000", memory[many] / memory[few], 1.2)
        emptied(large.path)
        run(kitlist(large.path, "import", str(many), "--kind", "reading"))
        with many.open(newline="") as file:
            assert sum(1 for _ in csv.reader(file)) - 1 == club.READINGS
        clubs, most = least(kitlist(large.path, "ready", "Dry", "--on", "2027-05-05"))
        told("ready on the club's store against the demo's", clubs / judged, 1.5)
        told("memory of it against the demo's", most / least(kitlist(demo, "ready", "--on", "2027-05-05"))[1], 1.2)
        for words in (["export", str(folder / "kit.json"), "--replace"], ["backup", str(folder / "b.db"), "--replace"]):
            spent, held = run(kitlist(large.path, *words))
            print(f"{words[0]} of the club's store: {spent / judged:.1f} times ready on the demo, {held:.0f} MB")


COMPILED = {"PYTHONDONTWRITEBYTECODE": ""}

if __name__ == "__main__":
    main()
