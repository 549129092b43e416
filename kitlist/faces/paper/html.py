"""Documents to HTML. Everything is placed and worded before the template sees it; templates only lay out."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from kitlist.base import clean, resources
from kitlist.faces.paper import chart, furniture, hookup, trend, typeface
from kitlist.faces.paper.document import (
    Block,
    Card,
    Caution,
    Drill,
    Face,
    Hookup,
    Lines,
    Marks,
    Paper,
    PolarityBanner,
    RodTable,
    Sheet,
    Step,
)
from kitlist.faces.paper.figure import Drawing
from kitlist.faces.paper.form import Form
from kitlist.faces.paper.labels import LABELS_A_PAGE, LABELS_A_ROW, Label, Labels

if TYPE_CHECKING:
    import jinja2

Document = Sheet | Card | Labels | Form

# The fetcher of `pdf` knows these two names and no other.
ASSETS = {"kitlist-font:regular": False, "kitlist-font:bold": True}
CARD_LIVE_MM = 86.0
SHEET_LIVE_MM = {Paper.A4: 178.0, Paper.LETTER: 183.9}
TRIP_IN_FOOT_MM = 48.0
CREW_GAP_MM = 6.0  # from the crew's name in the head of the first face to what stands beside it
REASONS_SHOWN = 3

_KINDS: dict[type, str] = {
    Step: "step",
    Caution: "caution",
    Hookup: "hookup",
    RodTable: "rods",
    Drill: "drill",
    Lines: "lines",
    PolarityBanner: "polarity",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBlock:
    """A block of a face with what the template needs beside it: its number if a step, its drawing if drawn."""

    it: Block
    id: str
    kind: str
    number: int | None = None
    figure: Drawing | None = None
    ends: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedFace:
    """A face with its number and its corner of the paper."""

    title: str
    number: int
    side: str
    level: str
    blocks: tuple[PlacedBlock, ...]
    whose: str = ""  # the crew, in the head of the first face


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLabel:
    """A label with its number and its place on the paper."""

    it: Label
    number: int
    side: str
    row: int


def render(document: Document, *, paper: Paper = Paper.A4, fonts_inside: bool = True) -> str:
    """The document as one HTML file. `fonts_inside` makes it whole by itself; `pdf` serves the fonts instead."""
    if isinstance(document, Card):
        return _card(document, fonts_inside=fonts_inside)
    if isinstance(document, Labels):
        return _labels(document, fonts_inside=fonts_inside)
    if isinstance(document, Form):
        return _form(document, paper=paper, fonts_inside=fonts_inside)
    return _sheet(document, paper=paper, fonts_inside=fonts_inside)


def place_blocks(face: Face, number: int) -> tuple[PlacedBlock, ...]:
    """The blocks of a face with their ids (`step-2-5` is the fifth step of face 2)."""
    placed = []
    steps = 0
    for position, block in enumerate(face.blocks, start=1):
        kind = _KINDS[type(block)]
        steps += kind == "step"
        placed.append(
            PlacedBlock(
                it=block,
                id=f"{kind}-{number}-{steps if kind == 'step' else position}",
                kind=kind,
                number=steps if kind == "step" else None,
                figure=hookup.draw(block, width_mm=CARD_LIVE_MM) if isinstance(block, Hookup) else None,
                ends=tuple(block.polarity.words.split(", ")) if isinstance(block, PolarityBanner) else (),
            )
        )
    return tuple(placed)


def marks_line(document: Document) -> str:
    """Hash, revision, date and valid-to as they stand at every foot."""
    marks = document.marks
    return f"{document.content_hash()} · rev {marks.revision} · {_dates(marks)}"


def _dates(marks: Marks) -> str:
    until = f"valid to {marks.valid_to.isoformat()}" if marks.valid_to else "valid until the kit changes"
    return f"{marks.printed_on.isoformat()} · {until}"


def _card(card: Card, *, fonts_inside: bool) -> str:
    marks = marks_line(card)
    shown = clean.for_paper(card, has=typeface.has)
    faces = tuple(
        PlacedFace(
            title=face.title,
            number=number,
            side="left" if number % 2 else "right",
            level="upper" if number <= 2 else "lower",
            blocks=place_blocks(face, number),
            whose=_whose(shown, face) if number == 1 else "",
        )
        for number, face in enumerate(shown.faces, start=1)
    )
    return fill(
        "card.html.jinja",
        card=shown,
        faces=faces,
        marks=marks,
        furniture=furniture.card(faces=len(faces)),
        fonts=_fonts(inside=fonts_inside),
    )


def _whose(card: Card, face: Face) -> str:
    """The crew's name, cut behind a word to the room that the title leaves."""
    taken_mm = typeface.width_mm(face.title, size_pt=17, bold=True) + typeface.width_mm("1 of 4", size_pt=12)
    shown = typeface.cut(card.kit, width_max_mm=CARD_LIVE_MM - taken_mm - 2 * CREW_GAP_MM, size_pt=12)
    whole, space, _ = shown.rpartition(" ")
    return f"{whole}…" if shown != card.kit and space else shown


def _sheet(sheet: Sheet, *, paper: Paper, fonts_inside: bool) -> str:
    marks = marks_line(sheet)
    shown = clean.for_paper(sheet, has=typeface.has)
    live_mm = SHEET_LIVE_MM[paper]
    bank = shown.bank
    return fill(
        "sheet.html.jinja",
        sheet=shown,
        marks=marks,
        paper="A4" if paper is Paper.A4 else "letter",
        grave=shown.verdict.word.lower().startswith("not ready"),
        reasons=shown.verdict.reasons[:REASONS_SHOWN],
        reasons_left=len(shown.verdict.reasons[REASONS_SHOWN:]),
        hookup=hookup.draw(bank.hookup, width_mm=live_mm, size_pt=10, abbreviate=True)
        if bank and bank.hookup
        else None,
        chart=chart.draw(bank.chart, width_mm=live_mm) if bank and bank.chart else None,
        trends=[trend.small(row.trend) if row.trend else None for row in bank.batteries] if bank else [],
        trip=typeface.cut(shown.trip, width_max_mm=TRIP_IN_FOOT_MM, size_pt=9),
        bags=tuple(part for bag in shown.bags for part in bag.parts()),
        must_carry=shown.must_carry.parts(),
        recheck=shown.recheck.parts(),
        fonts=_fonts(inside=fonts_inside),
    )


def _labels(labels: Labels, *, fonts_inside: bool) -> str:
    marks = marks_line(labels)
    shown = clean.for_paper(labels, has=typeface.has)
    cut = [
        PlacedLabel(
            it=part, number=place + 1, side="right" if place % 2 else "left", row=place % LABELS_A_PAGE // LABELS_A_ROW
        )
        for place, part in enumerate(part for label in shown.labels for part in label.cut_to_size())
    ]
    pages = [cut[start : start + LABELS_A_PAGE] for start in range(0, len(cut), LABELS_A_PAGE)] or [[]]
    return fill(
        "labels.html.jinja",
        labels=shown,
        pages=pages,
        count=len(cut),
        marks=marks,
        furniture=furniture.labels(),
        fonts=_fonts(inside=fonts_inside),
    )


def _form(form: Form, *, paper: Paper, fonts_inside: bool) -> str:
    return fill(
        "form.html.jinja",
        form=clean.for_paper(form, has=typeface.has),
        marks=marks_line(form),
        paper="A4" if paper is Paper.A4 else "letter",
        fonts=_fonts(inside=fonts_inside),
    )


def _fonts(*, inside: bool) -> Mapping[str, str]:
    """Addresses of the two weights: names for the fetcher, or the files themselves."""
    if not inside:
        return {address.partition(":")[2]: address for address in ASSETS}
    return {
        address.partition(":")[2]: "data:font/ttf;base64,"
        + base64.b64encode(typeface.path(bold=bold).read_bytes()).decode("ascii")
        for address, bold in ASSETS.items()
    }


@cache
def _environment() -> jinja2.Environment:
    import jinja2

    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")),
        undefined=jinja2.StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )


def fill(template: str, **values: Any) -> str:
    """A template of `templates/` with these values, everything escaped."""
    return _environment().get_template(template).render(**values)


def standalone_svg(figure: Drawing) -> str:
    """A drawing as an SVG file of its own, in real millimetres."""
    drawn = str(_environment().get_template("figure.html.jinja").module.svg(figure))  # type: ignore[attr-defined]
    size = f'width="{figure.width:g}mm" height="{figure.height:g}mm"'
    return drawn.replace('role="img"', f'role="img" {size}', 1) + "\n"
