"""The README's pictures of the guided start and of the demo's papers: `python tests/pictures/make.py`.

Needs pdftoppm (poppler-utils) and a typewriter face of the system (fonts-dejavu-core).
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent), str(HERE.parent / "cli")]
GREYS = 16  # enough for the edges of letters, and half the bytes
PAGES_A_ROW = 2
COLUMNS = 72  # of the terminal that is drawn
BEGINNING, END = 42, 42  # its lines that are drawn, side by side
SIZE, LEADING, MARGIN = 13, 17, 14  # pixels
FACE, FACE_TYPED = "DejaVuSansMono.ttf", "DejaVuSansMono-Bold.ttf"


def main() -> None:
    """Draw the guided start as it ran; print the demo and draw its sheet's two sides and its card's pages."""
    start().quantize(GREYS).save(HERE / "start.png", optimize=True)
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "kitlist", "demo", folder], check=True)
        for paper in ("sheet", "card"):
            source, drawn = Path(folder) / f"{paper}.pdf", Path(folder) / paper
            subprocess.run(["pdftoppm", "-r", "60", "-gray", "-png", str(source), str(drawn)], check=True)
            pages = [Image.open(page) for page in sorted(Path(folder).glob(f"{paper}-*.png"))]
            contact(pages).quantize(GREYS).save(HERE / f"{paper}.png", optimize=True)


def start() -> Image.Image:
    """The beginning and the end of a real run of the guided start, what was typed in bold."""
    from first_hour import screen

    with tempfile.TemporaryDirectory() as folder:
        lines = screen(Path(folder), columns=COLUMNS).splitlines()
    columns = [["$ \x02kitlist start\x03", *lines[: BEGINNING - 2], "..."], ["...", *lines[-END + 1 :]]]
    plain, typed = (ImageFont.truetype(face, SIZE) for face in (FACE, FACE_TYPED))
    advance = round(plain.getlength("0"))
    wide = 2 * MARGIN + advance * (COLUMNS + 5)  # an answer may run over the edge
    picture = Image.new("L", (2 * wide, 2 * MARGIN + LEADING * max(BEGINNING, END)), 255)
    drawing = ImageDraw.Draw(picture)
    for place, column in enumerate(columns):
        for row, line in enumerate(column):
            at, face = place * wide + MARGIN, plain
            for character in line:
                if character in "\x02\x03":
                    face = typed if character == "\x02" else plain
                    continue
                drawing.text((at, MARGIN + row * LEADING), character, fill=0, font=face)
                at += advance
    drawing.line([(wide, MARGIN), (wide, picture.height - MARGIN)], fill=160)
    return picture


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
