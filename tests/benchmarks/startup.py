"""Ratios of whole processes, for a person to read: `python tests/benchmarks/startup.py`. Nothing is asserted."""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from kitlist.base import resources

TYPER = ["-c", "import typer"]
BASE = ["-c", "import typer, sqlmodel, sqlite_utils"]


def seconds(words: list[str], *, runs: int = 11) -> float:
    """Median time of a Python process, s."""
    taken = []
    for _ in range(runs):
        begun = time.perf_counter()
        subprocess.run([sys.executable, *words], capture_output=True, check=False)
        taken.append(time.perf_counter() - begun)
    return statistics.median(taken)


def main() -> None:
    """Print each ratio beside the most it should be."""
    with tempfile.TemporaryDirectory() as folder:
        store = str(Path(folder) / "kit.db")
        demo = str(resources.folder("seed_data") / "demo" / "kit.toml")
        for words in (["start"], ["import", demo]):
            subprocess.run([sys.executable, "-m", "kitlist", "--store", store, *words], capture_output=True, check=True)
        ready = ["-m", "kitlist", "--store", store, "ready", "--on", "2027-05-05"]
        for name, words, against, most in (
            ("kitlist --help against import typer", ["-m", "kitlist", "--help"], TYPER, 2.5),
            ("kitlist decode against import typer", ["-m", "kitlist", "decode", "E7018-1", "H4R"], TYPER, 2.5),
            ("kitlist ready on the demo against its imports", ready, BASE, 1.5),
            ("kitlist bank on the demo against its imports", [*ready[:4], "bank", *ready[5:]], BASE, 1.6),
        ):
            print(f"{name}: {seconds(words) / seconds(against):.2f} (at most {most})")


if __name__ == "__main__":
    main()
