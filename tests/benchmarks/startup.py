"""CPU time of whole processes as ratios, for a person to read: `python tests/benchmarks/startup.py`."""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from kitlist.base import resources

TYPER = ["-c", "import typer"]
BASE = ["-c", "import typer, sqlmodel, sqlite_utils"]


def seconds(words: list[str], *, runs: int = 11) -> float:
    """Median CPU time of a Python process from its start to its end, s."""
    taken = []
    for _ in range(runs):
        begun = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, *words], capture_output=True, check=False)
        ended = resource.getrusage(resource.RUSAGE_CHILDREN)
        taken.append(ended.ru_utime + ended.ru_stime - begun.ru_utime - begun.ru_stime)
    return statistics.median(taken)


def main() -> None:
    """Print each ratio beside the most it should be."""
    with tempfile.TemporaryDirectory() as folder:
        store = str(Path(folder) / "kit.db")
        demo = str(resources.folder("seed_data") / "demo" / "kit.toml")
        for words in (["start"], ["import", demo]):
            subprocess.run([sys.executable, "-m", "kitlist", "--store", store, *words], capture_output=True, check=True)
        own = ["-m", "kitlist", "--store", store]
        ready = [*own, "ready", "--on", "2027-05-05"]
        volts = [*own, "volts", "heron-main", "12.71", "--rested", "12h", "--temp", "4"]
        for name, words, against, most in (
            ("kitlist --help against import typer", ["-m", "kitlist", "--help"], TYPER, 1.6),
            ("kitlist decode against import typer", ["-m", "kitlist", "decode", "E7018-1", "H4R"], TYPER, 1.8),
            ("kitlist ready on the demo against slow imports", ready, BASE, 0.9),
            ("kitlist volts against slow imports", volts, BASE, 1.1),
            ("kitlist bank on the demo against slow imports", [*own, "bank", *ready[5:]], BASE, 1.6),
        ):
            print(f"{name}: {seconds(words) / seconds(against):.2f} (at most {most})")


if __name__ == "__main__":
    main()
