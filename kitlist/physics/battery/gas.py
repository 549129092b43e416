"""Hydrogen from a battery on charge: how much, and the distance to keep sparks away."""

from __future__ import annotations

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Source, Tag, sourced

BOOST_VENTED_MA_PER_AH = 20.0
_HYDROGEN_L_PER_AH = 0.42


@sourced(Source(Tag.SECOND_HAND, "EN 50272-2, IEC 62485-2: 0.42 l an ampere-hour and cell"))
def hydrogen_l(*, surplus_ah: float, cells: int = 6) -> float:
    """Hydrogen from ampere-hours put into a battery that is full already, l at 0 °C: 0.42 l each hour and cell.

    >>> round(hydrogen_l(surplus_ah=8.5))
    21
    """
    if cells < 1 or not 0.0 <= surplus_ah <= 1000.0:
        raise OutOfRange(f"{surplus_ah:g} Ah into {cells} cells is outside 0 to 1000 Ah and 1 cell up")
    return _HYDROGEN_L_PER_AH * cells * surplus_ah


@sourced(Source(Tag.MEMORY, "EN 50272-2, IEC 62485-2"))
def spark_distance_m(*, capacity_ah: float, gas_ma_per_ah: float = BOOST_VENTED_MA_PER_AH) -> float:
    """Least distance of sparks and glowing things from a battery on charge, m: 28.8 mm (Igas)^(1/3) (C)^(1/3).

    20 mA/Ah for a vented battery on a high charge; a sealed one makes less, and is taken as vented. 1 to 400 Ah.

    >>> round(spark_distance_m(capacity_ah=70.0) * 1000)
    322
    """
    if not 1.0 <= capacity_ah <= 400.0:
        raise OutOfRange(f"capacity {capacity_ah:g} Ah is outside 1 to 400 Ah")
    millimetres: float = 28.8 * (gas_ma_per_ah * capacity_ah) ** (1.0 / 3.0)
    return millimetres / 1000.0
