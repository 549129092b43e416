"""Makes each sample paper once a run and reads it back with pdfplumber, pikepdf and pdftoppm."""

from __future__ import annotations

import io
import os
import pickle
import subprocess
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any
from unittest import mock

import pdfplumber
from PIL import Image

from kitlist.base.terms import Paper
from kitlist.faces.paper import pdf
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.card_document import Card
from kitlist.faces.paper.html import Document
from kitlist.faces.paper.overflow import PX_A_MM
from paper import awkward, built, samples

MM = 72 / 25.4
FOLDER: Path | None = None  # where the processes of a parallel run share what they made; see conftest.py
SHEETS = ("DEMO_SHEET", "SMALL_SHEET", "EMPTY_SHEET", "HOSTILE_SHEET", *built.names("SHEET"))
CARDS = ("CARD", *built.names("CARD"))
LABELS = ("LABELS", "HOSTILE_LABELS", *built.names("LABELS"))
FORMS = ("FORM", *built.names("FORM"))
SHEETS_OF_KITS = {
    "demo": "BUILT_DEMO_SHEET", "empty": "BUILT_EMPTY_SHEET", "crowded": "BUILT_CROWDED_SHEET",
    "hostile": "BUILT_LONG_SHEET",
}  # fmt: skip


@cache
def document(name: str) -> Document:
    """The sample, the paper from the real builders, or the sheet of the awkward kit of that name."""
    if name in awkward.KITS:
        return build_sheet(awkward.KITS[name]())
    return built.PAPERS[name]() if name in built.PAPERS else getattr(samples, name)


def of_kit(name: str) -> str:
    """What the sheet of an awkward kit is called here, so that none is laid out twice."""
    return SHEETS_OF_KITS.get(name, name)


def laid_out(paper: Document, *, on: Paper, look: Callable[[Sequence[Any]], None]) -> bytes:
    """The PDF as it is printed; `look` sees its pages once they are laid out, and may end it there by raising."""
    make = pdf.make

    def looking(page: str, *, identifier: bytes, check: Callable[[Sequence[Any]], None]) -> bytes:
        def both(pages: Sequence[Any]) -> None:
            check(pages)
            look(pages)

        return make(page, identifier=identifier, check=both)

    with mock.patch.object(pdf, "make", looking):
        return pdf.to_pdf(paper, paper=on)


class _Seen(Exception):
    """Enough was seen."""


def pages_taken(paper: Document, *, on: Paper = Paper.A4) -> int:
    """How many pages it takes; laid out and checked as it is printed, and not drawn. Raises PrintError."""
    taken = []

    def count(pages: Sequence[Any]) -> None:
        taken.append(len(pages))
        raise _Seen

    try:
        laid_out(paper, on=on, look=count)
    except _Seen:
        return taken[0]
    raise AssertionError("it was not laid out")


def pooled(cards: Sequence[Card]) -> Card:
    """One card of every unlike face of several: each is laid out by itself, so that one layout checks them all."""
    unlike = {(face.title, face.when, face.blocks): face for card in cards for face in card.faces}
    return replace(cards[0], faces=tuple(unlike.values()))


@dataclass(frozen=True, slots=True)
class Ink:
    """A word, a rule or a drawing of a page as it is laid out: where it is, mm, and its text, "" for the others."""

    left_mm: float
    right_mm: float
    bottom_mm: float
    text: str


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A page as it is laid out, whatever is drawn from it."""

    wide_mm: float
    high_mm: float
    anchors: dict[str, float]  # how far below its edge each marked place of it is, mm
    inked: tuple[Ink, ...]


def _page(page: Any) -> LaidOut:
    box = page._page_box  # the only place where a laid-out word can be asked where it is
    return LaidOut(
        wide_mm=page.width / PX_A_MM,
        high_mm=page.height / PX_A_MM,
        anchors={key: at[1] / PX_A_MM for key, at in page.anchors.items()},
        inked=tuple(_ink(box.descendants())),
    )


def _ink(found: Iterable[Any]) -> Iterator[Ink]:
    from weasyprint.formatting_structure.boxes import ReplacedBox, TextBox

    for box in found:
        text = box.text.strip() if isinstance(box, TextBox) else ""
        if text or isinstance(box, ReplacedBox) or getattr(box, "border_bottom_width", 0):
            right, bottom = box.position_x + box.border_width(), box.position_y + box.border_height()
            yield Ink(box.position_x / PX_A_MM, right / PX_A_MM, bottom / PX_A_MM, text)


@cache
def made(name: str, paper: Paper = Paper.A4) -> bytes:
    """The sample as PDF; the processes of one parallel run share what they made."""
    return _made(name, paper, drawn=True)[0]


@cache
def laid_out_pages(name: str, paper: Paper = Paper.A4) -> tuple[LaidOut, ...]:
    """Its pages as they are laid out; what no test reads as a PDF is not drawn."""
    return pickle.loads(_made(name, paper, drawn=name in built.PAPERS)[1])


@cache
def _made(name: str, paper: Paper, *, drawn: bool) -> tuple[bytes, bytes]:
    kept = FOLDER / f"{name}-{paper}-{drawn}.pdf" if FOLDER else None
    if kept is not None and kept.exists():
        return kept.read_bytes(), kept.with_suffix(".laid").read_bytes()
    found: list[LaidOut] = []

    def look(pages: Sequence[Any]) -> None:
        found.extend(map(_page, pages))
        if not drawn:
            raise _Seen

    bytes_made = b""
    with suppress(_Seen):
        bytes_made = laid_out(document(name), on=paper, look=look)
    places = pickle.dumps(tuple(found))
    if kept is not None:
        for file, content in ((kept.with_suffix(".laid"), places), (kept, bytes_made)):
            new = file.with_suffix(f"{file.suffix}.{os.getpid()}")
            new.write_bytes(content)
            new.replace(file)
    return bytes_made, places


@cache
def pages(name: str, paper: Paper = Paper.A4) -> list[pdfplumber.page.Page]:
    """The pages of the sample's PDF."""
    return pdfplumber.open(io.BytesIO(made(name, paper))).pages


def chars_of(page: pdfplumber.page.Page) -> list[dict]:
    """The inked characters of a page."""
    return [char for char in page.chars if char["text"].strip()]


DOTS_PER_INCH = 110


@cache
def pictures(name: str) -> tuple[Image.Image, ...]:
    """The sample's pages as pictures in colour."""
    command = ["pdftoppm", "-r", str(DOTS_PER_INCH), "-"]
    pixels = subprocess.run(command, input=made(name), capture_output=True, check=True).stdout
    found, start = [], 0
    while start < len(pixels):
        picture = Image.open(io.BytesIO(pixels[start:])).convert("RGB")
        width, height = picture.size
        start += len(f"P6\n{width} {height}\n255\n") + 3 * width * height
        found.append(picture)
    assert len(found) == len(pages(name))
    return tuple(found)
