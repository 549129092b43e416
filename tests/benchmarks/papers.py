"""Ratios of printing, for a person to read: `python tests/benchmarks/papers.py`. Nothing is asserted.

Times are of the processor, user and system together, so that other work on the machine counts little.
"""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import date, timedelta
from pathlib import Path

from kitlist.base import resources
from kitlist.faces.cli import press
from kitlist.faces.cli.judgement import judged
from kitlist.faces.paper import html, pdf
from kitlist.faces.paper.build_card import build_card
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.readiness import Readiness
from kitlist.store import Store, changes, start
from kitlist.store.importing import import_toml
from kitlist.store.snapshot import trips

ON = "2027-05-05"
TRIPS = 50
BARE = """
import sys, typer, sqlmodel, sqlite_utils, weasyprint
weasyprint.HTML(filename=sys.argv[1]).write_pdf(sys.argv[2], pdf_variant="pdf/ua-1")
"""


def seconds(words: list[str], *, runs: int = 5) -> float:
    """Median processor time of a Python process, s."""
    taken = []
    for _ in range(runs):
        begun = _children_s()
        subprocess.run([sys.executable, *words], capture_output=True, check=True)
        taken.append(_children_s() - begun)
    return statistics.median(taken)


def _children_s() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def demo_store(folder: Path) -> Store:
    """A store with the demo kit."""
    store = start(folder / "kit.db")
    import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
    return store


def against_bare(store: Store, folder: Path) -> None:
    """A whole `print` process against one that imports the same libraries and lays out the same HTML."""
    readiness = judged(store, None, on=date.fromisoformat(ON))
    documents = {"sheet": build_sheet(readiness), "card": build_card(readiness.kit, readiness.trip, on=readiness.on)}
    for paper, document in documents.items():
        page, out = folder / f"{paper}.html", str(folder / f"{paper}.pdf")
        page.write_text(html.render(document), encoding="utf-8")
        ours = ["-m", "kitlist", "--store", str(store.path), "print", paper, "--on", ON, "--out", out]
        bare_s, ours_s = seconds(["-c", BARE, str(page), out]), seconds(ours)
        print(f"print {paper}: {ours_s:.2f} s, bare {bare_s:.2f} s, {ours_s / bare_s:.2f} (at most 1.3)")


def all_trips(store: Store, folder: Path) -> None:
    """A sheet of many against one alone, imports left out: the same work in one process."""
    trip = trips(store)[0]
    about = {"vehicles": ",".join(trip.vehicles), "bank": ",".join(trip.bank), "coldest": "-6", "hottest": "24"}
    for number in range(2, TRIPS + 1):
        starts_on = trip.starts_on + timedelta(days=number)
        dates = {"starts_on": starts_on.isoformat(), "ends_on": (starts_on + timedelta(days=3)).isoformat()}
        changes.add(store, "trip", {"name": f"Trip {number}"} | dates | about)
    on = date.fromisoformat(ON)
    paths = press.sheet_paths(folder, {t.name: t for t in trips(store)})
    each = [press_seconds(store, name, on, path) for name, path in paths.items()]
    alone_s = statistics.median(press_seconds(store, "Trip 2", on, folder / "alone.pdf") for _ in range(5))
    whole_s = statistics.median(each[1:])
    print(
        f"a sheet of {TRIPS}: {whole_s:.3f} s, one alone without imports {alone_s:.3f} s, {whole_s / alone_s:.2f} (1.1)"
    )
    out = str(folder / "all")
    words = ["-m", "kitlist", "--store", str(store.path), "print", "sheet", "--all-trips", "--on", ON, "--out", out]
    process_s = seconds(words, runs=1)
    print(f"print sheet --all-trips, {TRIPS} trips: {process_s:.1f} s in all, {process_s / TRIPS:.3f} s a sheet")


def press_seconds(store: Store, name: str, on: date, path: Path) -> float:
    """Judging and printing one sheet in a process that has everything imported, s."""
    begun = time.process_time()
    readiness: Readiness = judged(store, name, on=on)
    press.press_sheet(store, readiness, path, size="A4")
    return time.process_time() - begun


def main() -> None:
    """Print each ratio beside the most it should be."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        store = demo_store(folder)
        pdf.to_pdf(build_sheet(judged(store, None, on=date.fromisoformat(ON))))  # imports, fonts
        against_bare(store, folder)
        all_trips(store, folder)


if __name__ == "__main__":
    main()
