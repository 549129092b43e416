"""Invented banks for examples and tests: sound batteries of one label, nothing measured."""

from __future__ import annotations

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics import figures
from kitlist.physics.bank.rig import BankBattery, Leads, Rig
from kitlist.physics.battery.resistance import source_resistance
from kitlist.physics.leads import cable


def sound_battery(name: str = "a", *, capacity_ah: float = 70.0, cca_a: float = 680.0) -> BankBattery:
    """A sound flooded battery in use, its charge not read.

    >>> sound_battery().resistance.new_ohm.best * 680
    3.0
    """
    return BankBattery(
        name=name,
        chemistry=Chemistry.FLOODED,
        resistance=source_resistance(cca_sae=Span.exactly(cca_a)),
        soc_ratio=Span.of(figures.CHARGE_BEFORE_TRIP),
        capacity_ah=capacity_ah,
    )


def in_series(
    count: int = 3, *, capacity_ah: float = 70.0, cca_a: float = 680.0, area_mm2: float = 25.0, length_m: float = 5.0
) -> Rig:
    """Equal batteries in series on copper leads of one area, total length out and back.

    >>> in_series(2).in_series
    2
    """
    names = [f"battery {number}" for number in range(1, count + 1)]
    ohm = length_m * cable.ohm_per_m(area_mm2=area_mm2)
    return Rig(
        groups=(tuple(sound_battery(name, capacity_ah=capacity_ah, cca_a=cca_a) for name in names),),
        leads=Leads(conductor_ohm_20c=ohm),
    )
