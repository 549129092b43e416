"""Draws a battery over time: rested volts and resistance by day, or the volts alone as a line as small as a word."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from kitlist.faces.paper import typeface
from kitlist.faces.paper.charts import Trend
from kitlist.faces.paper.figure import Dot, Drawing, Point, Shape, Stroke, Text

SMALL_WIDE, SMALL_HIGH = 26.0, 5.0
PANEL_HIGH, PANEL_GAP, LABEL_WIDE, FOOT_HIGH = 34.0, 9.0, 16.0, 6.0
LEAST_SPAN_V, LEAST_SPAN_MOHM = 0.2, 1.0
AXIS_V = (11.5, 13.2)  # empty to over full for every kind, so that two batteries' charts compare at a look
LEVEL_WIDE = 30.0  # "reserve 12.20" in 10 pt beside its line
Points = Sequence[tuple[date, float]]


def small(trend: Trend) -> Drawing:
    """The rested volts as a small line that ends in a dot at the newest; its title says the volts in words."""
    box = (0.9, 0.9, SMALL_WIDE - 0.9, SMALL_HIGH - 0.9)
    points = _placed(trend.volts, box, ends=_range(trend.volts, LEAST_SPAN_V))
    shapes: tuple[Shape, ...] = (
        Stroke(points=points, width=0.5, kind="trend"),
        Dot(x=points[-1][0], y=points[-1][1], radius=0.9),
    )
    return Drawing(title=f"{trend.title}. {trend.summary}", width=SMALL_WIDE, height=SMALL_HIGH, shapes=shapes)


def draw(trend: Trend, *, width_mm: float, size_pt: float = 10) -> Drawing:
    """A panel of volts, and one of milliohms where there are two or more, each with its ends in figures."""
    spread = _range(trend.volts, LEAST_SPAN_V)
    volts = min(AXIS_V[0], spread[0]), max(AXIS_V[1], spread[1])
    named = f"{trend.name}: rested volts, V" if trend.name else "Rested volts, V"
    heading = typeface.cut(named, width_max_mm=width_mm, size_pt=size_pt, bold=True)
    panels = [_Panel(heading, trend.volts, volts, ".2f", trend.levels)]
    if len(trend.resistance_mohm) > 1:
        mohm = _range(trend.resistance_mohm, LEAST_SPAN_MOHM)
        panels.append(_Panel("Source resistance, mΩ", trend.resistance_mohm, mohm, ".1f"))
    shapes: list[Shape] = []
    top = 0.0
    for panel in panels:
        shapes.extend(_drawn(panel, top=top, width_mm=width_mm, size_pt=size_pt))
        top += PANEL_HIGH + PANEL_GAP + FOOT_HIGH
    title = f"{trend.title}. {trend.summary}"
    return Drawing(title=title, width=width_mm, height=top, shapes=tuple(shapes))


@dataclass(frozen=True, slots=True)
class _Panel:
    """One set of axes: its heading, its points, the ends of its axis, and levels to hold the points against."""

    heading: str
    points: Points
    ends: tuple[float, float]
    digits: str
    levels: tuple[tuple[str, float], ...] = ()


def _drawn(panel: _Panel, *, top: float, width_mm: float, size_pt: float) -> Iterator[Shape]:
    left, right = LABEL_WIDE, width_mm - LEVEL_WIDE
    high, low = top + PANEL_GAP, top + PANEL_GAP + PANEL_HIGH - 4.0
    yield Text(x=0, y=top + 4.2, text=panel.heading, size_pt=size_pt, bold=True)
    yield Stroke(points=((left, high - 2), (left, low + 2), (right + 2, low + 2)), width=0.25, kind="axis")
    least, most = panel.ends
    for value, y in ((most, high), (least, low)):
        yield Text(x=left - 2, y=y + 1.3, text=format(value, panel.digits), size_pt=size_pt, anchor="end")
        yield Stroke(points=((left - 1, y), (left, y)), width=0.25, kind="axis")
    for word, value in panel.levels:
        y = low - (value - least) / (most - least) * (low - high)
        yield Stroke(points=((left, y), (right, y)), width=0.4, kind="level", dash="1.5 1")
        yield Text(x=right + 1.5, y=y + 1.3, text=f"{word} {value:.2f}", size_pt=size_pt)
    placed = _placed(panel.points, (left + 2, high, right, low), ends=panel.ends)
    yield Stroke(points=placed, width=0.7, kind="trend")
    for x, y in placed:
        yield Dot(x=x, y=y, radius=1.0, kind="reading")
    for (day, _), anchor, x in ((panel.points[0], "start", left), (panel.points[-1], "end", right + 2)):
        yield Text(x=x, y=low + 6.6, text=day.isoformat(), size_pt=size_pt, anchor=anchor)


def _range(points: Points, least_span: float) -> tuple[float, float]:
    """The lowest and the highest value, never so near each other that noise looks like a fall."""
    least, most = min(value for _, value in points), max(value for _, value in points)
    short = max(0.0, least_span - (most - least)) / 2
    return least - short, most + short


def _placed(points: Points, box: tuple[float, float, float, float], *, ends: tuple[float, float]) -> tuple[Point, ...]:
    """Days and values as points in a box (left, top, right, bottom); readings of one day stand side by side."""
    left, top, right, bottom = box
    least, most = ends
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
