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
from kitlist.faces.paper.document import Card, Caution, Face, PolarityBanner, RodTable, Sheet, Signal, Step

CHARACTERS_REGULAR, CHARACTERS_BOLD = 33, 30
STEPS_A_FACE = 9
BOXES_A_PAGE = 3
ONE_LINE_RATIO = 0.9
LIVE_WIDE_MM = 86.0
STEP_PT = 14.5
STEP_WIDE_MM = LIVE_WIDE_MM - 6.6
TABLE_PT, CELL_PAD_MM = 12.0, 0.3  # with the columns of templates/card.css
SEE_GAP_MM = 3.0
FOOT_TOP_MM = 140.0 - 5.0 - 9.4  # below the upper edge of a face, as in templates/card.css
PX_A_MM = 96 / 25.4
TOLERANCE_MM = 0.1
FACES = 4
QUOTED_MOST = 70  # characters of a line as a message quotes it


def lines_of(step: Step) -> int:
    """How many lines a step takes on the card, its answer included.

    >>> lines_of(Step("Chock all wheels", see="firm")), lines_of(Step("Chock all wheels of the white one too"))
    (1, 2)
    """
    wrapped = typeface.wrap(step.text, width_max_mm=STEP_WIDE_MM, size_pt=STEP_PT, bold=step.bold)
    widths = [typeface.width_mm(line, size_pt=STEP_PT, bold=step.bold) for line in wrapped]
    count = sum(max(1, -int(-width // STEP_WIDE_MM)) for width in widths)
    if step.see and widths:
        answer = typeface.width_mm(step.see, size_pt=STEP_PT, bold=True) + SEE_GAP_MM
        count += widths[-1] + answer > STEP_WIDE_MM
    return count


def check_words(card: Card) -> None:
    """The limits on the card's words: steps a face, one line for nine steps in ten, none on three, boxes a face."""
    shown = clean.for_paper(card, has=typeface.has)
    faults = [fault for number, face in enumerate(shown.faces, start=1) for fault in _face_faults(face, number)]
    if len(shown.faces) != FACES:
        faults.insert(0, f"a card has {FACES} faces, not {len(shown.faces)}")
    steps = [(f"face {n} step {m}", s) for n, f in enumerate(shown.faces, 1) for m, s in enumerate(f.steps, 1)]
    long = [(where, step) for where, step in steps if _is_long(step)]
    if len(long) > (1 - ONE_LINE_RATIO) * len(steps):
        faults.append(
            f"{len(long)} of {len(steps)} steps are longer than one line, and one in ten may be: "
            + "; ".join(f"{where} {_quoted(step)}" for where, step in long)
        )
    _refuse("The card's words do not fit", faults, hint="Shorter names of batteries and vehicles make room.")


def _is_long(step: Step) -> bool:
    limit = CHARACTERS_BOLD if step.bold else CHARACTERS_REGULAR
    return lines_of(step) > 1 or len(step.text) > limit


def _quoted(step: Step) -> str:
    return _quote(f"{step.text} {step.see}".strip())


def _quote(text: str) -> str:
    shown = text.replace("\u00a0", " ")
    return f"“{shown if len(shown) <= QUOTED_MOST else shown[: QUOTED_MOST - 1] + '…'}”"


def _face_faults(face: Face, number: int) -> Iterator[str]:
    steps = face.steps
    if len(steps) > STEPS_A_FACE:
        yield f"face {number} has {len(steps)} steps, and {STEPS_A_FACE} is the most"
    for place, step in enumerate(steps, start=1):
        if lines_of(step) > 2:
            yield f"face {number} step {place} takes more than two lines: {_quoted(step)}"
    for block in face.blocks:
        if isinstance(block, RodTable):
            yield from (f"face {number}, rod table: {_quote(text)} is too wide" for text in _wide_cells(block))
    cautions = [block for block in face.blocks if isinstance(block, Caution)]
    yield from _box_faults(cautions, f"face {number}")
    for block, after in zip(face.blocks, (*face.blocks[1:], None), strict=True):
        if isinstance(block, Caution) and not isinstance(after, Step):
            yield f"face {number}: the {block.signal} {_quote(block.hazard)} does not stand directly before a step"


def _wide_cells(table: RodTable) -> Iterator[str]:
    """The texts with a word that would be broken, and the ranges that would not stay on one line."""
    for row in table.rows:
        words = [(word, 0.195, False) for word in row.steel.split(" ")]
        words += [(word, 0.33, False) for word in row.rod.split(" ")] + [(row.amps, 0.24, False)]
        words += [(word, 0.235, True) for word in row.verdict.split(" ")]
        for text, ratio, bold in words:
            if typeface.width_mm(text, size_pt=TABLE_PT, bold=bold) > ratio * LIVE_WIDE_MM - CELL_PAD_MM:
                yield text


def _box_faults(cautions: Sequence[Caution], where: str) -> Iterator[str]:
    if len(cautions) > BOXES_A_PAGE:
        yield f"{where} has {len(cautions)} boxed warnings, and {BOXES_A_PAGE} is the most"
    if sum(caution.signal is Signal.DANGER for caution in cautions) > 1:
        yield f"{where} says DANGER more than once"


def check_card(card: Card, pages: Sequence[Any]) -> None:
    """Every block of every face must end above the foot of its face, and the whole on one page."""
    anchors: dict[str, tuple[float, ...]] = {}
    for page in pages:
        anchors.update(page.anchors)
    faults = []
    for number, face in enumerate(card.faces, start=1):
        foot_mm = _top_mm(anchors, f"face-{number}") + FOOT_TOP_MM
        end_mm = _top_mm(anchors, f"end-{number}")
        if not end_mm <= foot_mm + TOLERANCE_MM:
            over = "; ".join(_below(face, number, anchors, foot_mm))
            much = f"{end_mm - foot_mm:.0f} mm" if end_mm < float("inf") else "far"
            faults.append(f"face {number} is {much} too long; over its foot: {over}")
    if len(pages) != 1:
        faults.append(f"the card takes {len(pages)} pages of paper")
    _refuse("The card does not fit", faults, hint="Fewer rods or batteries on the card, or shorter names, make room.")


def _below(face: Face, number: int, anchors: Mapping[str, tuple[float, ...]], foot_mm: float) -> Iterator[str]:
    """The blocks of a face that end below its foot, in words."""
    from kitlist.faces.paper.html import place_blocks

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
        case RodTable():
            return f"the rod table of {len(block.rows)} rods"
        case PolarityBanner():
            return block.polarity.words
    title = getattr(block, "title", "")
    return _quote(title) if title else "the hookup drawing"


def _top_mm(anchors: Mapping[str, tuple[float, ...]], name: str) -> float:
    """How far down its page the block with that id starts; a block that was not placed at all is far below."""
    return anchors[name][1] / PX_A_MM if name in anchors else float("inf")


def check_sheet(sheet: Sheet) -> None:
    """The limits on the sheet's boxed warnings."""
    if sheet.bank:
        _refuse("The sheet breaks its own rules", _box_faults(sheet.bank.cautions, "the bank's panel"))


def _refuse(what: str, faults: Iterable[str], *, hint: str = "") -> None:
    listed = list(faults)
    if listed:
        raise PrintError(f"{what}:\n" + "\n".join(f"  - {fault}" for fault in listed), hint=hint)
