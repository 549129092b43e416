"""Draws a battery over time: rested volts and resistance by day, or the volts alone as a line as small as a word."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from kitlist.faces.paper.charts import Trend
from kitlist.faces.paper.figure import Dot, Drawing, Point, Shape, Stroke, Text

SMALL_WIDE, SMALL_HIGH = 26.0, 5.0
PANEL_HIGH, PANEL_GAP, LABEL_WIDE, FOOT_HIGH = 34.0, 9.0, 16.0, 6.0
LEAST_SPAN_V, LEAST_SPAN_MOHM = 0.2, 1.0
Points = Sequence[tuple[date, float]]


def small(trend: Trend) -> Drawing:
    """The rested volts as a small line that ends in a dot at the newest; its title says the volts in words."""
    box = (0.9, 0.9, SMALL_WIDE - 0.9, SMALL_HIGH - 0.9)
    points = _placed(trend.volts, box, least_span=LEAST_SPAN_V)
    shapes: tuple[Shape, ...] = (
        Stroke(points=points, width=0.5, kind="trend"),
        Dot(x=points[-1][0], y=points[-1][1], radius=0.9),
    )
    return Drawing(title=f"{trend.title}. {trend.summary}", width=SMALL_WIDE, height=SMALL_HIGH, shapes=shapes)


def draw(trend: Trend, *, width_mm: float, size_pt: float = 10) -> Drawing:
    """A panel of volts, and one of milliohms where there are two or more, each with its ends in figures."""
    panels: list[tuple[str, Points, float, str]] = [("Rested volts, V", trend.volts, LEAST_SPAN_V, ".2f")]
    if len(trend.resistance_mohm) > 1:
        panels.append(("Source resistance, mΩ", trend.resistance_mohm, LEAST_SPAN_MOHM, ".1f"))
    shapes: list[Shape] = []
    top = 0.0
    for heading, points, least_span, digits in panels:
        shapes.extend(_panel(heading, points, least_span, digits, top=top, width_mm=width_mm, size_pt=size_pt))
        top += PANEL_HIGH + PANEL_GAP + FOOT_HIGH
    title = f"{trend.title}. {trend.summary}"
    return Drawing(title=title, width=width_mm, height=top, shapes=tuple(shapes))


def _panel(
    heading: str, points: Points, least_span: float, digits: str, *, top: float, width_mm: float, size_pt: float
) -> Iterator[Shape]:
    left, right = LABEL_WIDE, width_mm - 4.0
    high, low = top + PANEL_GAP, top + PANEL_GAP + PANEL_HIGH - 4.0
    yield Text(x=0, y=top + 4.2, text=heading, size_pt=size_pt, bold=True)
    yield Stroke(points=((left, high - 2), (left, low + 2), (right + 2, low + 2)), width=0.25, kind="axis")
    least, most = _range(points, least_span)
    for value, y in ((most, high), (least, low)):
        yield Text(x=left - 2, y=y + 1.3, text=format(value, digits), size_pt=size_pt, anchor="end")
        yield Stroke(points=((left - 1, y), (left, y)), width=0.25, kind="axis")
    placed = _placed(points, (left + 2, high, right, low), least_span=least_span)
    yield Stroke(points=placed, width=0.7, kind="trend")
    for x, y in placed:
        yield Dot(x=x, y=y, radius=1.0, kind="reading")
    for (day, _), anchor, x in ((points[0], "start", left), (points[-1], "end", right + 2)):
        yield Text(x=x, y=low + 6.6, text=day.isoformat(), size_pt=size_pt, anchor=anchor)


def _range(points: Points, least_span: float) -> tuple[float, float]:
    """The lowest and the highest value, never so near each other that noise looks like a fall."""
    least, most = min(value for _, value in points), max(value for _, value in points)
    short = max(0.0, least_span - (most - least)) / 2
    return least - short, most + short


def _placed(points: Points, box: tuple[float, float, float, float], *, least_span: float) -> tuple[Point, ...]:
    """Days and values as points in a box (left, top, right, bottom); readings of one day stand side by side."""
    left, top, right, bottom = box
    least, most = _range(points, least_span)
    first = points[0][0]
    days = max(1, (points[-1][0] - first).days)
    if days == 1 and points[0][0] == points[-1][0]:
        across = [place / max(1, len(points) - 1) for place in range(len(points))]
    else:
        across = [(day - first).days / days for day, _ in points]
    return tuple(
        (left + share * (right - left), bottom - (value - least) / (most - least) * (bottom - top))
        for share, (_, value) in zip(across, points, strict=True)
    )
