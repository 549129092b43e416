"""Draws the current chart: what the banks give against what the rods want, on one axis in amperes."""

from __future__ import annotations

from kitlist.faces.paper import typeface
from kitlist.faces.paper.charts import Chart, ChartBar
from kitlist.faces.paper.figure import Block, Drawing, Shape, Stroke, Text

ROW_HIGH, AXIS_HIGH, TOP = 6.2, 6.4, 1.0
LABEL_GAP = 3.0
_STEPS_A = (25, 50, 100, 200, 500, 1000)
GRID_LINES_MOST = 7


def draw(chart: Chart, *, width_mm: float, size_pt: float = 10) -> Drawing:
    """Bars as wide as their amperes; the chosen bank's is solid, other banks' are hollow, rods' are dashed."""
    bars = (*chart.banks, *chart.rods)
    label_mm = min(
        width_mm * 0.4,
        max(typeface.width_mm(bar.label, size_pt=size_pt, bold=True) for bar in bars) + LABEL_GAP,
    )
    most_a = max(bar.high_a for bar in bars)
    room_mm = width_mm - label_mm - 8.0
    widest_mm = typeface.width_mm("1000 A", size_pt=size_pt)
    lines_most = min(GRID_LINES_MOST, int(room_mm / widest_mm))  # else the numbers below run into each other
    step_a = next((step for step in _STEPS_A if most_a / step <= lines_most), _STEPS_A[-1])
    end_a = -(-most_a // step_a) * step_a
    mm_a_ampere = room_mm / end_a
    bottom = TOP + len(bars) * ROW_HIGH + (1.6 if chart.banks and chart.rods else 0)
    shapes: list[Shape] = []
    for line in range(int(end_a / step_a) + 1):
        x = label_mm + line * step_a * mm_a_ampere
        shapes.append(Stroke(points=((x, TOP), (x, bottom)), width=0.18, kind="grid"))
        text = f"{line * step_a} A" if line * step_a == end_a else str(line * step_a)
        shapes.append(Text(x=x, y=bottom + 4.4, text=text, size_pt=size_pt, anchor="middle"))
    y = TOP
    for bar in bars:
        if bar in chart.rods and chart.banks and bar is chart.rods[0]:
            y += 1.6
        shapes.extend(_bar(bar, y=y, left=label_mm, mm_a_ampere=mm_a_ampere, size_pt=size_pt))
        y += ROW_HIGH
    title = f"{chart.title}. {chart.summary}"
    return Drawing(title=title, width=width_mm, height=round(bottom + AXIS_HIGH, 2), shapes=tuple(shapes))


def _bar(bar: ChartBar, *, y: float, left: float, mm_a_ampere: float, size_pt: float) -> list[Shape]:
    middle = y + ROW_HIGH / 2
    x, wide = left + bar.low_a * mm_a_ampere, (bar.high_a - bar.low_a) * mm_a_ampere
    label = typeface.cut(bar.label, width_max_mm=left - LABEL_GAP + 0.5, size_pt=size_pt, bold=bar.chosen)
    shapes: list[Shape] = [Text(x=0, y=middle + 1.2, text=label, size_pt=size_pt, bold=bar.chosen)]
    if bar.best_a is None:
        shapes.append(Block(x=x, y=middle - 1.5, width=wide, height=3.0, line=0.4, kind="rod", dash="1 0.7"))
        return shapes
    high = 3.6
    shapes.append(Block(x=x, y=middle - high / 2, width=wide, height=high, line=0.5, filled=bar.chosen, kind="bank"))
    best = left + bar.best_a * mm_a_ampere
    ends = ((best, middle - ROW_HIGH / 2 + 0.3), (best, middle + ROW_HIGH / 2 - 0.3))
    shapes.append(Stroke(points=ends, width=0.9, kind="best"))
    return shapes
