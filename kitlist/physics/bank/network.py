"""The bank as a network: batteries in series, one string or several in parallel; who carries which current.

Everything here is one set of numbers. The band over all that is not known stands in `band`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import Source, Tag, sourced
from kitlist.physics import figures
from kitlist.physics.arc.arc import Arc, OperatingPoint, longest_arc, operating_point

_NETWORK = Source(Tag.DERIVED, "Kirchhoff's laws, Thevenin and Norton equivalents")
_MOST_ROUNDS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One battery as numbers: rested volts, its own resistance, the joints at its posts, its activation drop."""

    name: str
    ocv_v: float
    ohm: float
    joint_ohm: float = 0.0
    activation_v: float = figures.ACTIVATION_V.value

    def __post_init__(self) -> None:
        if self.branch_ohm <= 0.0:
            raise OutOfRange(f"{self.name}: resistance {self.branch_ohm:g} ohm is not over 0")
        if self.ohm < 0.0 or self.joint_ohm < 0.0 or self.activation_v < 0.0:
            raise OutOfRange(f"{self.name}: resistance, joints and activation drop cannot be under 0")

    @property
    def branch_ohm(self) -> float:
        """Battery and its joints, ohm."""
        return self.ohm + self.joint_ohm


@dataclass(frozen=True, slots=True)
class Thevenin:
    """A bank seen from its ends: volts behind a resistance. `ocv_v` is what a meter shows at rest."""

    emf_v: float
    ohm: float
    ocv_v: float


_Branch = tuple[float, float, float]
"""Rested volts, activation drop, resistance."""


@dataclass(frozen=True, kw_only=True)
class Network:
    """Groups of batteries and the leads to the arc.

    Each group is a string in series, the groups are in parallel; one group is a plain series bank. `group_ohm` is the
    link leads of each string; `external_ohm` is everything from the bank's ends to rod and work.
    """

    groups: tuple[tuple[Unit, ...], ...]
    group_ohm: tuple[float, ...] = ()
    external_ohm: float = 0.0

    def __post_init__(self) -> None:
        if not self.groups or not all(self.groups):
            raise BadData("a bank needs at least one battery in each group")
        if self.group_ohm and len(self.group_ohm) != len(self.groups):
            raise BadData(f"{len(self.group_ohm)} link resistances do not fit {len(self.groups)} groups")
        if self.external_ohm < 0.0 or any(ohm < 0.0 for ohm in self.group_ohm):
            raise OutOfRange("lead resistance cannot be under 0")

    @property
    def units(self) -> tuple[Unit, ...]:
        """Every battery, group by group."""
        return tuple(unit for group in self.groups for unit in group)

    @property
    def links_ohm(self) -> tuple[float, ...]:
        """Link resistance of each group, 0 where none was given."""
        return self.group_ohm or (0.0,) * len(self.groups)

    @cached_property  # asked for several times a part of a rod
    def branches(self) -> tuple[_Branch, ...]:
        """The strings as parallel branches."""
        return tuple(
            (
                sum(unit.ocv_v for unit in group),
                sum(unit.activation_v for unit in group),
                sum(unit.branch_ohm for unit in group) + link_ohm,
            )
            for group, link_ohm in zip(self.groups, self.links_ohm, strict=True)
        )

    @cached_property
    def at_rest(self) -> Thevenin:
        """The bank with its leads, every string of it at work."""
        rest_v, _ = norton_sum([(ocv, ohm) for ocv, _, ohm in self.branches])
        emf, ohm = norton_sum([(ocv - va, ohm) for ocv, va, ohm in self.branches])
        return Thevenin(emf, ohm + self.external_ohm, rest_v)


@dataclass(frozen=True, slots=True)
class BatteryFlow:
    """One battery in the bank: its own current (discharging is positive) and the volts across its posts."""

    name: str
    current_a: float
    terminal_v: float


@dataclass(frozen=True, slots=True)
class Flow:
    """A bank feeding an arc: the operating point, the volts at the bank's ends and every battery's own share."""

    point: OperatingPoint
    bank_v: float
    batteries: tuple[BatteryFlow, ...]
    thevenin: Thevenin


@sourced(_NETWORK)
def norton_sum(branches: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """(E, R) of branches (E, R) in parallel, V and ohm: G = sum 1/R, E = sum(E/R)/G.

    >>> norton_sum([(27.0, 4.0), (27.0, 4.0)])
    (27.0, 2.0)
    """
    if not branches:
        raise BadData("no branch to join in parallel")
    conductance = sum(1.0 / ohm for _, ohm in branches)
    return sum(emf / ohm for emf, ohm in branches) / conductance, 1.0 / conductance


def _split(branches: Sequence[_Branch], total_a: float) -> tuple[float, list[float]]:
    """Volts across parallel branches and the current of each, when they deliver `total_a` together.

    A branch delivers above nothing only under (ocv - activation), takes charge only over (ocv + activation), and
    stands idle between. Each round keeps the branches' states and solves the rest; the states settle in a few rounds.
    """
    states = [1] * len(branches)
    for _ in range(_MOST_ROUNDS):
        live = [(ocv - state * va, ohm) for (ocv, va, ohm), state in zip(branches, states, strict=True) if state]
        if not live:
            return branches[0][0], [0.0] * len(branches)
        emf, ohm = norton_sum(live)
        volts = emf - ohm * total_a
        now = [1 if volts < ocv - va else -1 if volts > ocv + va else 0 for ocv, va, _ in branches]
        if now == states:
            break
        states = now
    currents = [
        (ocv - state * va - volts) / ohm if state else 0.0
        for (ocv, va, ohm), state in zip(branches, states, strict=True)
    ]
    return volts, currents


@sourced(_NETWORK, figures.ACTIVATION_V.source)
def flow_at(network: Network, *, current_a: float) -> tuple[float, tuple[BatteryFlow, ...]]:
    """Volts at the bank's ends and every battery's flow when the bank delivers `current_a` (0 is at rest).

    At rest the activation drop is left out: a slow circulating current meets none.

    >>> a, b = Unit(name="a", ocv_v=12.65, ohm=0.006), Unit(name="b", ocv_v=12.15, ohm=0.006)
    >>> volts, flows = flow_at(Network(groups=((a,), (b,)), group_ohm=(0.001, 0.001)), current_a=0.0)
    >>> round(flows[0].current_a, 1), round(flows[1].current_a, 1)
    (35.7, -35.7)
    """
    share = 1.0 if current_a > 0.0 else 0.0
    bank_v, currents = _split([(ocv, va * share, ohm) for ocv, va, ohm in network.branches], current_a)
    flows = tuple(
        _battery_flow(unit, string_a, share)
        for group, string_a in zip(network.groups, currents, strict=True)
        for unit in group
    )
    return bank_v, flows


def _battery_flow(unit: Unit, current_a: float, activation_share: float) -> BatteryFlow:
    sign = (current_a > 0.0) - (current_a < 0.0)
    terminal_v = unit.ocv_v - sign * unit.activation_v * activation_share - current_a * unit.ohm
    return BatteryFlow(unit.name, current_a, terminal_v)


def thevenin(network: Network, *, at_a: float = 0.0) -> Thevenin:
    """The bank with its leads from rod and work: volts less activation, resistance, and the rested volts.

    `at_a` is the current round which it holds; only strings of very unequal volts make it matter.

    >>> three = tuple(Unit(name=n, ocv_v=12.65, ohm=0.005) for n in "abc")
    >>> seen = thevenin(Network(groups=(three,), external_ohm=0.01))
    >>> round(seen.emf_v, 2), round(seen.ohm, 4), round(seen.ocv_v, 2)
    (36.75, 0.025, 37.95)
    """
    if at_a <= 0.0:
        return network.at_rest
    branches = network.branches
    _, currents = _split(branches, at_a)
    live = [
        (ocv - (va if amps > 0.0 else -va), ohm)
        for (ocv, va, ohm), amps in zip(branches, currents, strict=True)
        if amps != 0.0
    ]
    emf, ohm = norton_sum(live)
    return Thevenin(emf, ohm + network.external_ohm, network.at_rest.ocv_v)


@sourced(_NETWORK, figures.ARC_FOOT_V.source)
def feed(network: Network, arc: Arc | None = None) -> Flow:
    """The bank feeding an arc: operating point in closed form, then every battery's own current and volts.

    >>> three = tuple(Unit(name=n, ocv_v=12.65, ohm=0.005) for n in "abc")
    >>> flow = feed(Network(groups=(three,), external_ohm=0.01))
    >>> round(flow.point.current_a), round(min(battery.terminal_v for battery in flow.batteries), 2)
    (254, 10.98)
    """
    arc = arc or Arc()
    seen = thevenin(network)
    point = _meet(seen, arc)
    # One string looks the same at every current; of several, one may stand idle or be charged at another current.
    for _ in range(_MOST_ROUNDS if len(network.groups) > 1 else 0):
        again = thevenin(network, at_a=point.current_a)
        if again == seen or not point.burns:
            break
        seen, point = again, _meet(again, arc)
    bank_v, flows = flow_at(network, current_a=point.current_a)
    return Flow(point, bank_v, flows, seen)


def _meet(seen: Thevenin, arc: Arc) -> OperatingPoint:
    return operating_point(source_v=max(0.0, seen.emf_v), source_ohm=seen.ohm, ocv_v=seen.ocv_v, arc=arc)


def longest_held(network: Network, arc: Arc | None = None) -> float:
    """The longest arc that the bank holds, mm; 0 where it holds none. For two batteries the arc to keep under.

    >>> two = tuple(Unit(name=n, ocv_v=12.65, ohm=0.007) for n in "ab")
    >>> 1.0 < longest_held(Network(groups=(two,), external_ohm=0.01)) < 4.0
    True
    """
    seen = thevenin(network)
    return longest_arc(source_v=max(0.0, seen.emf_v), source_ohm=seen.ohm, arc=arc)


@dataclass(frozen=True, slots=True)
class StuckRod:
    """A rod that sticks: current of the whole bank and of each battery, A."""

    current_a: float
    batteries: tuple[BatteryFlow, ...]


@sourced(_NETWORK)
def stuck_rod(network: Network) -> StuckRod:
    """What flows when the rod sticks: the sum of rested volts over all resistance, activation left out (upper bound).

    >>> three = tuple(Unit(name=n, ocv_v=12.65, ohm=0.005) for n in "abc")
    >>> round(stuck_rod(Network(groups=(three,), external_ohm=0.01)).current_a)
    1518
    """
    bare = Network(
        groups=tuple(tuple(_without_activation(unit) for unit in group) for group in network.groups),
        group_ohm=network.group_ohm,
        external_ohm=network.external_ohm,
    )
    seen = thevenin(bare)
    current_a = seen.ocv_v / seen.ohm
    _, flows = flow_at(bare, current_a=current_a)
    return StuckRod(current_a, flows)


def _without_activation(unit: Unit) -> Unit:
    return Unit(name=unit.name, ocv_v=unit.ocv_v, ohm=unit.ohm, joint_ohm=unit.joint_ohm, activation_v=0.0)
