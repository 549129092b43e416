"""The README's pictures of the demo's papers: `python tests/pictures/make.py`. Needs pdftoppm (poppler-utils)."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

HERE = Path(__file__).resolve().parent
GREYS = 16  # enough for the edges of letters, and half the bytes


PAGES_A_ROW = 2


def main() -> None:
    """Print the demo and draw its sheet's two sides and its card's pages, 60 dots an inch, in few greys."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "kitlist", "demo", folder], check=True)
        for paper in ("sheet", "card"):
            source, drawn = Path(folder) / f"{paper}.pdf", Path(folder) / paper
            subprocess.run(["pdftoppm", "-r", "60", "-gray", "-png", str(source), str(drawn)], check=True)
            pages = [Image.open(page) for page in sorted(Path(folder).glob(f"{paper}-*.png"))]
            contact(pages).quantize(GREYS).save(HERE / f"{paper}.png", optimize=True)


def contact(pages: list[Image.Image]) -> Image.Image:
    """All pages on one picture, two in a row."""
    wide, high = pages[0].size
    rows = -(-len(pages) // PAGES_A_ROW)
    sheet = Image.new("L", (PAGES_A_ROW * wide, rows * high), 255)
    for place, page in enumerate(pages):
        sheet.paste(page, (place % PAGES_A_ROW * wide, place // PAGES_A_ROW * high))
    return sheet


if __name__ == "__main__":
    main()
