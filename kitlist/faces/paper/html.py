"""Documents to HTML. Everything is placed and worded before the template sees it; templates only lay out."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from dataclasses import dataclass

from kitlist.base import clean
from kitlist.base.terms import Paper
from kitlist.faces.paper import card_html, chart, furniture, sheet_fit, trend, typeface
from kitlist.faces.paper.card_document import Card
from kitlist.faces.paper.card_html import place_blocks
from kitlist.faces.paper.document import Marks, Sheet
from kitlist.faces.paper.figure import Drawing
from kitlist.faces.paper.form import Form
from kitlist.faces.paper.labels import LABELS_A_PAGE, LABELS_A_ROW, Label, Labels
from kitlist.faces.paper.templating import environment, fill

__all__ = ["Document", "fill", "marks_line", "place_blocks", "render", "standalone_svg"]
Document = Sheet | Card | Labels | Form

# The fetcher of `pdf` knows these names and no other.
ASSETS = {
    "kitlist-font:regular": typeface.FontAsset(bold=False, second=False),
    "kitlist-font:bold": typeface.FontAsset(bold=True, second=False),
    "kitlist-font:second_regular": typeface.FontAsset(bold=False, second=True),
    "kitlist-font:second_bold": typeface.FontAsset(bold=True, second=True),
}
TRIP_IN_FOOT_MM = 28.0


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
        return card_html.render(
            document, marks_line(document), paper=paper, fonts=_fonts(document, inside=fonts_inside)
        )
    if isinstance(document, Labels):
        return _labels(document, fonts_inside=fonts_inside)
    if isinstance(document, Form):
        return _form(document, paper=paper, fonts_inside=fonts_inside)
    return _sheet(document, paper=paper, fonts_inside=fonts_inside)


def marks_line(document: Document) -> str:
    """Hash, revision, date and valid-to as they stand at every foot."""
    marks = document.marks
    return f"{document.content_hash()} · rev {marks.revision} · {_dates(marks)}"


def _dates(marks: Marks) -> str:
    until = f"valid to {marks.valid_to.isoformat()}" if marks.valid_to else "until kit changes"
    return f"{marks.printed_on.isoformat()} · {until}"


def _sheet(sheet: Sheet, *, paper: Paper, fonts_inside: bool) -> str:
    marks = marks_line(sheet)
    shown = clean.for_paper(sheet, has=typeface.has)
    live_mm = sheet_fit.LIVE_WIDE_MM[paper]
    bank = shown.bank
    planned = sheet_fit.plan(shown, paper=paper)
    return fill(
        "sheet.html.jinja",
        sheet=shown,
        marks=marks,
        paper="A4" if paper is Paper.A4 else "letter",
        grave=shown.verdict.word.lower().startswith("not ready"),
        about=sheet_fit.about_line(shown),
        planned=planned,
        fact_rows=sheet_fit.fact_rows(bank.facts, wide_mm=live_mm) if bank else (),
        hookup=sheet_fit.drawing(bank.hookup) if bank and bank.hookup else None,
        chart=chart.draw(bank.chart, width_mm=live_mm) if bank and bank.chart else None,
        trends=[trend.small(row.trend) if row.trend else None for row in bank.batteries] if bank else [],
        trip=typeface.cut(shown.trip, width_max_mm=TRIP_IN_FOOT_MM, size_pt=9),
        behind=tuple(name for name in sheet_fit.EXTRAS if name not in planned.beside),
        bags=tuple(part for bag in shown.bags for part in bag.parts()),
        recheck=shown.recheck.parts(),
        fonts=_fonts(sheet, inside=fonts_inside),
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
        fonts=_fonts(labels, inside=fonts_inside),
    )


def _form(form: Form, *, paper: Paper, fonts_inside: bool) -> str:
    return fill(
        "form.html.jinja",
        form=clean.for_paper(form, has=typeface.has),
        marks=marks_line(form),
        paper="A4" if paper is Paper.A4 else "letter",
        fonts=_fonts(form, inside=fonts_inside),
    )


def _fonts(document: Document, *, inside: bool) -> Mapping[str, str]:
    """Addresses of the weights, of the second family only where a text needs it: names, or the files themselves."""
    second = typeface.wants_second(repr(document))
    wanted = {address: asset for address, asset in ASSETS.items() if second or not asset.second}
    if not inside:
        return {address.partition(":")[2]: address for address in wanted}
    return {
        address.partition(":")[2]: "data:font/ttf;base64,"
        + base64.b64encode(typeface.path(bold=asset.bold, second=asset.second).read_bytes()).decode("ascii")
        for address, asset in wanted.items()
    }


def standalone_svg(figure: Drawing) -> str:
    """A drawing as an SVG file of its own, in real millimetres."""
    drawn = str(environment().get_template("figure.html.jinja").module.svg(figure))  # type: ignore[attr-defined]
    size = f'width="{figure.width:g}mm" height="{figure.height:g}mm"'
    return drawn.replace('role="img"', f'role="img" {size}', 1) + "\n"
