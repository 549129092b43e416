"""A battery over time as a drawing: every reading at its place, the small line on the sheet, the words with it."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import date, timedelta

import pytest

from kitlist.base.errors import PrintError
from kitlist.base.terms import Chemistry
from kitlist.faces.paper import trend, typeface
from kitlist.faces.paper.build_trend import build_trend, levels_of, trend_svg
from kitlist.faces.paper.charts import Trend
from kitlist.faces.paper.figure import Dot, Stroke, Text
from kitlist.outlook.history import BatteryHistory
from kitlist.rules.example import whole

DAY = date(2027, 3, 1)


def history(*volts: float, mohm: tuple[float, ...] = ()) -> BatteryHistory:
    return BatteryHistory(
        volts=tuple((DAY + timedelta(days=7 * week), v) for week, v in enumerate(volts)),
        fall=None,
        resistance_mohm=tuple((DAY + timedelta(days=7 * week), r) for week, r in enumerate(mohm)),
    )


def built(*volts: float, mohm: tuple[float, ...] = ()) -> Trend:
    made = build_trend("heron-main", history(*volts, mohm=mohm))
    assert made is not None
    return made


def test_every_reading_has_its_dot_in_the_order_of_days_and_lower_volts_stand_lower() -> None:
    figure = trend.draw(built(12.8, 12.5, 12.6), width_mm=160)
    dots = [shape for shape in figure.of_kind("reading") if isinstance(shape, Dot)]
    assert [dot.x for dot in dots] == sorted(dot.x for dot in dots)
    assert dots[1].x - dots[0].x == pytest.approx(dots[2].x - dots[1].x)
    assert dots[1].y > dots[2].y > dots[0].y


def test_the_axis_names_the_volts_and_the_days_at_its_ends() -> None:
    figure = trend.draw(built(12.8, 12.2), width_mm=160)
    texts = {shape.text for shape in figure.shapes if isinstance(shape, Text)}
    assert {"13.20", "11.50", "2027-03-01", "2027-03-08", "heron-main: rested volts, V"} <= texts


def test_full_and_the_reserve_stand_on_the_volts_of_the_batterys_own_kind() -> None:
    kit = whole().kit
    levels = dict(levels_of(kit.batteries[0], kit.limits))
    assert levels["full"] == pytest.approx(12.8, abs=0.1)  # AGM at rest, full
    assert 12.0 < levels["reserve"] < levels["full"]
    figure = trend.draw(replace(built(12.8, 12.5), levels=tuple(levels.items())), width_mm=160)
    lines = [shape for shape in figure.of_kind("level") if isinstance(shape, Stroke)]
    assert lines[0].points[0][1] < lines[1].points[0][1]
    assert f"full {levels['full']:.2f}" in {shape.text for shape in figure.shapes if isinstance(shape, Text)}
    lithium = replace(kit.batteries[0], chemistry=Chemistry.LITHIUM)
    assert levels_of(lithium, kit.limits) == ()


def test_noise_of_a_meter_is_no_cliff() -> None:
    dots = [s for s in trend.draw(built(12.71, 12.70), width_mm=160).of_kind("reading") if isinstance(s, Dot)]
    assert abs(dots[0].y - dots[1].y) < 0.06 * trend.PANEL_HIGH


def test_resistance_has_a_panel_of_its_own_where_there_are_two_readings_of_it() -> None:
    alone, both = (trend.draw(built(12.8, 12.5, mohm=mohm), width_mm=160) for mohm in ((5.0,), (5.0, 8.0)))
    assert both.height == pytest.approx(2 * alone.height)
    assert any(isinstance(s, Text) and s.text == "Source resistance, mΩ" for s in both.shapes)


@pytest.mark.parametrize("volts", [(12.8, 12.2), (12.7, 12.7), tuple(12.9 - 0.01 * n for n in range(200))])
def test_nothing_is_drawn_outside_the_ground(volts: tuple[float, ...]) -> None:
    made = built(*volts, mohm=(5.0, 6.0))
    for figure in (trend.draw(made, width_mm=160), trend.small(made)):
        for shape in figure.shapes:
            if isinstance(shape, Text):
                wide = typeface.width_mm(shape.text, size_pt=shape.size_pt, bold=shape.bold)
                left = shape.x - {"start": 0, "end": wide}[shape.anchor]
                assert (left >= -0.01, left + wide <= figure.width + 0.01) == (True, True), shape.text
                assert shape.y + 1 <= figure.height
            for x, y in shape.points if isinstance(shape, Stroke) else ():
                assert (0 <= x <= figure.width, 0 <= y <= figure.height) == (True, True)


def test_two_readings_of_one_day_stand_side_by_side() -> None:
    same = BatteryHistory(volts=((DAY, 12.6), (DAY, 12.5)), fall=None, resistance_mohm=())
    made = build_trend("x", same)
    assert made is not None
    (line,) = [s for s in trend.small(made).shapes if isinstance(s, Stroke)]
    assert line.points[0][0] < line.points[1][0]


def test_the_file_is_an_svg_that_says_in_words_what_it_shows() -> None:
    root = ET.fromstring(trend_svg("heron-main <b>", history(12.8, 12.2)))
    title = root.find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text is not None
    assert title.text.startswith("heron-main <b>: rested volts over time. 12.80 V on 2027-03-01 to 12.20 V")


def test_one_reading_makes_no_line() -> None:
    assert build_trend("x", history(12.7)) is None
    with pytest.raises(PrintError, match="fewer than 2"):
        trend_svg("x", history(12.7))
