"""The README's pictures of the demo's papers: `python tests/pictures/make.py`. Needs pdftoppm (poppler-utils)."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent


def main() -> None:
    """Print the demo and draw the first page of each paper, 90 dots an inch, grey."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "kitlist", "demo", folder], check=True)
        for paper in ("sheet", "card"):
            source = str(Path(folder) / f"{paper}.pdf")
            drawn = ["pdftoppm", "-r", "90", "-gray", "-png", "-singlefile", source, str(HERE / paper)]
            subprocess.run(drawn, check=True)


if __name__ == "__main__":
    main()
