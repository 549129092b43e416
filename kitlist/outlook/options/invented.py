"""Invented travellers and a demand for examples and tests: sound batteries of one label, nothing measured."""

from __future__ import annotations

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Traveller
from kitlist.physics.bank.rig import Leads
from kitlist.physics.battery.resistance import source_resistance


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
