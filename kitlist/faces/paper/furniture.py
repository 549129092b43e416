"""What stands on the paper outside the four faces: cut lines, fold line, scale bar, how to fold."""

from __future__ import annotations

from kitlist.faces.paper.figure import Block, Drawing, Shape, Stroke, Text

PAGE_WIDE, PAGE_HIGH = 210.0, 297.0
LEFT, TOP, FACE_WIDE, FACE_HIGH = 8.0, 8.5, 97.0, 140.0
SCALE_MM = 100.0
LABELS_TOP, LABEL_HIGH = 0.5, 74.0  # four rows of A7 on A4 leave a millimetre


def card(*, faces: int) -> Drawing:
    """Cut lines solid, fold line dashed, and a bar that measures 100 mm when the paper was printed true."""
    rows = 1 if faces <= 2 else 2
    bottom, middle = TOP + rows * FACE_HIGH, LEFT + FACE_WIDE
    outline = Block(x=LEFT, y=TOP, width=2 * FACE_WIDE, height=rows * FACE_HIGH, line=0.2, kind="cut")
    shapes: list[Shape] = [outline]
    if rows == 2:
        ends = ((LEFT, TOP + FACE_HIGH), (LEFT + 2 * FACE_WIDE, TOP + FACE_HIGH))
        shapes.append(Stroke(points=ends, width=0.2, kind="cut"))
    shapes.append(Stroke(points=((middle, TOP), (middle, bottom)), width=0.2, kind="fold", dash="2 2"))
    bar_y, bar_x = bottom + 1.8, LEFT + 6
    bar = ((bar_x, bar_y), (bar_x + SCALE_MM, bar_y))
    shapes.append(Stroke(points=bar, width=0.4, kind="scale"))
    for x in (bar_x, bar_x + SCALE_MM):
        shapes.append(Stroke(points=((x, bar_y - 1.2), (x, bar_y + 1.2)), width=0.4, kind="scale-end"))
    told = "Print at full size. Cut along the solid lines, fold along the dashed one, seal in two A6 pouches."
    shapes.append(Text(x=LEFT, y=TOP - 1.0, text=told, size_pt=9))
    shapes.append(Text(x=bar_x + SCALE_MM + 2, y=bar_y + 0.9, text="100 mm, to check the scale", size_pt=9))
    return Drawing(
        title="Cut lines solid, fold line dashed, and a bar of 100 mm",
        width=PAGE_WIDE,
        height=PAGE_HIGH,
        shapes=tuple(shapes),
    )


def labels() -> Drawing:
    """Cut lines between eight A7 labels on A4, clear of the outer 5 mm."""
    shapes: list[Shape] = [
        Stroke(points=((PAGE_WIDE / 2, 5.0), (PAGE_WIDE / 2, PAGE_HIGH - 5.0)), width=0.2, kind="cut")
    ]
    for row in range(1, 4):
        y = LABELS_TOP + row * LABEL_HIGH
        shapes.append(Stroke(points=((5.0, y), (PAGE_WIDE - 5.0, y)), width=0.2, kind="cut"))
    return Drawing(title="Cut lines between the labels", width=PAGE_WIDE, height=PAGE_HIGH, shapes=tuple(shapes))
