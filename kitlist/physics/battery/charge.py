"""State of charge from rested volts: low, best and high, or *not known* with the reason."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from math import sqrt

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.measures import with_unit
from kitlist.base.sources import Source, Tag, sourced, table
from kitlist.base.span import Span, between
from kitlist.base.terms import Chemistry
from kitlist.physics import figures

_TABLES = (Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.EFB, Chemistry.AGM, Chemistry.GEL)
_LEAST_REST_H = 2.0
_GOOD_REST_H = 6.0
_SETTLED_H = 24.0
_METER_AT_V = 12.5
_OVER_TABLE_V = 0.5
_STANDARD_C = 25.0


@dataclass(frozen=True, slots=True)
class Charge:
    """What a reading says of the charge. `soc_ratio` is None where it cannot be told, and `reason` says why.

    `ocv_25_v` is the rested voltage brought to 25 °C, with the meter's accuracy and what surface charge may still be
    in it; `notes` are sentences for the owner.
    """

    soc_ratio: Span | None
    reason: str = ""
    ocv_25_v: Span | None = None
    surface_charge_suspected: bool = False
    notes: tuple[str, ...] = ()

    @property
    def known(self) -> bool:
        """Whether the charge can be told at all."""
        return self.soc_ratio is not None


@cache
def ocv_points(chemistry: Chemistry) -> tuple[tuple[float, float], ...]:
    """(state of charge, rested volts at 25 °C) of a 12 V battery; lithium and unknown have no table.

    >>> ocv_points(Chemistry.FLOODED)[2]
    (0.5, 12.24)
    """
    rows = tuple(
        (float(row["soc_ratio"]), float(row["ocv_v"]))
        for row in table("open_circuit_volts")
        if row["chemistry"] == chemistry
    )
    if not rows:
        raise BadData(
            f"no table of rested volts for {chemistry}", hint="lead-acid only: flooded, calcium, efb, agm, gel"
        )
    return rows


@cache
def limits_of(chemistry: Chemistry) -> tuple[float, float]:
    """Spread of the table in volts, and the volts at 25 °C above which a reading holds surface charge."""
    if chemistry is Chemistry.UNKNOWN:  # the widest spread, the least volts
        known = [limits_of(kind) for kind in _TABLES]
        return max(spread for spread, _ in known), min(fresh for _, fresh in known)
    for row in table("chemistry_limits"):
        if row["chemistry"] == chemistry:
            return float(row["table_spread_v"]), float(row["fresh_charge_v"])
    raise BadData(f"no limits for {chemistry}")


@cache
def _temperature_points() -> tuple[tuple[float, float], ...]:
    return tuple((float(row["temp_c"]), float(row["offset_v"])) for row in table("ocv_temperature"))


@sourced(
    Source(Tag.SECOND_HAND, "BCI open-circuit table; AGM full TM 9-6115-730-24; the rest reported practice"),
    Source(Tag.PRACTICE, "+1.25 mV/K for 12 V"),
)
def rested_volts(*, soc_ratio: float, chemistry: Chemistry, temp_c: float = _STANDARD_C) -> float:
    """Rested volts of a 12 V battery at a state of charge and temperature, V.

    Straight lines between the table's points; 1.25 mV/K about 25 °C, which in the cold is smaller than the tabulated
    fall, so that a cold reading is taken for the lower charge. Valid 0 to 1 of charge, lead-acid only.

    >>> round(rested_volts(soc_ratio=0.75, chemistry=Chemistry.FLOODED), 2)
    12.45
    >>> round(rested_volts(soc_ratio=1.0, chemistry=Chemistry.AGM, temp_c=-15.0), 2)
    12.75
    """
    volts = between(ocv_points(chemistry), soc_ratio, what="state of charge", unit="of full")
    return volts + figures.OCV_SLOPE.value * (temp_c - _STANDARD_C)


def temperature_offset(*, temp_c: float) -> Span:
    """How far rested volts stand from their value at 25 °C, V: least fall, the model's fall, most fall.

    The model is linear, 1.25 mV/K; the reported table falls faster below 5 °C. Both bounds are kept. Outside the
    table (-17.8 to 48.9 °C) the linear term stands alone.

    >>> temperature_offset(temp_c=25.0).best
    0.0
    """
    linear = figures.OCV_SLOPE.value * (temp_c - _STANDARD_C)
    points = _temperature_points()
    if not points[0][0] <= temp_c <= points[-1][0]:
        return Span.exactly(linear)
    at_standard = between(points, _STANDARD_C, what="temperature", unit="°C")
    tabled = between(points, temp_c, what="temperature", unit="°C") - at_standard
    return Span(min(linear, tabled), linear, max(linear, tabled))


def _soc_at(volts_25: float, chemistry: Chemistry) -> float:
    """State of charge at rested volts brought to 25 °C; a reading off either end is full or flat."""
    points = [(v, soc) for soc, v in ocv_points(chemistry)]
    return between(points, min(max(volts_25, points[0][0]), points[-1][0]), what="rested volts", unit="V")


class Way(StrEnum):
    """How volts were read, which is how far they may be off."""

    RESTED = "rested 6 h or more"
    SHORT = "rested 2 to 6 h"
    BLED = "bled: 20 A or more for 3 min, then 5 min of rest"

    @property
    def surface_v(self) -> float:
        """Surface charge that may still be in the volts, V."""
        return {Way.RESTED: 0.0, Way.SHORT: Span.of(figures.SURFACE_V).high, Way.BLED: figures.BLED_V.value}[self]


def way_of(*, rested_h: float | None, bled: bool) -> Way | None:
    """How a reading was taken; None where it shows no charge: under 2 h of rest, or the hours not known.

    >>> way_of(rested_h=0.1, bled=True).name, way_of(rested_h=3.0, bled=False).name, way_of(rested_h=1.0, bled=False)
    ('BLED', 'SHORT', None)
    """
    if rested_h is not None and rested_h >= _GOOD_REST_H:
        return Way.RESTED
    if bled:
        return Way.BLED
    return Way.SHORT if rested_h is not None and rested_h >= _LEAST_REST_H else None


def doubt_v(*, chemistry: Chemistry, way: Way, meter_ratio: float = figures.METER_RATIO.value) -> float:
    """How far rested volts may stand too high, V: table and meter (root sum of squares), and surface charge.

    >>> round(doubt_v(chemistry=Chemistry.FLOODED, way=Way.RESTED), 3)
    0.08
    """
    spread_v, _ = limits_of(chemistry)
    return sqrt(spread_v**2 + (meter_ratio * _METER_AT_V) ** 2) + way.surface_v


def fresh_v(chemistry: Chemistry) -> float:
    """Volts at 25 °C over which a reading holds surface charge and shows no more than full; of unknown kind the least.

    >>> fresh_v(Chemistry.AGM), fresh_v(Chemistry.UNKNOWN)
    (13.05, 12.7)
    """
    return min(limits_of(kind)[1] for kind in kinds_of(chemistry))


def kinds_of(chemistry: Chemistry) -> tuple[Chemistry, ...]:
    """The kinds whose tables a battery is read by: its own, or of an unknown one all.

    >>> len(kinds_of(Chemistry.UNKNOWN)), kinds_of(Chemistry.GEL)[0].value
    (5, 'gel')
    """
    return _TABLES if chemistry is Chemistry.UNKNOWN else (chemistry,)


def charge_at(*, volts_25_v: float, chemistry: Chemistry, less_v: float = 0.0) -> float:
    """The charge that rested volts show at 25 °C once `less_v` is taken off them; the least of the tables, 0 to 1.

    Volts over those of a battery fresh off charge count as these.

    >>> round(charge_at(volts_25_v=12.65, chemistry=Chemistry.FLOODED, less_v=0.08), 3)
    0.9
    """
    volts = min(volts_25_v, fresh_v(chemistry)) - less_v
    return min(_soc_at(volts, kind) for kind in kinds_of(chemistry))


@sourced(
    Source(Tag.SECOND_HAND, "BCI open-circuit table"),
    Source(Tag.READ, "rest: TM 9-6115-730-24"),
    Source(Tag.PRACTICE, "volts over the full band within 24 h of charge are surface charge"),
)
def state_of_charge(
    *,
    chemistry: Chemistry,
    rested_v: float,
    rested_h: float | None,
    temp_c: float | None = None,
    quick_load: bool = False,
    on_charge: bool = False,
    meter_ratio: float = figures.METER_RATIO.value,
) -> Charge:
    """State of charge from a voltage read with nothing connected.

    `rested_h` is hours since the last charge or drive; `quick_load` says that the battery was bled: 20 A or more for
    3 minutes, then 5 minutes of rest, which does instead of two hours. `meter_ratio` is the meter's accuracy as a share
    of the reading. The bounds hold the table's spread and the meter (root sum of squares), the temperature's two
    models, and what surface charge may still be in it. A battery whose temperature nobody wrote down counts as at
    25 °C. Over the volts of a full battery within a day of charge, not bled: surface charge, and no charge is shown.
    An unknown chemistry gives the bounds of them all.

    >>> state_of_charge(chemistry=Chemistry.FLOODED, rested_v=12.45, rested_h=12, temp_c=25).soc_ratio.best
    0.75
    >>> state_of_charge(chemistry=Chemistry.AGM, rested_v=12.7, rested_h=0.5).reason
    'rested 0.5 h: under 2 h the voltage still holds surface charge'
    >>> state_of_charge(chemistry=Chemistry.FLOODED, rested_v=12.95, rested_h=2).known
    False
    """
    if not 0.0 <= rested_v <= 20.0:
        raise OutOfRange(f"{rested_v:g} V is not a reading of a 12 V battery (0 to 20 V)")
    if not 0.0 <= meter_ratio <= 0.05:
        raise OutOfRange(f"meter accuracy {meter_ratio:g} is outside 0 to 0.05 of the reading")
    if rested_h is not None and rested_h < 0:
        raise OutOfRange(f"rested {rested_h:g} h: hours cannot be under 0")
    way = way_of(rested_h=rested_h, bled=quick_load)
    if chemistry is Chemistry.LITHIUM:
        return Charge(None, "lithium: its voltage does not tell its charge, and it does not belong in a welding bank")
    if on_charge:
        return Charge(None, "on charge: the meter reads the charger")
    if way is None:
        return Charge(None, _too_soon(rested_h))
    offset = _offset(temp_c)
    volts_25_v = rested_v - offset.best
    kinds = _possible_kinds(chemistry, volts_25_v)
    over = volts_25_v > fresh_v(chemistry) + 1e-9
    if over and not quick_load and (rested_h is None or rested_h < _SETTLED_H):
        return Charge(
            None,
            f"{volts_25_v:.2f} V at 25 °C is more than a full battery settles at ({fresh_v(chemistry):.2f} V): "
            "surface charge of the last charging; bleed it, or let it rest 24 h, and read again",
            surface_charge_suspected=True,
        )
    notes: list[str] = []
    if way is Way.BLED:
        notes.append("read after a bleed: good to about 0.05 V")
    elif way is Way.SHORT:
        notes.append("rested 2 to 6 h: fair; 6 h or more is good")
    if temp_c is None:
        notes.append("battery temperature not written down: taken as 25 °C, down to -5 °C for the best case")
    if over:
        notes.append("over the volts of a full, rested battery: counts as full and no more")
    if chemistry is Chemistry.UNKNOWN:
        notes.append("chemistry not known: the bounds of every lead-acid kind")
    doubt = doubt_v(chemistry=chemistry, way=way, meter_ratio=meter_ratio)
    low = charge_at(volts_25_v=volts_25_v, chemistry=chemistry, less_v=doubt)
    capped_v = min(volts_25_v, fresh_v(chemistry))
    colder_v = offset.best - offset.low  # the tabled fall in the cold is the larger: more charge behind the same volts
    high = max(_soc_at(capped_v + colder_v + doubt - way.surface_v, kind) for kind in kinds)
    best = (low + high) / 2 if chemistry is Chemistry.UNKNOWN else _soc_at(capped_v, chemistry)
    meter_v = meter_ratio * rested_v
    ocv_25_v = Span(
        volts_25_v - meter_v - way.surface_v, volts_25_v - way.surface_v / 2, volts_25_v + colder_v + meter_v
    )
    return Charge(Span(low, best, high), "", ocv_25_v, over, tuple(notes))


def _too_soon(rested_h: float | None) -> str:
    if rested_h is None:
        return "hours of rest not written down"
    return f"rested {with_unit(rested_h, 'h')}: under 2 h the voltage still holds surface charge"


def _offset(temp_c: float | None) -> Span:
    if temp_c is not None:
        return temperature_offset(temp_c=temp_c)
    coldest = temperature_offset(temp_c=Span.of(figures.BATTERY_TEMP_C).low)
    return replace(temperature_offset(temp_c=_STANDARD_C), low=coldest.low)


def _possible_kinds(chemistry: Chemistry, volts_25: float) -> tuple[Chemistry, ...]:
    """The chemistry, or of an unknown one all that could show these volts; refused where none could."""
    asked = kinds_of(chemistry)
    possible = tuple(kind for kind in asked if volts_25 <= ocv_points(kind)[-1][1] + _OVER_TABLE_V)
    if not possible:
        top_v = max(ocv_points(kind)[-1][1] for kind in asked)
        raise OutOfRange(
            f"{volts_25:.2f} V at 25 °C is over half a volt above a full, rested {chemistry} battery ({top_v:.2f} V)",
            hint="was it on charge, or is it another chemistry?",
        )
    return possible


def no_reading() -> Span:
    """The charge to reckon with where nobody measured: 0.5 to 1.

    >>> no_reading().low
    0.5
    """
    return Span.of(figures.CHARGE_NOT_KNOWN)
