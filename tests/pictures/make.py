"""The README's pictures of the guided start, of the demo's papers and its pocket page: `python tests/pictures/make.py`.

Needs pdftoppm (poppler-utils), chromium-headless-shell, and a typewriter face of the system (fonts-dejavu-core).
"""

from __future__ import annotations

import io
import subprocess
import sys
import tempfile
from datetime import date
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent), str(HERE.parent / "cli")]
GREYS = 16  # enough for the edges of letters, and half the bytes
PAGES_A_ROW = 2
COLUMNS = 72  # of the terminal that is drawn
BEGINNING, END = 42, 42  # its lines that are drawn, side by side
SIZE, LEADING, MARGIN = 13, 17, 14  # pixels
ON = date(2027, 5, 5)  # the demo's day
PHONE_WIDE, PHONE_HIGH = 390, 720
SCREENS = ("body", "#steps figure, #steps svg", "#bags")  # what each picture of the phone begins with
FACE, FACE_TYPED = "DejaVuSansMono.ttf", "DejaVuSansMono-Bold.ttf"


def main() -> None:
    """Draw the guided start as it ran; print the demo; draw its sheet's sides, its card's pages, its pocket page."""
    start().quantize(GREYS).save(HERE / "start.png", optimize=True)
    contact(pocket(), a_row=len(SCREENS)).quantize(GREYS).save(HERE / "pocket.png", optimize=True)
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


def pocket() -> list[Image.Image]:
    """The demo's pocket page on a phone: its head, the drawing among its steps, and its bags."""
    from playwright.sync_api import sync_playwright

    from chromium import launched
    from kitlist.base import resources
    from kitlist.faces.judging import judged
    from kitlist.faces.pocket.build_pocket import build_pocket
    from kitlist.store import start as started
    from kitlist.store.importing import import_toml

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        store = started(Path(folder) / "kit.db")
        import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
        file = Path(folder) / "pocket.html"
        file.write_text(build_pocket(judged(store, None, on=ON), on=ON), encoding="utf-8")
        browser = launched(playwright.chromium)
        page = browser.new_page(viewport={"width": PHONE_WIDE, "height": PHONE_HIGH})
        page.goto(file.as_uri())
        shots = []
        for begins in SCREENS:
            page.locator(begins).first.evaluate("it => it.scrollIntoView()")
            shots.append(Image.open(io.BytesIO(page.screenshot())).convert("L"))
        browser.close()
        return shots


def contact(pages: list[Image.Image], *, a_row: int = PAGES_A_ROW) -> Image.Image:
    """All pages on one picture, so many in a row."""
    wide, high = pages[0].size
    rows = -(-len(pages) // a_row)
    sheet = Image.new("L", (a_row * wide, rows * high), 255)
    for place, page in enumerate(pages):
        sheet.paste(page, (place % a_row * wide, place // a_row * high))
    return sheet


if __name__ == "__main__":
    main()
