"""Invented banks for examples and tests: sound batteries of one label, nothing measured."""

from __future__ import annotations

from kitlist.physics import cable, figures
from kitlist.physics.demand import Demand, PackedRod
from kitlist.physics.fleet import Traveller
from kitlist.physics.resistance import source_resistance
from kitlist.physics.rig import BankBattery, Leads, Rig
from kitlist.physics.span import Span
from kitlist.terms import Chemistry


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


def travellers(count: int, *, capacity_ah: float = 70.0, cca_a: float = 680.0) -> tuple[Traveller, ...]:
    """Equal sound batteries that travel loose, 90 % charged.

    >>> travellers(2)[1].name
    'battery 2'
    """
    return tuple(
        Traveller(
            name=f"battery {number}",
            chemistry=Chemistry.FLOODED,
            capacity_ah=capacity_ah,
            resistance=source_resistance(cca_sae=Span.exactly(cca_a)),
            soc_ratio=Span(0.85, 0.9, 0.95),
            mass_kg=18.0,
        )
        for number in range(1, count + 1)
    )


def demand(*, range_low_a: float = 80.0, range_high_a: float = 130.0, least_rods: int = 1) -> Demand:
    """A packet of 3.2 mm rods of 2.05 Ah each, on 25 mm² leads of 5 m.

    >>> demand().rods[0].range_high_a
    130.0
    """
    rod = PackedRod(name="3.2 mm", range_low_a=range_low_a, range_high_a=range_high_a, charge_ah=Span(1.64, 2.05, 2.46))
    return Demand(rods=(rod,), leads=Leads(conductor_ohm_20c=0.0039), least_rods=least_rods)
