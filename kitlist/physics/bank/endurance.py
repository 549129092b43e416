"""Rod by rod: current, volts and charge of every battery, what ends it, how many rods to the reserve."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from math import exp, inf

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import sourced
from kitlist.base.span import Span
from kitlist.base.terms import Conductor, Covering
from kitlist.physics import figures
from kitlist.physics.arc.arc import Arc, arc_for, arc_through, lengths_held, longest_arc
from kitlist.physics.bank.network import Network, Unit, feed, thevenin
from kitlist.physics.bank.rig import BankBattery, Rig
from kitlist.physics.battery.capacity import Wells, draw
from kitlist.physics.battery.charge import rested_volts
from kitlist.physics.battery.cold import capacity_ratio
from kitlist.physics.leads import warming

_PARTS = 6
_STANDARD_C = 25.0
_USUAL = Span.of(figures.ARC_LENGTH_MM)
_LIKELY = (_USUAL.best - _USUAL.low) / _USUAL.width
_STEADY_K = 1e-6
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
    """One rod: current at its start and end, A, how long it burned, s, and every battery."""

    number: int
    start_a: float
    end_a: float
    burn_s: float
    batteries: tuple[BatteryState, ...]


@dataclass(frozen=True, slots=True)
class Endurance:
    """How long it lasts. `rods` are whole rods within every limit; `ended_by` what ends it, `on` on which battery.

    `soc_ratio` is what each battery then has left, `share_ratio` its part of the bank's current.
    """

    burns: tuple[Burn, ...]
    rods: int
    ended_by: Ending
    on: str
    soc_ratio: Mapping[str, float]
    share_ratio: Mapping[str, float]


class _Cell:
    """One battery while it burns rods: wells, slow polarisation, and what it looks like to the network.

    Charge falls by plain ampere-hours; what cold leaves at hand is in the wells, and comes forward the slower.
    """

    def __init__(self, battery: BankBattery, temp_c: float) -> None:
        if battery.capacity_ah is None:
            raise BadData(
                f"{battery.name}: 20 h capacity not known, so its rods cannot be counted",
                hint="read the label: ampere-hours at the 20 h rate",
            )
        self.battery, self.temp_c = battery, temp_c
        self.capacity_ah = battery.capacity_ah
        self.start_soc = battery.soc_ratio.best
        self.drawn_ah = 0.0
        taken = 1.0 - capacity_ratio(temp_c=temp_c).best
        self.wells = Wells(max(0.0, self.start_soc - taken) * self.capacity_ah)
        colder_k = min(temp_c, _STANDARD_C) - _STANDARD_C
        self.rate_per_h = figures.KINETIC_K_PER_H.value * exp(figures.KINETIC_COLD_PER_K.value * colder_k)
        self.slow_v = 0.0
        self.lift_v = battery.volts(temp_c=temp_c) - self._table_v(self.start_soc)
        self.least_v = 99.0
        self.current_a = 0.0
        self.now_ohm: float | None = None

    def _table_v(self, soc: float) -> float:
        return rested_volts(soc_ratio=soc, chemistry=self.battery.table_chemistry, temp_c=self.temp_c)

    @property
    def soc(self) -> float:
        return min(1.0, max(0.0, self.start_soc - self.drawn_ah / self.capacity_ah))

    def ohm(self) -> float:
        """Now: worked out once between two draws."""
        self.now_ohm = self.now_ohm or self.battery.ohm(temp_c=self.temp_c, soc_ratio=self.soc)
        return self.now_ohm

    def unit(self) -> Unit:
        """Now: the reading's own offset from the table is kept while the charge falls."""
        return Unit(
            name=self.battery.name,
            ocv_v=self._table_v(self.soc) + self.lift_v - self.slow_v,
            ohm=self.ohm(),
            joint_ohm=2 * self.battery.post_joint_ohm.best,
        )

    def carry(self, *, current_a: float, seconds: float, terminal_v: float | None = None) -> None:
        """Let a constant current flow for a time: charge by the kinetic model, slow polarisation exponentially."""
        settled_v = current_a * figures.SLOW_RATIO.value * self.ohm() if current_a else 0.0
        left = exp(-seconds / figures.SLOW_TAU_S.value)
        rise_v = settled_v + (self.slow_v - settled_v) * left - self.slow_v
        self.slow_v += rise_v
        hours = seconds / 3600.0
        if current_a:
            self.drawn_ah += current_a * hours
            self.now_ohm = None
        self.wells = draw(self.wells, current_a=current_a, hours=hours, rate_per_h=self.rate_per_h)
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
    arc: Arc | None = None,
) -> Endurance:
    """Burn rods one after the other, `pause_s` between them, until something ends it.

    Each rod takes its charge whatever the current; the current follows the falling volts, and the hand follows what the
    bank still holds. A battery stops the welding at its own reserve (by name in `reserves`, ratio), under 9.6 V on
    load, or with no charge at hand (kinetic model, less of it in the cold). What the leads
    bear is `rods_by_leads`. `arc` is the arc to burn, as `arc_of_band` gives it; else the usual one of the covering.
    Batteries stay at the rig's best temperature. Raises BadData for a battery without a capacity.

    >>> from kitlist.physics.bank.examples import in_series
    >>> rig = in_series(3)
    >>> rod = RodUse(charge_ah=Span(1.6, 2.05, 2.5), count=40)
    >>> run = burn_rods(rig, rod, reserves={battery.name: 0.55 for battery in rig.batteries})
    >>> run.rods, run.ended_by.name
    (11, 'RESERVE')
    """
    if not 0.0 <= pause_s <= 86400.0:
        raise OutOfRange(f"a pause of {pause_s:g} s is outside 0 to a day")
    network = rig.network()
    arc = arc or arc_for(rod.covering)
    cells = {battery.name: _Cell(battery, rig.temp_c.best) for battery in rig.batteries}
    missing = [name for name in cells if name not in reserves]
    if missing:
        raise BadData(f"no reserve given for {', '.join(missing)}")
    burns: list[Burn] = []
    ended, on = Ending.RODS, ""
    for number in range(1, min(rod.count, _MOST_RODS) + 1):
        if burns and pause_s:
            for cell in cells.values():
                cell.carry(current_a=0.0, seconds=pause_s)
        burn = _one_rod(number, cells, network, arc, rod.charge_ah.best)
        if burn is None:
            ended = Ending.NO_ARC
            break
        stop = _what_ends(burn, reserves)
        if stop is not None:
            ended, on = stop
            break
        burns.append(burn)
    start = {name: cell.start_soc for name, cell in cells.items()}
    left = {state.name: state.soc_ratio for state in burns[-1].batteries} if burns else start
    return Endurance(tuple(burns), len(burns), ended, on, left, shares_of(rig, arc))


@dataclass(frozen=True, slots=True)
class LoadLimits:
    """What ends the rods of a bank that starts full, battery by battery, before its charge is at what it keeps.

    `ended_by` has each battery that gives out on load, with how, and `soc_ratio` the charge at which it does. `burns`
    are the rods that burned until the last of them, `share_ratio` each battery's part of the current.
    """

    ended_by: Mapping[str, Ending]
    soc_ratio: Mapping[str, float]
    burns: tuple[Burn, ...]
    share_ratio: Mapping[str, float]


@sourced(figures.KINETIC_C.source, figures.LOAD_STOP_V.source)
def load_limits(
    rig: Rig, rod: RodUse, *, reserves: Mapping[str, float], pause_s: float = 120.0, arc: Arc | None = None
) -> LoadLimits:
    """Rods burned on until every battery is at its reserve or has given out: what each would do, not the first alone.

    Alike batteries so have alike limits, whichever is named first. As `burn_rods` otherwise.

    >>> from kitlist.physics.bank.examples import in_series
    >>> rig = in_series(3)
    >>> rod = RodUse(charge_ah=Span(1.6, 2.05, 2.5), count=9)
    >>> seen = load_limits(rig, rod, reserves={battery.name: 0.5 for battery in rig.batteries})
    >>> dict(seen.ended_by), len(seen.burns)
    ({}, 12)
    """
    network, arc = rig.network(), arc or arc_for(rod.covering)
    cells = {battery.name: _Cell(battery, rig.temp_c.best) for battery in rig.batteries}
    ended: dict[str, Ending] = {}
    at: dict[str, float] = {}
    burns: list[Burn] = []
    for number in range(1, _MOST_RODS + 1):
        before = {name: cell.soc for name, cell in cells.items()}
        open_ = [name for name in cells if name not in ended and before[name] > reserves[name]]
        if not open_:
            break
        if number > 1 and pause_s:
            for cell in cells.values():
                cell.carry(current_a=0.0, seconds=pause_s)
        burn = _one_rod(number, cells, network, arc, rod.charge_ah.best)
        states = {} if burn is None else {state.name: state for state in burn.batteries}
        for name in open_:
            how = Ending.NO_ARC if burn is None else _gives_out(states[name])
            if how is not None:
                ended[name], at[name] = how, before[name]
        if burn is None:
            break
        if not ended and all(states[name].soc_ratio >= reserves[name] - 1e-9 for name in open_):
            burns.append(burn)
    return LoadLimits(ended, at, tuple(burns), shares_of(rig, arc))


def _gives_out(state: BatteryState) -> Ending | None:
    """How a battery gave out in the rod that it just burned; None where it did not."""
    if state.least_v < figures.LOAD_STOP_V.value:
        return Ending.LOAD_VOLTS
    return Ending.AT_HAND if state.at_hand_ah <= 0.0 else None


def first_rod(rig: Rig, rod: RodUse, *, arc: Arc) -> Burn | None:
    """The first rod of a bank as it is, which runs hottest; None where its arc cannot be held to its end.

    >>> from kitlist.physics.bank.examples import in_series
    >>> one = first_rod(in_series(3), RodUse(charge_ah=Span(1.6, 2.05, 2.5), count=1), arc=arc_for())
    >>> one.start_a > one.end_a
    True
    """
    cells = {battery.name: _Cell(battery, rig.temp_c.best) for battery in rig.batteries}
    return _one_rod(1, cells, rig.network(), arc, rod.charge_ah.best)


def rods_by_leads(burn: Burn, lead: LeadHeat, *, pause_s: float = 120.0) -> int | None:
    """Rods like `burn` one after the other before a lead passes what its insulation bears; None where it never does.

    Adiabatic within a rod, cooling in the pause.

    >>> burn = Burn(1, 180.0, 170.0, 60.0, ())
    >>> rods_by_leads(burn, LeadHeat(area_mm2=6.0)), rods_by_leads(burn, LeadHeat(area_mm2=35.0))
    (0, None)
    """
    lead_c, before_c = lead.ambient_c, -inf
    for done in range(_MOST_RODS):
        if done and pause_s:
            rise_k = warming.after_pause(rise_k=lead_c - lead.ambient_c, pause_s=pause_s, area_mm2=lead.area_mm2)
            lead_c = lead.ambient_c + rise_k
        lead_c = _warmed(lead, lead_c, burn)
        if lead_c > lead.limit_c:
            return done
        if lead_c - before_c < _STEADY_K:
            return None  # each rod now ends as warm as the one before
        before_c = lead_c
    return None


def arc_of_band(rig: Rig, covering: Covering | None, *, middle_a: float) -> Arc:
    """The arc of a covering, its volts moved so that the bank meets it at the middle of its band, held as it is held.

    >>> from kitlist.physics.bank.examples import in_series
    >>> arc = arc_of_band(in_series(3), None, middle_a=180.0)
    >>> round(feed(in_series(3).network(), arc).point.current_a)
    180
    """
    seen, usual = thevenin(rig.network()), arc_for(covering)
    held = _as_held(usual, seen.emf_v, seen.ohm) or usual
    return arc_through(source_v=seen.emf_v, source_ohm=seen.ohm, current_a=middle_a, arc=held)


def shares_of(rig: Rig, arc: Arc) -> dict[str, float]:
    """Each battery's part of the bank's current with an arc; empty where it does not burn.

    >>> from kitlist.physics.bank.examples import in_series
    >>> round(shares_of(in_series(3), arc_for())["battery 1"], 9)
    1.0
    """
    flow = feed(rig.network(), arc)
    if not flow.point.burns:
        return {}
    return {battery.name: battery.current_a / flow.point.current_a for battery in flow.batteries}


def _as_held(arc: Arc, source_v: float, source_ohm: float) -> Arc | None:
    """The arc as long as a hand most likely holds it on this bank: the usual length, drawn in with the range it has."""
    low, high = lengths_held(longest_mm=longest_arc(source_v=max(0.0, source_v), source_ohm=source_ohm, arc=arc))
    return replace(arc, length_mm=low + _LIKELY * (high - low)) if high > 0.0 else None


def _network_now(network: Network, cells: Mapping[str, _Cell]) -> Network:
    groups = tuple(tuple(cells[unit.name].unit() for unit in group) for group in network.groups)
    return replace(network, groups=groups)


def _one_rod(number: int, cells: Mapping[str, _Cell], network: Network, arc: Arc, charge_ah: float) -> Burn | None:
    """Burn one rod in equal parts of its charge; None where the arc cannot be held to its end."""
    for cell in cells.values():
        cell.least_v = 99.0
    start_a = burn_s = 0.0
    held: Arc | None = None
    for part in range(_PARTS):
        now = _network_now(network, cells)
        seen = thevenin(now)
        held = _as_held(arc, seen.emf_v, seen.ohm)
        if held is None:
            return None
        flow = feed(now, held)
        if not flow.point.burns:
            return None
        if part == 0:
            start_a = flow.point.current_a
        seconds = 3600.0 * charge_ah / _PARTS / flow.point.current_a
        burn_s += seconds
        for own in flow.batteries:
            # The network sees slow polarisation as lower rested volts, so its terminal volts are the true ones.
            cells[own.name].carry(current_a=own.current_a, seconds=seconds, terminal_v=own.terminal_v)
    end = feed(_network_now(network, cells), held)
    states = tuple(cell.state() for cell in cells.values())
    return Burn(number, start_a, end.point.current_a, burn_s, states)


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


def _what_ends(burn: Burn, reserves: Mapping[str, float]) -> tuple[Ending, str] | None:
    for state in sorted(burn.batteries, key=lambda state: state.least_v):
        if state.least_v < figures.LOAD_STOP_V.value:
            return Ending.LOAD_VOLTS, state.name
    for state in burn.batteries:
        if state.soc_ratio < reserves[state.name] - 1e-9:
            return Ending.RESERVE, state.name
        if state.at_hand_ah <= 0.0:
            return Ending.AT_HAND, state.name
    return None
