"""Rod by rod: current, volts and charge of every battery, what ends it, how many rods to the reserve."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from math import exp, floor

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.measures import told
from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.span import Span
from kitlist.base.terms import Conductor, Covering
from kitlist.physics import figures
from kitlist.physics.arc.arc import Arc, arc_for, arc_through
from kitlist.physics.bank.network import Flow, Network, Unit, feed, thevenin
from kitlist.physics.bank.rig import BankBattery, Rig
from kitlist.physics.battery.capacity import Wells, draw
from kitlist.physics.battery.charge import rested_volts
from kitlist.physics.leads import warming

_PARTS = 6
_MOST_RODS = 500


class Ending(StrEnum):
    """What ends the welding."""

    RESERVE = "a battery reaches its reserve"
    LOAD_VOLTS = "a battery falls under 9.6 V on load"
    AT_HAND = "a battery's charge at hand is spent; after hours of rest it may go on"
    LEAD_HEAT = "the leads reach what their insulation bears"
    NO_ARC = "the arc can no longer be held"
    RODS = "the rods are used up"


@dataclass(frozen=True, slots=True, kw_only=True)
class RodUse:
    """The rod to burn: charge of one rod in Ah (low, best, high), its covering family, how many there are."""

    charge_ah: Span
    count: int
    covering: Covering | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadHeat:
    """The thinnest lead of the circuit, for its warmth: area, metal, the air around it, what its insulation bears."""

    area_mm2: float
    conductor: Conductor = Conductor.COPPER
    ambient_c: float = 30.0
    limit_c: float = 85.0


class Assumption(StrEnum):
    """Which end of what is not known: the best guess, or the cautious end (charge low, rods thirsty)."""

    BEST = "best guess"
    CAUTIOUS = "cautious"


@dataclass(frozen=True, slots=True)
class BatteryState:
    """One battery after a rod: its current, its least volts while burning, charge left, charge at hand."""

    name: str
    current_a: float
    least_v: float
    soc_ratio: float
    at_hand_ah: float


@dataclass(frozen=True, slots=True)
class Burn:
    """One rod: current at its start and end, how long it burned, every battery, and the leads at its end."""

    number: int
    start_a: float
    end_a: float
    burn_s: float
    batteries: tuple[BatteryState, ...]
    lead_c: float | None


@dataclass(frozen=True, slots=True)
class Endurance:
    """How long it lasts. `rods` are whole rods within every limit; `why` says what ends it and on which battery.

    `plain_count` is the closed formula of ampere-hours to the reserve; `warned_at` the first rod on which a battery
    falls under 10.5 V.
    """

    burns: tuple[Burn, ...]
    rods: int
    ended_by: Ending
    why: str
    plain_count: int
    warned_at: int | None
    soc_ratio: Mapping[str, float]


@sourced(figures.RESERVE_WARM.source)
def reserve_ratio(
    *, coldest_c: float, charge_to_crank: float | None = None, takes_every_starter: bool = False
) -> float:
    """Charge that a battery keeps: 0.50, or 0.75 below 0 °C or when no starting battery stays out of the bank.

    `charge_to_crank` (from `cranking`) raises it where the engine needs more.

    >>> reserve_ratio(coldest_c=-6.0), reserve_ratio(coldest_c=5.0, charge_to_crank=0.62)
    (0.75, 0.62)
    """
    cold = coldest_c < 0.0 or takes_every_starter
    floor_ratio = figures.RESERVE_COLD.value if cold else figures.RESERVE_WARM.value
    return max(floor_ratio, charge_to_crank or 0.0)


@sourced(PRACTICE)
def rods_to_reserve(
    *, soc_ratio: float, reserve: float, capacity_ah: float, charge_ah: float, share_ratio: float = 1.0
) -> int:
    """Whole rods that one battery gives down to its reserve, by plain ampere-hours.

    `charge_ah` is one rod's; `share_ratio` this battery's part of the current (1 in plain series).

    >>> rods_to_reserve(soc_ratio=1.0, reserve=0.5, capacity_ah=70.0, charge_ah=2.05)
    17
    """
    if charge_ah <= 0.0:
        raise OutOfRange(f"a rod of {charge_ah:g} Ah burns nothing")
    if share_ratio <= 0.0:
        return _MOST_RODS
    return max(0, floor((soc_ratio - reserve) * capacity_ah / (charge_ah * share_ratio) + 1e-9))


class _Cell:
    """One battery while it burns rods: wells, slow polarisation, and what it looks like to the network."""

    def __init__(self, battery: BankBattery, case: Assumption, temp_c: float) -> None:
        if battery.capacity_ah is None:
            raise BadData(
                f"{battery.name}: 20 h capacity not known, so its rods cannot be counted",
                hint="read the label, or reckon it from reserve capacity",
            )
        self.battery, self.temp_c = battery, temp_c
        self.capacity_ah = battery.capacity_ah
        self.start_soc = battery.soc_ratio.low if case is Assumption.CAUTIOUS else battery.soc_ratio.best
        self.wells = Wells(self.start_soc * self.capacity_ah)
        self.slow_v = 0.0
        # What was read stays as read, however low the charge behind it is taken.
        read = battery.ocv_25_v is not None
        self.lift_v = battery.volts(temp_c=temp_c) - self._table_v(self.start_soc if read else battery.soc_ratio.best)
        self.least_v = 99.0
        self.current_a = 0.0

    def _table_v(self, soc: float) -> float:
        return rested_volts(soc_ratio=soc, chemistry=self.battery.table_chemistry, temp_c=self.temp_c)

    @property
    def soc(self) -> float:
        return min(1.0, max(0.0, self.wells.total_ah / self.capacity_ah))

    def unit(self) -> Unit:
        """Now: the reading's own offset from the table is kept while the charge falls."""
        return Unit(
            name=self.battery.name,
            ocv_v=self._table_v(self.soc) + self.lift_v - self.slow_v,
            ohm=self.battery.ohm(temp_c=self.temp_c, soc_ratio=self.soc),
            joint_ohm=2 * self.battery.post_joint_ohm.best,
        )

    def carry(self, *, current_a: float, seconds: float, terminal_v: float | None = None) -> None:
        """Let a constant current flow for a time: charge by the kinetic model, slow polarisation exponentially."""
        settled_v = current_a * figures.SLOW_RATIO.value * self.battery.ohm(temp_c=self.temp_c, soc_ratio=self.soc)
        left = exp(-seconds / figures.SLOW_TAU_S.value)
        rise_v = settled_v + (self.slow_v - settled_v) * left - self.slow_v
        self.slow_v += rise_v
        self.wells = draw(self.wells, current_a=current_a, hours=seconds / 3600.0)
        self.current_a = current_a
        if terminal_v is not None:
            self.least_v = min(self.least_v, terminal_v - rise_v)

    def state(self) -> BatteryState:
        return BatteryState(self.battery.name, self.current_a, self.least_v, self.soc, self.wells.at_hand_ah())


@sourced(figures.SLOW_RATIO.source, figures.KINETIC_C.source, figures.LOAD_STOP_V.source)
def burn_rods(
    rig: Rig,
    rod: RodUse,
    *,
    reserves: Mapping[str, float],
    pause_s: float = 120.0,
    middle_a: float | None = None,
    lead: LeadHeat | None = None,
    case: Assumption = Assumption.BEST,
) -> Endurance:
    """Burn rods one after the other, `pause_s` between them, until something ends it.

    Each rod takes its charge whatever the current; the current follows the falling volts. A battery stops the welding
    at its own reserve (by name in `reserves`, ratio), under 9.6 V on load, or with no charge at hand (kinetic model);
    the leads at what their insulation bears (adiabatic within a rod, cooling in the pause). `middle_a` is the middle of
    the current band: the arc's volts are then moved so that the bank meets it there; 0 burns nothing. Batteries stay
    at the rig's best temperature. Refused: a battery whose 20 h capacity is not known.

    >>> from kitlist.physics.bank.examples import in_series
    >>> rig = in_series(3)
    >>> rod = RodUse(charge_ah=Span(1.6, 2.05, 2.5), count=40)
    >>> run = burn_rods(rig, rod, reserves={battery.name: 0.5 for battery in rig.batteries})
    >>> run.rods, run.ended_by.name
    (12, 'RESERVE')
    """
    if not 0.0 <= pause_s <= 86400.0:
        raise OutOfRange(f"a pause of {pause_s:g} s is outside 0 to a day")
    network = rig.network()
    arc = _arc(network, rod, middle_a)
    cells = {battery.name: _Cell(battery, case, rig.temp_c.best) for battery in rig.batteries}
    missing = [name for name in cells if name not in reserves]
    if missing:
        raise BadData(f"no reserve given for {', '.join(missing)}")
    charge_ah = rod.charge_ah.high if case is Assumption.CAUTIOUS else rod.charge_ah.best
    lead_c = lead.ambient_c if lead else None
    burns: list[Burn] = []
    ended, why = Ending.RODS, f"all {rod.count} rods burn"
    shares = _shares(_network_now(network, cells), arc)
    if middle_a is not None and middle_a <= 0.0:
        return Endurance((), 0, Ending.NO_ARC, "more likely than not there is no arc to hold", 0, None, _start(cells))
    for number in range(1, min(rod.count, _MOST_RODS) + 1):
        if burns and pause_s:
            for cell in cells.values():
                cell.carry(current_a=0.0, seconds=pause_s)
            if lead and lead_c is not None:
                rise = warming.after_pause(rise_k=lead_c - lead.ambient_c, pause_s=pause_s, area_mm2=lead.area_mm2)
                lead_c = lead.ambient_c + rise
        burn = _one_rod(number, cells, network, arc, charge_ah)
        if burn is None:
            ended, why = Ending.NO_ARC, f"rod {number}: {Ending.NO_ARC}"
            break
        if lead and lead_c is not None:
            lead_c = _warmed(lead, lead_c, burn)
            burn = replace(burn, lead_c=lead_c)
        stop = _what_ends(burn, reserves, lead)
        if stop is not None:
            ended, why = stop
            break
        burns.append(burn)
    plain = _plain_count(cells, reserves, charge_ah, shares)
    warned = next((b.number for b in burns if any(s.least_v < figures.LOAD_WARN_V.value for s in b.batteries)), None)
    left = {state.name: state.soc_ratio for state in burns[-1].batteries} if burns else _start(cells)
    return Endurance(tuple(burns), len(burns), ended, why, plain, warned, left)


def _arc(network: Network, rod: RodUse, middle_a: float | None) -> Arc:
    arc = arc_for(rod.covering)
    if middle_a is None or middle_a <= 0.0:
        return arc
    seen = thevenin(network)
    return arc_through(source_v=seen.emf_v, source_ohm=seen.ohm, current_a=middle_a, arc=arc)


def _shares(network: Network, arc: Arc) -> dict[str, float]:
    """Each battery's part of the bank's current when it is fresh."""
    flow = feed(network, arc)
    if not flow.point.burns:
        return {}
    return {battery.name: battery.current_a / flow.point.current_a for battery in flow.batteries}


def _start(cells: Mapping[str, _Cell]) -> dict[str, float]:
    return {name: cell.start_soc for name, cell in cells.items()}


def _network_now(network: Network, cells: Mapping[str, _Cell]) -> Network:
    groups = tuple(tuple(cells[unit.name].unit() for unit in group) for group in network.groups)
    return replace(network, groups=groups)


def _one_rod(number: int, cells: Mapping[str, _Cell], network: Network, arc: Arc, charge_ah: float) -> Burn | None:
    """Burn one rod in equal parts of its charge; None where the arc cannot be held to its end."""
    for cell in cells.values():
        cell.least_v = 99.0
    start_a = burn_s = 0.0
    flow: Flow | None = None
    for part in range(_PARTS):
        flow = feed(_network_now(network, cells), arc)
        if not flow.point.burns:
            return None
        if part == 0:
            start_a = flow.point.current_a
        seconds = 3600.0 * charge_ah / _PARTS / flow.point.current_a
        burn_s += seconds
        for own in flow.batteries:
            # The network sees slow polarisation as lower rested volts, so its terminal volts are the true ones.
            cells[own.name].carry(current_a=own.current_a, seconds=seconds, terminal_v=own.terminal_v)
    end = feed(_network_now(network, cells), arc)
    states = tuple(cell.state() for cell in cells.values())
    return Burn(number, start_a, end.point.current_a, burn_s, states, None)


def _warmed(lead: LeadHeat, lead_c: float, burn: Burn) -> float:
    current_a = max(burn.start_a, burn.end_a)
    try:
        return lead_c + warming.rise_per_rod(
            current_a=current_a,
            burn_s=burn.burn_s,
            area_mm2=lead.area_mm2,
            start_c=lead_c,
            conductor=lead.conductor,
        )
    except OutOfRange:
        return float("inf")


def _what_ends(burn: Burn, reserves: Mapping[str, float], lead: LeadHeat | None) -> tuple[Ending, str] | None:
    for state in sorted(burn.batteries, key=lambda state: state.least_v):
        if state.least_v < figures.LOAD_STOP_V.value:
            return Ending.LOAD_VOLTS, f"rod {burn.number}: {state.name} falls to {state.least_v:.1f} V on load"
    for state in burn.batteries:
        if state.soc_ratio < reserves[state.name] - 1e-9:
            reserve = reserves[state.name]
            return Ending.RESERVE, f"rod {burn.number} would take {state.name} under {reserve:.0%} of its charge"
        if state.at_hand_ah <= 0.0:
            return Ending.AT_HAND, f"rod {burn.number}: {state.name} has no charge at hand, let it rest"
    if lead is not None and burn.lead_c is not None and burn.lead_c > lead.limit_c:
        return (
            Ending.LEAD_HEAT,
            f"rod {burn.number}: {told(lead.area_mm2, 'mm²')} lead over {told(lead.limit_c, '°C')}, pause longer",
        )
    return None


def _plain_count(
    cells: Mapping[str, _Cell], reserves: Mapping[str, float], charge_ah: float, shares: Mapping[str, float]
) -> int:
    return min(
        rods_to_reserve(
            soc_ratio=cell.start_soc,
            reserve=reserves[name],
            capacity_ah=cell.capacity_ah,
            charge_ah=charge_ah,
            share_ratio=shares.get(name, 1.0),
        )
        for name, cell in cells.items()
    )
