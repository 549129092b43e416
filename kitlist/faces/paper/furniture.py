"""What stands on the paper outside faces and labels: cut lines, fold line, scale bar, how to fold and punch."""

from __future__ import annotations

from kitlist.base.terms import Paper
from kitlist.faces.paper.figure import Block, Drawing, Shape, Stroke, Text

SIZES = {Paper.A4: (210.0, 297.0), Paper.LETTER: (215.9, 279.4)}
FACE_WIDE, FACE_HIGH = 97.0, 134.0
ROWS, COLUMNS = 2, 2
EDGE = 5.0  # nothing is printed in the outer 5 mm
TEXT_HIGH = 3.4
SCALE_MM = 100.0
SCALE_WORDS = "100 mm, to check the scale"
LABEL_WIDE, LABEL_HIGH = 105.0, 74.0  # A7, lying
LABEL_ROWS = {Paper.A4: 4, Paper.LETTER: 3}
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
    if top < EDGE + 2 * TEXT_HIGH:  # on US Letter the faces take the height, and the room is at the sides
        at = left + 2 * FACE_WIDE + 3.6
        shapes.append(Text(x=at, y=high / 2, text=" ".join(HOW), size_pt=9, anchor="middle", upright=True))
    else:
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
    words = Text(x=x + SCALE_MM + 2, y=y + 0.9, text=SCALE_WORDS, size_pt=9)
    return [Stroke(points=((x, y), (x + SCALE_MM, y)), width=0.4, kind="scale"), *ends, words]


def _upright_scale(x: float, y: float) -> list[Shape]:
    """The same along the side, where there is no room below."""
    ends = [Stroke(points=((x - 1.2, at), (x + 1.2, at)), width=0.4, kind="scale-end") for at in (y, y + SCALE_MM)]
    words = Text(x=x + 0.9, y=y + SCALE_MM + 2, text=SCALE_WORDS, size_pt=9, anchor="end", upright=True)
    return [Stroke(points=((x, y), (x, y + SCALE_MM)), width=0.4, kind="scale"), *ends, words]


def labels_corner(paper: Paper) -> tuple[float, float]:
    """Where the first label begins: on A4 the four rows leave a millimetre, on US Letter three stand in the middle."""
    wide, high = SIZES[paper]
    return (wide - 2 * LABEL_WIDE) / 2, (high - LABEL_ROWS[paper] * LABEL_HIGH) / 2


def labels(paper: Paper = Paper.A4) -> Drawing:
    """Cut lines between and round A7 labels, clear of the outer 5 mm."""
    wide, high = SIZES[paper]
    _, top = labels_corner(paper)
    rows = LABEL_ROWS[paper]
    lines = [((wide / 2, EDGE), (wide / 2, high - EDGE))]
    edges = [top + row * LABEL_HIGH for row in range(rows + 1)]
    lines += [((EDGE, y), (wide - EDGE, y)) for y in edges if EDGE < y < high - EDGE]
    shapes: list[Shape] = [Stroke(points=ends, width=0.2, kind="cut") for ends in lines]
    return Drawing(title="Cut lines between the labels", width=wide, height=high, shapes=tuple(shapes))
