"""Choosing the bank: the kit and the trip as the planner takes them, and what it answers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.errors import BadData, KitlistError
from kitlist.base.terms import BatteryPlace, Covering
from kitlist.kit import Kit, Trip
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.bank import starting, temperatures
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.leads import arc_leads, in_row, link_ohm_20c, missing_or_unknown, packed_links
from kitlist.outlook.options.advice import Change, what_would_help
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Refused, Traveller
from kitlist.outlook.options.planner import Option, Plan, plan_bank
from kitlist.outlook.rods import RodOutlook
from kitlist.welding.rods.consumption import burn
from kitlist.welding.rods.currents import current_range

_NEVER_CRANKS = 2.0  # a reserve over full: the planner then refuses the battery and says why
_OTHER_RODS = (("E6013", 3.2, 350.0), ("E6013", 4.0, 350.0), ("E6013", 2.5, 300.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class BankPlan:
    """The planner's answer. `plan` is None where it could not begin; `not_known` then says what is missing."""

    trip: Trip
    outlook: Outlook
    plan: Plan | None
    refused: tuple[Refused, ...]
    changes: tuple[Change, ...]
    not_known: tuple[str, ...]


def plan_for(
    kit: Kit, trip: Trip, *, on: date, four: bool = False, ballast_mohm: float = 0.0, few: int = 5
) -> BankPlan:
    """The best few banks for a trip. `four` looks at four in series too, which needs ballast.

    Raises BadData for four without ballast, or in the wet.
    """
    if four and (ballast_mohm <= 0 or trip.wet):
        raise BadData(
            "four in series is about 50 V: never in the wet, and only with ballast",
            hint="Say the ballast: --four --ballast 100mohm",
        )
    outlook = look_out(kit, trip, on=on)
    out = tuple(Refused(b.battery.name, b.refusal) for b in outlook.batteries.values() if b.refusal)
    travellers = tuple(_traveller(b, trip) for b in outlook.batteries.values() if not b.refusal)
    links = packed_links(kit)
    not_known = [*missing_or_unknown(arc_leads(kit), links), *_missing(outlook, travellers)]
    rods = tuple(_packed(rod) for rod in outlook.rods if _plannable(rod))
    if not rods:
        not_known.append("a packed rod whose range is known")
    if not_known:
        return BankPlan(
            trip=trip, outlook=outlook, plan=None, refused=out, changes=(), not_known=tuple(dict.fromkeys(not_known))
        )
    demand = Demand(
        rods=rods,
        leads=replace(in_row(arc_leads(kit)), ballast_ohm=ballast_mohm / 1000),
        link_ohm_20c=link_ohm_20c(links),
        links=len(links),
        in_series=(2, 3, 4) if four else (2, 3),
        wet=bool(trip.wet),
        starters=len(starting(outlook.batteries)),
        hot_limit_ratio=kit.limits.hot_limit_ratio,
        temp_c=temperatures(trip),
    )
    plan = plan_bank(travellers, demand, few=few)
    if not ballast_mohm:  # readiness knows of no ballast
        plan = replace(plan, options=tuple(_as_judged(option, trip, outlook) for option in plan.options))
    changes = what_would_help(travellers, demand, plan, other_rods=tuple(_other_rods(outlook)))
    return BankPlan(trip=trip, outlook=outlook, plan=plan, refused=(*out, *plan.refused), changes=changes, not_known=())


def is_chosen(option: Option, trip: Trip) -> bool:
    """Whether this is the trip's bank: the same batteries in the same strings, in whatever order."""
    return {frozenset(string) for string in option.strings} == {frozenset(string) for string in trip.strings}


def _as_judged(option: Option, trip: Trip, outlook: Outlook) -> Option:
    """The chosen bank with the current that readiness shows: sampled, and narrowed by a practice weld.

    The others keep the planner's quick band, which lies within a few percent of it. The order stays.
    """
    rod = next((rod for rod in outlook.rods if rod.words == option.rod and rod.band and rod.fit), None)
    if not is_chosen(option, trip) or rod is None or rod.band is None or rod.fit is None:
        return option
    return replace(option, fit=rod.fit, low_a=rod.band.low_a, middle_a=rod.band.middle_a, high_a=rod.band.high_a)


def _traveller(outlook: BatteryOutlook, trip: Trip) -> Traveller:
    battery = outlook.battery
    since = battery.in_service_since
    return Traveller(
        name=battery.name,
        chemistry=battery.chemistry,
        capacity_ah=battery.c20_ah,
        resistance=outlook.resistance,
        soc_ratio=outlook.charge.soc_ratio,
        ocv_25_v=outlook.charge.ocv_25_v,
        rested_v=outlook.reading.volts_v if outlook.reading and not outlook.reading.charging else None,
        reserve_ratio=_NEVER_CRANKS if outlook.never_cranks else outlook.own_reserve_ratio,
        condition=battery.condition,
        built_in_cutoff=battery.built_in_cutoff,
        starts_engine=battery.place is BatteryPlace.START,
        mass_kg=battery.mass_kg,
        age_years=None if since is None else round((trip.starts_on - since).days / 365.25, 1),
    )


def _missing(outlook: Outlook, travellers: tuple[Traveller, ...]) -> Iterator[str]:
    if not outlook.rods:
        yield "rods: none is packed"
    if not travellers:
        yield "batteries: none travels that may be in a bank"


def _plannable(rod: RodOutlook) -> bool:
    return rod.range is not None and rod.designation is not None and rod.designation.table_class is not None


def _packed(rod: RodOutlook) -> PackedRod:
    if rod.range is None or rod.designation is None:
        raise AssertionError(f"{rod.words} has no range")  # left out by _plannable
    return packed_rod(
        rod.words,
        rod.designation.table_class,
        covering=rod.designation.covering,
        diameter_mm=rod.rod.diameter_mm,
        length_mm=rod.rod.length_mm,
        count=rod.rod.count,
    )


def packed_rod(
    name: str,
    table_class: str | None,
    *,
    covering: Covering,
    diameter_mm: float,
    length_mm: float,
    count: int | None = None,
) -> PackedRod:
    """A packet as the planner takes it. Raises OutOfRange where no source has its range or its charge."""
    currents = current_range(table_class, diameter_mm=diameter_mm)
    charge = burn(table_class, diameter_mm=diameter_mm, length_mm=length_mm, current_a=currents.start_a).charge_ah
    return PackedRod(
        name=name,
        range_low_a=currents.low_a,
        range_high_a=currents.high_a,
        charge_ah=charge,
        covering=covering,
        count=count,
    )


def _other_rods(outlook: Outlook) -> Iterator[PackedRod]:
    """Common rods that are not packed: what another packet would do."""
    packed = {rod.words for rod in outlook.rods}
    for name, diameter_mm, length_mm in _OTHER_RODS:
        words = f"{diameter_mm:g} mm {name}"
        if words in packed:
            continue
        try:
            yield packed_rod(words, name, covering=Covering.RUTILE, diameter_mm=diameter_mm, length_mm=length_mm)
        except KitlistError:
            continue
