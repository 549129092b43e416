"""The batteries that travel, as the planner sees them: who is refused and why, and which are alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.outlook.refusal import Refusal, not_now
from kitlist.physics import figures
from kitlist.physics.bank.rig import BankBattery
from kitlist.physics.battery.charge import no_reading
from kitlist.physics.battery.resistance import SourceResistance


@dataclass(frozen=True, slots=True, kw_only=True)
class Traveller:
    """A battery that travels. `soc_ratio` None is charge not known; `reserve_ratio` what it must keep (its cranking
    counted), `last_starter_ratio` in a bank that takes every starting battery; `starts_engine` that it is the starting
    battery of a vehicle on the trip; `unfit` why the battery itself may be in no bank; `full_v` what it reads full.
    """

    name: str
    chemistry: Chemistry
    capacity_ah: float | None
    resistance: SourceResistance | None
    soc_ratio: Span | None = None
    ocv_25_v: Span | None = None
    full_v: float = 12.8
    reserve_ratio: float = figures.RESERVE_WARM.value
    last_starter_ratio: float = 0.75
    unfit: Refusal | None = None
    may_freeze: bool = False
    starts_engine: bool = False
    mass_kg: float | None = None
    age_years: float | None = None
    post_joint_ohm: Span = field(default_factory=lambda: Span.of(figures.POST_JOINT_MOHM).times(0.001))

    @property
    def charge(self) -> Span:
        """The charge to reckon with: as known, else half to full."""
        return self.soc_ratio or no_reading()

    def as_bank_battery(self) -> BankBattery:
        """The battery for the network and the band; its resistance must be known."""
        if self.resistance is None:
            raise ValueError(f"{self.name}: resistance not known")
        return BankBattery(
            name=self.name,
            chemistry=self.chemistry,
            resistance=self.resistance,
            soc_ratio=self.charge,
            ocv_25_v=self.ocv_25_v,
            capacity_ah=self.capacity_ah,
            post_joint_ohm=self.post_joint_ohm,
        )


@dataclass(frozen=True, slots=True)
class Refused:
    """A battery that no bank may use, and why."""

    name: str
    why: Refusal


def refusal_of(battery: Traveller) -> Refusal | None:
    """Why a battery may not be in any bank; None where it may.

    >>> sound = Traveller(name="a", chemistry=Chemistry.AGM, capacity_ah=None, resistance=None)
    >>> str(refusal_of(sound))
    'its 20 h capacity is not known'
    """
    return battery.unfit or not_now(
        chemistry=battery.chemistry,
        capacity_ah=battery.capacity_ah,
        resistance_known=battery.resistance is not None,
        soc_ratio=battery.soc_ratio,
        reserve_ratio=battery.reserve_ratio,
        may_freeze=battery.may_freeze,
    )


@dataclass(frozen=True, slots=True)
class Kind:
    """Batteries that are alike in all that the planner weighs, and their names."""

    like: Traveller
    names: tuple[str, ...]


def alike(batteries: Sequence[Traveller]) -> tuple[Kind, ...]:
    """The batteries grouped by kind, in the order in which each kind first comes.

    >>> one = Traveller(name="a", chemistry=Chemistry.AGM, capacity_ah=70.0, resistance=None)
    >>> [kind.names for kind in alike([one, replace(one, name="b"), replace(one, name="c", capacity_ah=60.0)])]
    [('a', 'b'), ('c',)]
    """
    kinds: dict[Traveller, list[str]] = {}
    for battery in batteries:
        kinds.setdefault(replace(battery, name=""), []).append(battery.name)
    return tuple(Kind(like, tuple(names)) for like, names in kinds.items())


def mismatches(batteries: Sequence[Traveller]) -> tuple[str, ...]:
    """Why these batteries are no matched set: sentences, one for each kind of mismatch. They warn, they do not refuse.

    >>> one = Traveller(name="a", chemistry=Chemistry.AGM, capacity_ah=70.0, resistance=None, soc_ratio=Span(0, 0.9, 1))
    >>> mismatches([one, replace(one, name="b", chemistry=Chemistry.FLOODED)])
    ('mixed chemistry: agm and flooded',)
    """
    found = []
    kinds = sorted({str(battery.chemistry) for battery in batteries})
    if len(kinds) > 1:
        found.append(f"mixed chemistry: {' and '.join(kinds)}")
    sizes = [battery.capacity_ah for battery in batteries if battery.capacity_ah]
    if sizes and max(sizes) - min(sizes) > figures.MATCH_CAPACITY.value * max(sizes):
        found.append(f"20 h capacity from {min(sizes):g} to {max(sizes):g} Ah: the smallest empties first")
    charges = [battery.soc_ratio.best for battery in batteries if battery.soc_ratio]
    if charges and max(charges) - min(charges) > figures.MATCH_CHARGE.value + 1e-9:
        found.append(f"charge from {min(charges):.0%} to {max(charges):.0%}: charge the lowest first")
    ohms = [battery.resistance.now_ohm.best for battery in batteries if battery.resistance]
    if ohms and max(ohms) - min(ohms) > figures.MATCH_RESISTANCE.value * min(ohms):
        found.append(f"resistance from {min(ohms) * 1000:.1f} to {max(ohms) * 1000:.1f} mΩ: one works harder")
    ages = [battery.age_years for battery in batteries if battery.age_years is not None]
    if ages and max(ages) - min(ages) > figures.MATCH_AGE_YEARS.value:
        found.append(f"age from {min(ages):g} to {max(ages):g} years")
    return tuple(found)
