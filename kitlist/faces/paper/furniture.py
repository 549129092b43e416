"""What stands on the paper outside faces and labels: cut lines, fold line, scale bar, how to fold and punch."""

from __future__ import annotations

from kitlist.base.terms import Paper
from kitlist.faces.paper.figure import Block, Drawing, Shape, Stroke, Text

SIZES = {Paper.A4: (210.0, 297.0), Paper.LETTER: (215.9, 279.4)}
PAGE_WIDE, PAGE_HIGH = SIZES[Paper.A4]
FACE_WIDE, FACE_HIGH = 97.0, 134.0
ROWS, COLUMNS = 2, 2
EDGE = 5.0  # nothing is printed in the outer 5 mm
TEXT_HIGH = 3.4
SCALE_MM = 100.0
LABELS_TOP, LABEL_HIGH = 0.5, 74.0  # four rows of A7 on A4 leave a millimetre
HOW = (
    "Print at full size. Cut along the solid lines, fold along the dashed one, slip into an A6 pouch,",
    "pushed to its foot; punch the bare film at the head, never the paper; all leaves on one ring.",
)


def corner(paper: Paper) -> tuple[float, float]:
    """Where the first face begins: the four of them stand in the middle of the paper."""
    wide, high = SIZES[paper]
    return (wide - COLUMNS * FACE_WIDE) / 2, (high - ROWS * FACE_HIGH) / 2


def card(*, faces: int, paper: Paper = Paper.A4) -> Drawing:
    """Cut lines solid, fold line dashed, and a bar that measures 100 mm when the paper was printed true."""
    wide, high = SIZES[paper]
    left, top = corner(paper)
    rows = 1 if faces <= COLUMNS else ROWS
    bottom, middle = top + rows * FACE_HIGH, left + FACE_WIDE
    outline = Block(x=left, y=top, width=2 * FACE_WIDE, height=rows * FACE_HIGH, line=0.2, kind="cut")
    shapes: list[Shape] = [outline]
    if rows == ROWS:
        ends = ((left, top + FACE_HIGH), (left + 2 * FACE_WIDE, top + FACE_HIGH))
        shapes.append(Stroke(points=ends, width=0.2, kind="cut"))
    shapes.append(Stroke(points=((middle, top), (middle, bottom)), width=0.2, kind="fold", dash="2 2"))
    below = high - bottom
    if top >= EDGE + 2 * TEXT_HIGH:  # on US Letter the faces take the height: a page of one row has the room below
        shapes += [
            Text(x=left, y=top - 1.2 - (len(HOW) - 1 - place) * TEXT_HIGH, text=line, size_pt=9)
            for place, line in enumerate(HOW)
        ]
    if below >= EDGE + 4.0:
        shapes += _scale(left + 6, bottom + 2.4)
    else:
        shapes += _upright_scale(left - 2.6, top + 6)
    return Drawing(
        title="Cut lines solid, fold line dashed, and a bar of 100 mm", width=wide, height=high, shapes=tuple(shapes)
    )


def _scale(x: float, y: float) -> list[Shape]:
    ends = [Stroke(points=((at, y - 1.2), (at, y + 1.2)), width=0.4, kind="scale-end") for at in (x, x + SCALE_MM)]
    words = Text(x=x + SCALE_MM + 2, y=y + 0.9, text="100 mm, to check the scale", size_pt=9)
    return [Stroke(points=((x, y), (x + SCALE_MM, y)), width=0.4, kind="scale"), *ends, words]


def _upright_scale(x: float, y: float) -> list[Shape]:
    """The same along the side, where there is no room below: its length is its only word."""
    ends = [Stroke(points=((x - 1.2, at), (x + 1.2, at)), width=0.4, kind="scale-end") for at in (y, y + SCALE_MM)]
    return [Stroke(points=((x, y), (x, y + SCALE_MM)), width=0.4, kind="scale"), *ends]


def labels() -> Drawing:
    """Cut lines between eight A7 labels on A4, clear of the outer 5 mm."""
    shapes: list[Shape] = [
        Stroke(points=((PAGE_WIDE / 2, EDGE), (PAGE_WIDE / 2, PAGE_HIGH - EDGE)), width=0.2, kind="cut")
    ]
    for row in range(1, 4):
        y = LABELS_TOP + row * LABEL_HIGH
        shapes.append(Stroke(points=((EDGE, y), (PAGE_WIDE - EDGE, y)), width=0.2, kind="cut"))
    return Drawing(title="Cut lines between the labels", width=PAGE_WIDE, height=PAGE_HIGH, shapes=tuple(shapes))
