"""The card as HTML: faces of 97 × 134 mm, four to a side of paper, each with its head, its blocks and its foot."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kitlist.base import clean
from kitlist.base.terms import Paper
from kitlist.faces.paper import card_split, chart, furniture, hookup, typeface
from kitlist.faces.paper.card_document import (
    Bars,
    Blanks,
    Block,
    Card,
    Face,
    Grid,
    IfThenLine,
    Lines,
    PolarityBanner,
    Step,
)
from kitlist.faces.paper.document import Caution, Hookup
from kitlist.faces.paper.figure import Drawing
from kitlist.faces.paper.templating import fill

FACES_A_PAGE, FACES_A_ROW = 4, 2
_KINDS: dict[type, str] = {
    Step: "step",
    Caution: "caution",
    Hookup: "hookup",
    Lines: "lines",
    PolarityBanner: "polarity",
    IfThenLine: "trouble",
    Grid: "grid",
    Bars: "bars",
    Blanks: "blanks",
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
    """A face with its place among all, and on which half of a leaf it comes."""

    it: Face
    place: int
    side: str
    level: str
    blocks: tuple[PlacedBlock, ...]


def render(card: Card, marks: str, *, paper: Paper, fonts: Mapping[str, str]) -> str:
    """The card as one HTML file."""
    shown = clean.for_paper(card, has=typeface.has)
    placed = [_placed(face, place) for place, face in enumerate(shown.faces, start=1)]
    pages = [placed[start : start + FACES_A_PAGE] for start in range(0, len(placed), FACES_A_PAGE)]
    left_mm, top_mm = furniture.corner(paper)
    return fill(
        "card.html.jinja",
        card=shown,
        whose=_whose(shown),
        pages=pages,
        count=len(placed),
        marks=marks,
        paper=furniture.SIZES[paper],
        columns=(left_mm, left_mm + furniture.FACE_WIDE),
        rows=(top_mm, top_mm + furniture.FACE_HIGH),
        furniture=[furniture.card(faces=len(page), paper=paper) for page in pages],
        fonts=fonts,
    )


def place_blocks(face: Face, place: int) -> tuple[PlacedBlock, ...]:
    """The blocks of a face with their ids (`step-2-5` is the fifth step of the second face); steps count through 2b."""
    placed = []
    steps = face.first_step - 1
    for position, block in enumerate(face.blocks, start=1):
        kind = _KINDS[type(block)]
        steps += kind == "step"
        placed.append(
            PlacedBlock(
                it=block,
                id=f"{kind}-{place}-{position}",
                kind=kind,
                number=steps if kind == "step" else None,
                figure=_figure(block),
                ends=tuple(block.polarity.words.split(", ")) if isinstance(block, PolarityBanner) else (),
            )
        )
    return tuple(placed)


def _figure(block: Block) -> Drawing | None:
    if isinstance(block, Hookup):
        return hookup.draw(block, width_mm=card_split.LIVE_WIDE_MM)
    if isinstance(block, Bars):
        return chart.draw(block.chart, width_mm=card_split.LIVE_WIDE_MM, size_pt=card_split.SMALL_PT)
    return None


def _placed(face: Face, place: int) -> PlacedFace:
    spot = (place - 1) % FACES_A_PAGE
    return PlacedFace(
        it=face,
        place=place,
        side="right" if spot % FACES_A_ROW else "left",
        level="lower" if spot // FACES_A_ROW else "upper",
        blocks=place_blocks(face, place),
    )


def _whose(card: Card) -> str:
    """Crew and bank in words, the crew's name cut to the room that the bank leaves."""
    room_mm = card_split.LIVE_WIDE_MM - typeface.width_mm(f" · {card.bank}", size_pt=card_split.SMALL_PT, bold=True)
    crew = typeface.cut(card.kit, width_max_mm=room_mm, size_pt=card_split.SMALL_PT, bold=True)
    return " · ".join(filter(None, (crew, card.bank)))
