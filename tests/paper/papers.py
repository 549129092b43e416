"""Makes each sample paper once a run and reads it back with pdfplumber, pikepdf and pdftoppm."""

from __future__ import annotations

import io
import os
import subprocess
from functools import cache
from pathlib import Path

import pdfplumber
from PIL import Image

from kitlist.base.terms import Paper
from kitlist.faces.paper import pdf
from kitlist.faces.paper.html import Document
from paper import built, samples

MM = 72 / 25.4
FOLDER: Path | None = None  # where the processes of a parallel run share what they made; see conftest.py
SHEETS = ("DEMO_SHEET", "SMALL_SHEET", "EMPTY_SHEET", "HOSTILE_SHEET", *built.names("SHEET"))
CARDS = ("CARD", *built.names("CARD"))
LABELS = ("LABELS", "HOSTILE_LABELS", *built.names("LABELS"))
FORMS = ("FORM", *built.names("FORM"))


@cache
def document(name: str) -> Document:
    """The sample, or the paper from the real builders, of that name."""
    return built.PAPERS[name]() if name in built.PAPERS else getattr(samples, name)


@cache
def made(name: str, paper: Paper = Paper.A4) -> bytes:
    """The sample as PDF; the processes of one parallel run share what they made."""
    if FOLDER is None:
        return pdf.to_pdf(document(name), paper=paper)
    kept = FOLDER / f"{name}-{paper}.pdf"
    if not kept.exists():
        new = kept.with_suffix(f".{os.getpid()}")
        new.write_bytes(pdf.to_pdf(document(name), paper=paper))
        new.replace(kept)
    return kept.read_bytes()


@cache
def pages(name: str, paper: Paper = Paper.A4) -> list[pdfplumber.page.Page]:
    """The pages of the sample's PDF."""
    return pdfplumber.open(io.BytesIO(made(name, paper))).pages


def chars_of(page: pdfplumber.page.Page) -> list[dict]:
    """The inked characters of a page."""
    return [char for char in page.chars if char["text"].strip()]


@cache
def pictures(name: str, dots_per_inch: int = 72) -> tuple[Image.Image, ...]:
    """The sample's pages as pictures in colour."""
    command = ["pdftoppm", "-r", str(dots_per_inch), "-"]
    pixels = subprocess.run(command, input=made(name), capture_output=True, check=True).stdout
    found, stream = [], io.BytesIO(pixels)
    while stream.tell() < len(pixels):
        found.append(Image.open(stream).convert("RGB"))
        width, height = found[-1].size
        stream.seek(0)
        stream = io.BytesIO(pixels := pixels[len(f"P6\n{width} {height}\n255\n") + 3 * width * height :])
    assert len(found) == len(pages(name))
    return tuple(found)
