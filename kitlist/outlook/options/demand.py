"""What a bank is chosen for: the rods packed, the leads and links there are, the circumstances."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Covering
from kitlist.physics import figures
from kitlist.physics.bank.quickband import ArcMoments, LeadMoments, arc_moments, lead_moments
from kitlist.physics.bank.rig import Leads
from kitlist.physics.bank.verdict import Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedRod:
    """A packet of rods on the trip: its printed current range, the charge of one rod in Ah, its covering family.

    `count` is how many are packed: more rods to the reserve than that rank no bank higher. None: no such limit. What
    stands on the packet is kept for one that is not packed yet.
    """

    name: str
    range_low_a: float
    range_high_a: float
    charge_ah: Span
    covering: Covering | None = None
    count: int | None = None
    designation: str = ""
    diameter_mm: float = 0.0
    length_mm: float = 0.0

    def counted(self, rods: int) -> int:
        """Rods to the reserve, as far as there are rods to burn."""
        return rods if self.count is None else min(rods, self.count)


@dataclass(frozen=True, kw_only=True)
class Demand:
    """What the bank is for, and what there is to make it with.

    `leads` are holder and work lead with their joints; `link_ohm_20c` one link by table at 20 °C; `links` how many
    there are (None: enough). `least_rods` to the reserve, `worst_fit` the poorest fit still taken, `hot_limit_ratio`
    over how much of a rod's range it is too hot. `starters` is how many starting batteries travel, those too that may
    not be linked (None: as many as may be). `most_v` is what a full bank may show, where the trip is wet or nobody has
    said that it is not. Four in series only with ballast, and never where `most_v` holds.
    """

    rods: tuple[PackedRod, ...]
    leads: Leads
    link_ohm_20c: float = 0.0004
    links: int | None = None
    least_rods: int = 1
    worst_fit: Fit = Fit.HOT
    hot_limit_ratio: float = figures.HOT_LIMIT.value
    in_series: tuple[int, ...] = (2, 3)
    strings: int = 2
    most_v: float | None = None
    starters: int | None = None
    temp_c: Span = field(default_factory=lambda: Span.of(figures.BATTERY_TEMP_C))

    def __post_init__(self) -> None:
        if not self.rods:
            raise BadData("no rods packed: nothing to choose a bank for")
        if not self.in_series or not set(self.in_series) <= {2, 3, 4}:
            raise OutOfRange(f"{self.in_series} batteries in series: 2, 3, or 4 with ballast")
        if self.strings not in (1, 2):
            raise OutOfRange(f"{self.strings} parallel strings: 1 or 2")
        if 4 in self.in_series and not self.bears_four:
            raise BadData("four in series is about 50 V: only with ballast, and never in the wet")
        for rod in self.rods:
            if rod.count is not None and rod.count < 1:
                raise OutOfRange(f"{rod.name}: {rod.count} rods packed")
            if rod.charge_ah.best <= 0.0:
                raise OutOfRange(f"{rod.name}: a rod of {rod.charge_ah.best:g} Ah burns nothing")

    @property
    def bears_four(self) -> bool:
        """Whether four in series may be looked at: with ballast, and where no volts are too many."""
        return self.most_v is None and self.leads.ballast_ohm > 0.0

    @cached_property
    def lead(self) -> LeadMoments:
        """Means of the leads."""
        return lead_moments(self.leads)

    @cached_property
    def link_ohm(self) -> float:
        """What one link really has, mean, ohm."""
        return self.link_ohm_20c * self.lead.conductor_ratio

    @cached_property
    def coverings(self) -> tuple[tuple[ArcMoments, tuple[int, ...]], ...]:
        """Each arc that the rods burn with, and the rods that share it."""
        by_arc: dict[ArcMoments, list[int]] = {}
        for index, rod in enumerate(self.rods):
            by_arc.setdefault(arc_moments(rod.covering), []).append(index)
        return tuple((arc, tuple(indexes)) for arc, indexes in by_arc.items())

    @cached_property
    def least_charge_ah(self) -> float:
        """Charge of the least thirsty rod, Ah."""
        return min(rod.charge_ah.best for rod in self.rods)


def links_needed(*, in_series: int, strings: int) -> int:
    """Link leads of a bank: n - 1 in each string, and two more for each further parallel string.

    >>> links_needed(in_series=3, strings=1), links_needed(in_series=3, strings=2)
    (2, 6)
    """
    return strings * (in_series - 1) + 2 * (strings - 1)
