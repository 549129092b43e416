"""A battery over time as a drawing: from its history to plain points, and to an SVG file."""

from __future__ import annotations

from kitlist.base.errors import PrintError
from kitlist.base.names import quoted
from kitlist.faces.paper import trend
from kitlist.faces.paper.charts import Trend
from kitlist.outlook.history import BatteryHistory

SVG_MM = 160.0
LEAST_POINTS = 2


def build_trend(name: str, history: BatteryHistory) -> Trend | None:
    """The trend of a battery; None where there are fewer than two rested readings."""
    if len(history.volts) < LEAST_POINTS:
        return None
    (since, first), (until, last) = history.volts[0], history.volts[-1]
    told = " ".join(history.trend_words)
    return Trend(
        title=f"{name}: rested volts over time",
        summary=f"{first:.2f} V on {since} to {last:.2f} V on {until}.{f' {told}' if told else ''}",
        volts=history.volts,
        resistance_mohm=history.resistance_mohm,
    )


def trend_svg(name: str, history: BatteryHistory) -> str:
    """The trend as an SVG file. Raises PrintError where there are too few readings."""
    from kitlist.faces.paper.html import standalone_svg

    built = build_trend(name, history)
    if built is None:
        raise PrintError(
            f"{name} has fewer than {LEAST_POINTS} rested readings: no line to draw",
            hint=f"kitlist volts {quoted(name)} VOLTS --rested 12h --temp DEGREES",
        )
    return standalone_svg(trend.draw(built, width_mm=SVG_MM))
