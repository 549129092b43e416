"""Refuses a card or sheet that breaks the rules of its layout, naming the lines, rather than shrink it.

Words are counted before anything is drawn. Heights are read from the one layout that becomes the PDF: each block
of the card has an id, and WeasyPrint's pages tell where each id came to stand, so that the check costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from kitlist.base import clean
from kitlist.base.errors import PrintError
from kitlist.faces.paper import typeface
from kitlist.faces.paper.card_document import Card, Face, Grid, IfThenLine, PolarityBanner, Step
from kitlist.faces.paper.card_html import FACES_A_PAGE
from kitlist.faces.paper.card_split import STEPS_A_FACE, lines_of
from kitlist.faces.paper.document import Caution, Sheet, Signal
from kitlist.faces.paper.stickers import Stickers

BOXES_A_FACE = 2  # warnings; more than that and none is read
BOXES_A_SHEET = 3
FOOT_TOP_MM = 134.0 - 5.0 - 19.8  # below the upper edge of a face, as in templates/card.css
PX_A_MM = 96 / 25.4
TOLERANCE_MM = 0.1
SCRIPT_NAMED = 3  # words that a refusal quotes
QUOTED_MOST = 70  # characters of a line as a message quotes it


def check_words(card: Card) -> None:
    """The limits on the card's words: steps a face, each on one line, boxes a face, a warning before its step."""
    check_script(card)
    shown = clean.for_paper(card, has=typeface.has)
    faults = [fault for face in shown.faces for fault in _face_faults(face)]
    _refuse("The card's words do not fit", faults, hint="Shorter names of batteries and vehicles make room.")


def check_script(document: Card | Stickers | Sheet) -> None:
    """Refuse a paper that tells things apart by names of which no family of the type has the letters."""
    unknown = document.untyped
    if unknown:
        more = f" and {len(unknown) - SCRIPT_NAMED} more" if len(unknown) > SCRIPT_NAMED else ""
        raise PrintError(
            f"The type has no letters for {', '.join(unknown[:SCRIPT_NAMED])}{more}.",
            hint="Names in Latin, Cyrillic or Greek letters print; as text, --out NAME.txt, all do.",
        )


def _quoted(step: Step) -> str:
    return _quote(f"{step.text} {step.see}".strip())


def _quote(text: str) -> str:
    shown = text.replace("\u00a0", " ")
    return f"“{shown if len(shown) <= QUOTED_MOST else shown[: QUOTED_MOST - 1] + '…'}”"


def _face_faults(face: Face) -> Iterator[str]:
    if len(face.steps) > STEPS_A_FACE:
        yield f"face {face.number} has {len(face.steps)} steps, and {STEPS_A_FACE} is the most"
    for step in face.steps:
        if lines_of(step) > 1:
            yield f"face {face.number}: the step {_quoted(step)} takes more than one line"
    cautions = [block for block in face.blocks if isinstance(block, Caution)]
    yield from _box_faults(cautions, f"face {face.number}", most=BOXES_A_FACE)
    for block, after in zip(face.blocks, (*face.blocks[1:], None), strict=True):
        if isinstance(block, Caution) and not isinstance(after, Step):
            yield f"face {face.number}: the {block.signal} {_quote(block.hazard)} does not stand directly before a step"


def _box_faults(cautions: Sequence[Caution], where: str, *, most: int) -> Iterator[str]:
    if len(cautions) > most:
        yield f"{where} has {len(cautions)} boxed warnings, and {most} is the most"
    if sum(caution.signal is Signal.DANGER for caution in cautions) > 1:
        yield f"{where} says DANGER more than once"


def check_card(card: Card, pages: Sequence[Any]) -> None:
    """Every block of every face must end above the foot of its face, and the whole on one page."""
    anchors: dict[str, tuple[float, ...]] = {}
    for page in pages:
        anchors.update(page.anchors)
    faults = []
    for place, face in enumerate(card.faces, start=1):
        foot_mm = _top_mm(anchors, f"face-{place}") + FOOT_TOP_MM
        end_mm = _top_mm(anchors, f"end-{place}")
        if not end_mm <= foot_mm + TOLERANCE_MM:
            over = "; ".join(_below(face, place, anchors, foot_mm))
            much = f"{end_mm - foot_mm:.0f} mm" if end_mm < float("inf") else "far"
            faults.append(f"face {face.number} is {much} too long; over its foot: {over}")
    expected = -(-len(card.faces) // FACES_A_PAGE)
    if len(pages) != expected:
        faults.append(f"the card takes {len(pages)} pages of paper, and {expected} is what its faces need")
    _refuse("The card does not fit", faults, hint="Fewer rods or batteries on the card, or shorter names, make room.")


def _below(face: Face, number: int, anchors: Mapping[str, tuple[float, ...]], foot_mm: float) -> Iterator[str]:
    """The blocks of a face that end below its foot, in words."""
    from kitlist.faces.paper.card_html import place_blocks

    placed = place_blocks(face, number)
    following = [*(block.id for block in placed[1:]), f"end-{number}"]
    for block, after in zip(placed, following, strict=True):
        if _top_mm(anchors, after) > foot_mm + TOLERANCE_MM:
            yield _words(block.it)


def _words(block: object) -> str:
    match block:
        case Step():
            return _quoted(block)
        case Caution():
            return f"{block.signal} {_quote(block.hazard)}"
        case Grid():
            return f"the table of {len(block.rows)} rows"
        case IfThenLine():
            return _quote(block.trigger)
        case PolarityBanner():
            return block.polarity.words
    title = getattr(block, "title", "")
    return _quote(title) if title else "the hookup drawing"


def _top_mm(anchors: Mapping[str, tuple[float, ...]], name: str) -> float:
    """How far down its page the block with that id starts; a block that was not placed at all is far below."""
    return anchors[name][1] / PX_A_MM if name in anchors else float("inf")


def check_sheet(sheet: Sheet) -> None:
    """The letters of its names, and the limits on its boxed warnings."""
    check_script(sheet)
    if sheet.bank:
        _refuse(
            "The sheet breaks its own rules", _box_faults(sheet.bank.cautions, "the bank's panel", most=BOXES_A_SHEET)
        )


def _refuse(what: str, faults: Iterable[str], *, hint: str = "") -> None:
    listed = list(faults)
    if listed:
        raise PrintError(f"{what}:\n" + "\n".join(f"  - {fault}" for fault in listed), hint=hint)
