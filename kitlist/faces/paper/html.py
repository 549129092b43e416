"""Documents to HTML. Everything is placed and worded before the template sees it; templates only lay out."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from dataclasses import dataclass, replace

from kitlist.base import clean
from kitlist.base.terms import Paper
from kitlist.faces.paper import card_html, chart, furniture, sheet_fit, trend, typeface
from kitlist.faces.paper.card_document import Card
from kitlist.faces.paper.card_html import place_blocks
from kitlist.faces.paper.document import Marks, Sheet
from kitlist.faces.paper.figure import Drawing
from kitlist.faces.paper.form import Form
from kitlist.faces.paper.labels import LABELS_A_ROW, Label, Labels
from kitlist.faces.paper.stickers import STICKER_HIGH_MM, STICKER_WIDE_MM, STICKERS_A_ROW, Sticker, Stickers
from kitlist.faces.paper.templating import environment, fill

__all__ = ["Document", "fill", "marks_line", "place_blocks", "render", "standalone_svg"]
Document = Sheet | Card | Labels | Stickers | Form

# The fetcher of `pdf` knows these names and no other.
ASSETS = {
    "kitlist-font:regular": typeface.FontAsset(bold=False, second=False),
    "kitlist-font:bold": typeface.FontAsset(bold=True, second=False),
    "kitlist-font:second_regular": typeface.FontAsset(bold=False, second=True),
    "kitlist-font:second_bold": typeface.FontAsset(bold=True, second=True),
}
TRIP_IN_FOOT_MM, CREW_MM = 28.0, 60.0
FORM_TITLE_LINES = 1.7  # two, less what is left empty where words break


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLabel:
    """A label with its number and its place on the paper."""

    it: Label
    number: int
    side: str
    row: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedSticker:
    """A sticker with its place on the paper."""

    it: Sticker
    left_mm: float
    top_mm: float


def render(document: Document, *, paper: Paper = Paper.A4, fonts_inside: bool = True) -> str:
    """The document as one HTML file. `fonts_inside` makes it whole by itself; `pdf` serves the fonts instead."""
    if isinstance(document, Card):
        return card_html.render(
            document, marks_line(document), paper=paper, fonts=_fonts(document, inside=fonts_inside)
        )
    if isinstance(document, Labels):
        return _labels(document, paper=paper, fonts_inside=fonts_inside)
    if isinstance(document, Stickers):
        return _stickers(document, paper=paper, fonts_inside=fonts_inside)
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
        about=sheet_fit.about_line(shown, wide_mm=live_mm),
        planned=planned,
        fact_rows=sheet_fit.fact_rows(bank.facts, wide_mm=live_mm) if bank else (),
        hookup=sheet_fit.drawing(bank.hookup) if bank and bank.hookup else None,
        chart=chart.draw(bank.chart, width_mm=live_mm) if bank and bank.chart else None,
        trends=[trend.small(row.trend) if row.trend else None for row in bank.batteries] if bank else [],
        trip=typeface.cut(shown.trip, width_max_mm=TRIP_IN_FOOT_MM, size_pt=9),
        behind=tuple(name for name in sheet_fit.EXTRAS if name not in planned.beside),
        bags=sheet_fit.in_columns(tuple(part for bag in shown.bags for part in bag.parts()), planned.turn),
        recheck=shown.recheck.parts(),
        whole_gap=sheet_fit.whole_gap,
        whole_see=sheet_fit.whole_see,
        fonts=_fonts(sheet, inside=fonts_inside),
    )


def _labels(labels: Labels, *, paper: Paper, fonts_inside: bool) -> str:
    marks = marks_line(labels)
    a_page = furniture.LABEL_ROWS[paper] * LABELS_A_ROW
    shown = clean.for_paper(labels, has=typeface.has)
    cut = [
        PlacedLabel(
            it=part, number=place + 1, side="right" if place % 2 else "left", row=place % a_page // LABELS_A_ROW
        )
        for place, part in enumerate(part for label in shown.labels for part in label.cut_to_size())
    ]
    pages = [cut[start : start + a_page] for start in range(0, len(cut), a_page)] or [[]]
    return fill(
        "labels.html.jinja",
        labels=shown,
        pages=pages,
        count=len(cut),
        marks=marks,
        furniture=furniture.labels(paper),
        paper=furniture.SIZES[paper],
        corner=furniture.labels_corner(paper),
        fonts=_fonts(labels, inside=fonts_inside),
    )


def _stickers(stickers: Stickers, *, paper: Paper, fonts_inside: bool) -> str:
    shown = clean.for_paper(stickers, has=typeface.has)
    wide_mm, high_mm = furniture.SIZES[paper]
    left_mm, top_mm = (wide_mm - STICKERS_A_ROW * STICKER_WIDE_MM) / 2, 8.0
    a_page = STICKERS_A_ROW * int((high_mm - top_mm - 14.0) // STICKER_HIGH_MM)
    placed = [
        PlacedSticker(
            it=sticker,
            left_mm=round(left_mm + place % STICKERS_A_ROW * STICKER_WIDE_MM, 2),
            top_mm=round(top_mm + place % a_page // STICKERS_A_ROW * STICKER_HIGH_MM, 2),
        )
        for place, sticker in enumerate(shown.stickers)
    ]
    return fill(
        "stickers.html.jinja",
        stickers=shown,
        whose=" · ".join(filter(None, (typeface.cut(shown.kit, width_max_mm=CREW_MM, size_pt=9), shown.bank))),
        pages=[placed[start : start + a_page] for start in range(0, len(placed), a_page)],
        marks=marks_line(stickers),
        paper=(wide_mm, high_mm),
        corner=(left_mm, top_mm),
        fonts=_fonts(stickers, inside=fonts_inside),
    )


def _form(form: Form, *, paper: Paper, fonts_inside: bool) -> str:
    shown = clean.for_paper(form, has=typeface.has)
    live_mm = sheet_fit.LIVE_WIDE_MM[paper]
    left_mm = FORM_TITLE_LINES * live_mm - typeface.width_mm(shown.title, size_pt=22, bold=True)
    return fill(
        "form.html.jinja",
        form=replace(
            shown,
            kit=typeface.cut(shown.kit, width_max_mm=live_mm, size_pt=12),
            trip=typeface.cut(shown.trip, width_max_mm=left_mm, size_pt=22, bold=True),
        ),
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
