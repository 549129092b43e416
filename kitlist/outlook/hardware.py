"""What hardware, bank and rods promise before anything is measured: what may be laminated.

Every battery is taken to hold between its reserve and full, as the card makes the crew check before they link.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from math import ceil

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Polarity
from kitlist.kit import Kit, Trip
from kitlist.kit.limits import Limits
from kitlist.kit.slips import without_slips
from kitlist.outlook.bank import BankOutlook, bank_outlook, told_of_starters
from kitlist.outlook.battery import BatteryOutlook, battery_outlook
from kitlist.outlook.rods import RodOutlook, rod_outlook
from kitlist.physics import figures
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.charge import Charge, rested_volts
from kitlist.welding.rods.shades import MOST_A, Minimum, minimum_shade, strictest_minimum


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareOutlook:
    """The bank and the rods on it. `go_v` is what every battery must show at rest; `shade` the least filter.

    `refused` has the batteries that must be in no bank, each with why.
    """

    bank: BankOutlook
    rods: tuple[RodOutlook, ...]
    go_v: float
    stop_v: float
    shade: int
    polarity: Polarity
    refused: Mapping[str, str] = field(default_factory=dict)


def hardware_outlook(kit: Kit, trip: Trip, *, on: date) -> HardwareOutlook:
    """The outlook of the trip's bank whatever its readings; the trip must have a bank."""
    kit = without_slips(kit, on=on)
    vehicles = {vehicle.name: vehicle for vehicle in kit.vehicles}
    batteries = {
        battery.name: battery_outlook(
            battery, (), trip, vehicle=vehicles.get(battery.vehicle or ""), on=on, limits=kit.limits
        )
        for battery in kit.travelling(trip)
    }
    batteries = {name: _held(battery) for name, battery in told_of_starters(trip, batteries).items()}
    bank = bank_outlook(kit, trip, batteries)
    full = bank_outlook(kit, trip, {name: _held(battery, low=1.0) for name, battery in batteries.items()})
    hot = kit.limits.hot_limit_ratio
    rods = tuple(
        _hottest(*(rod_outlook(rod, one, trip, hot_limit_ratio=hot) for one in (bank, full)))
        for rod in kit.rods
        if rod.count > 0
    )
    highest_a = max((rod.highest_a for rod in rods if rod.highest_a is not None), default=0.0)
    return HardwareOutlook(
        bank=bank,
        rods=rods,
        go_v=max((reserve_volts(batteries[name]) for name in trip.bank if name in batteries), default=0.0),
        stop_v=figures.LOAD_STOP_V.value,
        shade=least_shade(kit.limits, current_a=highest_a).shade,
        polarity=one_polarity(rods),
        refused={name: battery.refusal for name, battery in batteries.items() if battery.refusal},
    )


def _hottest(held: RodOutlook, full: RodOutlook) -> RodOutlook:
    """The rod on the bank as it is held; too hot where it is that on a full one: no reading makes it hotter."""
    return replace(held, fit=full.fit) if full.fit is Fit.TOO_HOT else held


def _held(battery: BatteryOutlook, *, low: float | None = None) -> BatteryOutlook:
    low = battery.reserve_ratio if low is None else low
    return replace(battery, charge=Charge(Span(low, (1 + low) / 2, 1.0)))


def least_shade(limits: Limits, *, current_a: float) -> Minimum:
    """The least shade at a current by the region that the rulebook names, else by the strictest."""
    region, current_a = limits.shade_region, min(max(current_a, 1.0), MOST_A)
    if region == "strictest":
        return strictest_minimum(current_a=current_a)
    return minimum_shade(region, current_a=current_a)


def reserve_volts(battery: BatteryOutlook) -> float:
    """Rested volts, V, at which a battery still has its reserve, up to 0.05 more; AGM's where its kind is not known."""
    kind = battery.battery.chemistry
    known = Chemistry.AGM if kind in (Chemistry.LITHIUM, Chemistry.UNKNOWN) else kind
    return ceil(round(rested_volts(soc_ratio=battery.reserve_ratio, chemistry=known) * 20, 6)) / 20


def one_polarity(rods: Iterable[RodOutlook]) -> Polarity:
    """The one polarity of the card: DCEP where every packed rod allows it, else what the rods leave, else DCEP."""
    return Polarity.DCEN if allowed_polarities(rods) == {Polarity.DCEN} else Polarity.DCEP


def allowed_polarities(rods: Iterable[RodOutlook]) -> set[Polarity]:
    """The polarities that all of the rods allow; one that does not state its own leaves both."""
    allowed = set(Polarity)
    for rod in rods:
        if rod.designation is not None and rod.designation.polarities:
            allowed &= set(rod.designation.polarities)
    return allowed


def polarity_not_said(rods: Iterable[RodOutlook]) -> str:
    """Why the packed rods give no one polarity: none says its own, some do not, or they differ; "" where they do."""
    read = [rod for rod in rods if rod.designation is not None]
    silent = [rod.rod.name for rod in read if rod.designation is not None and not rod.designation.polarities]
    if not read:
        return "no packed rod says one"
    if silent:
        return f"that of {', '.join(silent)} is not known"
    return "" if allowed_polarities(read) else "the packed rods need different ones"


def said_polarity(rods: Iterable[RodOutlook]) -> Polarity | None:
    """The one polarity of sheet and steps; None where the packed rods give none, and nobody may guess."""
    rods = tuple(rods)
    return None if polarity_not_said(rods) else one_polarity(rods)
