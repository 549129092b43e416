"""What the charts of a paper show, as plain data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartBar:
    """A bar on the current axis: a bank's band (with `best_a`), or a rod's range (without)."""

    label: str
    low_a: float
    high_a: float
    best_a: float | None = None
    chosen: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """Banks' current bands above, rods' ranges below, on one axis in amperes. `summary` says it in words."""

    title: str
    summary: str
    banks: tuple[ChartBar, ...]
    rods: tuple[ChartBar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A battery over time, oldest first: rested volts, and resistance in mΩ. `summary` says it in words."""

    title: str
    summary: str
    volts: tuple[tuple[date, float], ...]
    resistance_mohm: tuple[tuple[date, float], ...] = ()
    levels: tuple[tuple[str, float], ...] = ()  # volts to hold the readings against: full, the reserve
    name: str = ""
