"""A battery over time as a drawing: from its history to plain points, and to an SVG file."""

from __future__ import annotations

from kitlist.base.errors import KitlistError, PrintError
from kitlist.base.names import quoted
from kitlist.faces.paper import trend
from kitlist.faces.paper.charts import Trend
from kitlist.kit import Battery
from kitlist.kit.limits import Limits
from kitlist.outlook.history import BatteryHistory
from kitlist.physics.battery.charge import rested_volts

SVG_MM = 160.0
LEAST_POINTS = 2


def levels_of(battery: Battery, limits: Limits) -> tuple[tuple[str, float], ...]:
    """What a battery of this kind reads full, and at the charge that any keeps, V at 25 °C; nothing for lithium."""
    shares = (("full", 1.0), ("reserve", limits.floor_warm_ratio))
    try:
        return tuple((word, rested_volts(soc_ratio=share, chemistry=battery.chemistry)) for word, share in shares)
    except KitlistError:
        return ()


def build_trend(name: str, history: BatteryHistory, *, levels: tuple[tuple[str, float], ...] = ()) -> Trend | None:
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
        levels=levels,
        name=name,
    )


def trend_svg(name: str, history: BatteryHistory, *, levels: tuple[tuple[str, float], ...] = ()) -> str:
    """The trend as an SVG file. Raises PrintError where there are too few readings."""
    from kitlist.faces.paper.html import standalone_svg

    built = build_trend(name, history, levels=levels)
    if built is None:
        raise PrintError(
            f"{name} has fewer than {LEAST_POINTS} rested readings: no line to draw",
            hint=f"kitlist volts {quoted(name)} VOLTS --rested 12h --temp DEGREES",
        )
    return standalone_svg(trend.draw(built, width_mm=SVG_MM))
