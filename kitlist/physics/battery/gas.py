"""Hydrogen from a battery on charge: the air it needs and the distance to keep sparks away."""

from __future__ import annotations

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Source, Tag, sourced

_VENT = Source(Tag.SECOND_HAND, "EN 50272-2, IEC 62485-2")
BOOST_VENTED_MA_PER_AH, BOOST_SEALED_MA_PER_AH = 20.0, 8.0


@sourced(_VENT)
def air_needed_m3_h(*, cells: int, gas_current_a: float) -> float:
    """Air to keep hydrogen under 4 % with a factor of 5, m³/h: 0.05 n I; 0.0504 with its factors multiplied out.

    `gas_current_a` is the current that makes gas, A; with a charger whose end current is unknown, 40 % of its rating.

    >>> round(air_needed_m3_h(cells=24, gas_current_a=40.0), 1)
    48.4
    """
    if cells < 1 or not 0.0 <= gas_current_a <= 1000.0:
        raise OutOfRange(f"{cells} cells at {gas_current_a:g} A is outside 1 cell up and 0 to 1000 A")
    return 24.0 * 0.42e-3 * 5.0 * cells * gas_current_a


@sourced(_VENT)
def opening_cm2(*, air_m3_h: float) -> float:
    """Free opening in, and as much out, for natural ventilation, cm²: 28 Q.

    >>> round(opening_cm2(air_m3_h=48.4))
    1355
    """
    return 28.0 * air_m3_h


@sourced(Source(Tag.MEMORY, "EN 50272-2, IEC 62485-2"))
def spark_distance_m(*, capacity_ah: float, gas_ma_per_ah: float = BOOST_VENTED_MA_PER_AH) -> float:
    """Least distance of sparks and glowing things from a battery on charge, m: 28.8 mm (Igas)^(1/3) (C)^(1/3).

    20 mA/Ah for a vented battery on a high charge, 8 for a sealed one. 1 to 400 Ah.

    >>> round(spark_distance_m(capacity_ah=70.0) * 1000)
    322
    """
    if not 1.0 <= capacity_ah <= 400.0:
        raise OutOfRange(f"capacity {capacity_ah:g} Ah is outside 1 to 400 Ah")
    millimetres: float = 28.8 * (gas_ma_per_ah * capacity_ah) ** (1.0 / 3.0)
    return millimetres / 1000.0
