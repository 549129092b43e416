"""What hardware, bank and rods promise before anything is measured: what may be laminated.

Every battery is taken to hold between its reserve and full, as the card makes the crew check before they link.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.span import Span
from kitlist.base.terms import Polarity
from kitlist.kit import Kit, Trip
from kitlist.kit.limits import Limits
from kitlist.kit.slips import without_slips
from kitlist.outlook.bank import BankOutlook, bank_outlook, with_starters_kept
from kitlist.outlook.battery import BatteryOutlook, battery_outlook
from kitlist.outlook.linkable import BankBar
from kitlist.outlook.own_rods import rods_taught
from kitlist.outlook.rods import RodOutlook, best_of, rod_outlook
from kitlist.physics import figures
from kitlist.physics.bank.rods_by_volts import SCREEN_V, VoltMarks
from kitlist.physics.bank.verdict import hotter
from kitlist.physics.battery.charge import Charge
from kitlist.welding.rods.shades import MOST_A, Minimum, minimum_shade, strictest_minimum


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareOutlook:
    """The bank and the rods on it. `marks` are each battery's go and after volts; `shade` the least filter.

    `asked` has the packets that the go volts are for, each with the rods that the hardest repair of the trip takes of
    it, one where no repair is named; `bars` what forbids that this bank is linked, whatever its readings.
    """

    bank: BankOutlook
    rods: tuple[RodOutlook, ...]
    marks: Mapping[str, VoltMarks]
    stop_v: float
    shade: int
    polarity: Polarity
    bars: tuple[BankBar, ...] = ()
    asked: tuple[tuple[str, int], ...] = ()


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
    kept = with_starters_kept(kit, trip, batteries)
    bank = bank_outlook(kit, trip, {name: _held(battery) for name, battery in kept.items()})
    full = bank_outlook(kit, trip, {name: _held(battery, low=1.0) for name, battery in kept.items()})
    hot, taught = kit.limits.hot_limit_ratio, rods_taught(kit, on=on)
    seen = (
        _hottest(*(rod_outlook(rod, one, trip, hot_limit_ratio=hot, taught=taught) for one in (bank, full)))
        for rod in kit.rods
        if rod.count > 0
    )
    rods = tuple(rod for rod in seen if rod.kept)
    highest_a = max((rod.highest_a for rod in rods if rod.highest_a is not None), default=0.0)
    asked = _asked(kit, trip, bank, rods, batteries)
    return HardwareOutlook(
        bank=bank,
        rods=rods,
        marks={name: _marks(name, asked) for name in trip.bank} if asked else {},
        stop_v=figures.LOAD_STOP_V.value,
        shade=least_shade(kit.limits, current_a=highest_a).shade,
        polarity=one_polarity(rods),
        bars=tuple(bar for bar in bank.bars if bar.for_good),
        asked=tuple((rod.rod.name, count) for rod, count in asked),
    )


def _asked(
    kit: Kit, trip: Trip, bank: BankOutlook, rods: tuple[RodOutlook, ...], batteries: Mapping[str, BatteryOutlook]
) -> tuple[tuple[RodOutlook, int], ...]:
    """The kinds of rod that the go volts must show, and how many: each repair's best; else one of the best kind."""
    from kitlist.outlook import Outlook
    from kitlist.outlook.repairs import repair_outlooks

    found: dict[str, tuple[RodOutlook, int]] = {}
    for repair in repair_outlooks(
        kit, trip, Outlook(batteries=dict(batteries), bank=bank, rods=rods, hot_limit_ratio=kit.limits.hot_limit_ratio)
    ):
        best = repair.best
        if best is not None and best.needs is not None and best.rod.lasting is not None:
            _, most = found.get(best.rod.rod.name, (best.rod, 0))
            found[best.rod.rod.name] = (best.rod, max(most, best.needs.rods.to_pack))
    if found:
        return tuple(found.values())
    lasting = [rod for rod in rods if rod.lasting is not None and rod.fit is not None]
    first = best_of(lasting) or min(lasting, key=lambda rod: rod.fit.rank if rod.fit else 99, default=None)
    return () if first is None else ((first, 1),)


def _marks(name: str, asked: Iterable[tuple[RodOutlook, int]], *, step_v: float = SCREEN_V) -> VoltMarks:
    """The marks of one battery: the hardest of what is asked; none to go by where one of them no reading can show."""
    each = [rod.lasting.marks(name, rods=count, step_v=step_v) for rod, count in asked if rod.lasting is not None]
    hardest = max(each, key=lambda one: (one.go_v is None, one.go_v or 0.0))
    after = max(each, key=lambda one: one.after_v)
    return replace(hardest, after_v=after.after_v, shows_v=after.shows_v)


def _hottest(held: RodOutlook, full: RodOutlook) -> RodOutlook:
    """The rod on the bank as it is held, as hot as a full one runs it, and for the steel that takes that."""
    return replace(
        held,
        full=full.band,
        struck=full.struck,
        fit=hotter(held.fit, full.fit),
        steel_mm=full.steel_mm or held.steel_mm,
    )


def _held(battery: BatteryOutlook, *, low: float | None = None) -> BatteryOutlook:
    low = battery.reserve_ratio if low is None else low
    return replace(battery, charge=Charge(Span(low, (1 + low) / 2, 1.0)))


def least_shade(limits: Limits, *, current_a: float) -> Minimum:
    """The least shade at a current by the region that the rulebook names, else by the strictest."""
    region, current_a = limits.shade_region, min(max(current_a, 1.0), MOST_A)
    if region == "strictest":
        return strictest_minimum(current_a=current_a)
    return minimum_shade(region, current_a=current_a)


def one_polarity(rods: Iterable[RodOutlook]) -> Polarity:
    """The one polarity of the card: DCEP where every packed rod allows it, else what the rods leave, else DCEP."""
    return Polarity.DCEN if allowed_polarities(rods) == {Polarity.DCEN} else Polarity.DCEP


def allowed_polarities(rods: Iterable[RodOutlook]) -> set[Polarity]:
    """The polarities that all of the rods allow; one that does not state its own, and scrap, leave both."""
    allowed = set(Polarity)
    for rod in rods:
        if rod.kept and rod.designation is not None and rod.designation.polarities:
            allowed &= set(rod.designation.polarities)
    return allowed


def polarity_not_said(rods: Iterable[RodOutlook]) -> str:
    """Why the packed rods give no one polarity: none says its own, some do not, or they differ; "" where they do."""
    read = [rod for rod in rods if rod.designation is not None and rod.kept]
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
