"""The README's pictures of the demo's papers: `python tests/pictures/make.py`. Needs pdftoppm (poppler-utils)."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

HERE = Path(__file__).resolve().parent
GREYS = 16  # enough for the edges of letters, and half the bytes


def main() -> None:
    """Print the demo and draw the first page of each paper, 90 dots an inch, in few greys."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "kitlist", "demo", folder], check=True)
        for paper in ("sheet", "card"):
            source, drawn = Path(folder) / f"{paper}.pdf", Path(folder) / paper
            command = ["pdftoppm", "-r", "90", "-gray", "-png", "-singlefile", str(source), str(drawn)]
            subprocess.run(command, check=True)
            Image.open(drawn.with_suffix(".png")).quantize(GREYS).save(HERE / f"{paper}.png", optimize=True)


if __name__ == "__main__":
    main()
