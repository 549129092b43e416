"""Choosing the bank: the kit and the trip as the planner takes them, and the banks that it may offer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType

from kitlist.base.errors import BadData, KitlistError
from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, Covering, Polarity
from kitlist.kit import Kit, Trip
from kitlist.kit.limits import Limits
from kitlist.kit.slips import without_slips
from kitlist.outlook import batteries_out, expect
from kitlist.outlook.ballasts import ballast_outlook, packed_ballast
from kitlist.outlook.bank import starting, temperatures
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.leads import arc_leads, in_row, link_ohm_20c, missing_or_unknown, packed_links
from kitlist.outlook.linkable import full_v, most_v
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.advice import Change, Effort, what_would_help
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Refused, Traveller
from kitlist.outlook.options.offer import Offer, offer_of
from kitlist.outlook.options.planner import Missed, Option, Plan, plan_bank
from kitlist.outlook.options.supposed import supposed, with_ballast
from kitlist.outlook.own_rods import rod_words, rods_taught
from kitlist.outlook.rods import RodOutlook
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.standing import may_freeze
from kitlist.welding.rods.consumption import burn
from kitlist.welding.rods.currents import current_range

_OTHER_RODS = (("E6013", 3.2, 350.0), ("E6013", 4.0, 350.0), ("E6013", 2.5, 300.0))
_CHANGES_LOOKED_AT = 3  # each is a whole look for banks: the most helpful by the quick ranking
_Strings = tuple[tuple[str, ...], ...]
_NOTHING = Plan((), (), ())
_USUAL_A = 130.0  # for the heat of a strip while banks are ranked; each bank on offer then has its own


@dataclass(frozen=True, slots=True, kw_only=True)
class Improvement:
    """One change, and the bank that it would give as it is then to be expected."""

    change: Change
    offer: Offer


@dataclass(frozen=True, slots=True, kw_only=True)
class BankPlan:
    """The planner's answer. `begun` is False where it could not look; `not_known` then says what is missing.

    `refused` are the batteries that no bank may have, `missed` why other banks are out.
    """

    trip: Trip
    begun: bool
    offers: tuple[Offer, ...] = ()
    refused: tuple[Refused, ...] = ()
    missed: tuple[Missed, ...] = ()
    changes: tuple[Improvement, ...] = ()
    not_known: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """One look at a kit: what was searched, and what came of it. `plan` has the options that are on offer alone."""

    batteries: Mapping[str, BatteryOutlook]
    out: tuple[Refused, ...]
    not_known: tuple[str, ...] = ()
    travellers: tuple[Traveller, ...] = ()
    demand: Demand | None = None
    rods: tuple[RodOutlook, ...] = ()
    plan: Plan = _NOTHING
    offers: tuple[Offer, ...] = ()
    looked_at: Mapping[_Strings, Offer | Lost] = field(default_factory=dict)


def plan_for(
    kit: Kit,
    trip: Trip,
    *,
    on: date,
    four: bool = False,
    ballast_mohm: float = 0.0,
    few: int = 5,
    changes: bool = True,
) -> BankPlan:
    """The best few banks for a trip, none of them one that may not be linked, each as it is to be expected.

    `four` looks at four in series too, which needs ballast. Not `changes`, what one change would do is left out.
    Raises BadData for four without ballast, or in the wet.
    """
    kit = without_slips(kit, on=on)
    if ballast_mohm > 0:
        kit, trip = with_ballast(kit, trip, mohm=ballast_mohm)
    if four and (packed_ballast(kit, trip) is None or trip.wet is not False):
        raise BadData(
            "four in series is about 50 V: never where it may be wet, and only with ballast",
            hint="Say the ballast, --four --ballast 100mohm; and that it is dry, kitlist trip edit NAME wet=ANSWER",
        )
    look = _look(kit, trip, on=on, four=four, few=few)
    if look.demand is None:
        return BankPlan(trip=trip, begun=False, refused=look.out, not_known=look.not_known)
    return BankPlan(
        trip=trip,
        begun=True,
        offers=look.offers,
        refused=(*look.out, *look.plan.refused),
        missed=look.plan.missed,
        changes=tuple(_improvements(kit, trip, look, on=on, four=four, few=few)) if changes else (),
    )


def _look(
    kit: Kit,
    trip: Trip,
    *,
    on: date,
    four: bool,
    few: int,
    batteries: Mapping[str, BatteryOutlook] | None = None,
    known: Mapping[_Strings, Offer | Lost] = MappingProxyType({}),
) -> _Look:
    """The banks of a kit as it stands; of `known` ones it is known already what is expected."""
    strip = packed_ballast(kit, trip)
    batteries = batteries_out(kit, trip, on=on) if batteries is None else batteries
    out = tuple(Refused(name, why) for name, b in batteries.items() if (why := b.not_now) and why.why.for_good)
    refused = {entry.name for entry in out}
    travellers = tuple(_traveller(b, trip, kit.limits) for name, b in batteries.items() if name not in refused)
    links = packed_links(kit)
    rods = expect(kit, replace(trip, bank=(), bank_strings=1), batteries, on=on).rods
    taught = rods_taught(kit, on=on)
    packed = tuple(_packed(rod, taught.get(rod_words(rod.rod))) for rod in rods if _plannable(rod))
    not_known = [*map(str, missing_or_unknown(arc_leads(kit), links)), *_missing(rods, travellers)]
    if rods and not packed:
        not_known.append("a packed rod that is fit to weld with, and whose range is known")
    if not_known:
        return _Look(batteries=batteries, out=out, not_known=tuple(dict.fromkeys(not_known)))
    demand = Demand(
        rods=packed,
        leads=replace(
            in_row(arc_leads(kit)),
            ballast_ohm=0.0 if strip is None else ballast_outlook(strip, current_a=_USUAL_A).hot_ohm,
        ),
        link_ohm_20c=link_ohm_20c(links),
        links=len(links),
        in_series=(2, 3, 4) if four else (2, 3),
        most_v=most_v(trip, kit.limits),
        starters=len(starting(batteries)),
        hot_limit_ratio=kit.limits.hot_limit_ratio,
        temp_c=temperatures(trip),
    )
    # Twice as many as are shown: the ranking is quick and rough, and of those ranked some may not be linked.
    plan = plan_bank(travellers, demand, few=2 * few)
    options = (*_chosen_option(trip, travellers, demand, plan), *plan.options)
    polarity = said_polarity(rods)
    usable = replace(kit, rods=tuple(rod.rod for rod in rods if rod.usable))  # the others are counted for nobody
    offers, lost = _offers(usable, trip, options, batteries, on=on, few=few, known=known, polarity=polarity)
    return _Look(
        batteries=batteries,
        out=out,
        travellers=travellers,
        demand=demand,
        rods=rods,
        plan=replace(plan, options=tuple(x.option for x in offers), missed=_missed(trip, plan, offers, lost)),
        offers=offers,
        looked_at={option.strings: why for why, option in lost} | {x.option.strings: x for x in offers},
    )


def _chosen_option(trip: Trip, travellers: tuple[Traveller, ...], demand: Demand, plan: Plan) -> tuple[Option, ...]:
    """The trip's bank where the quick search left it out: for its current, of which a practice weld may know better,
    or as one of four that nobody asked for but the crew that chose it."""
    chosen = {frozenset(string) for string in trip.strings}
    if not trip.bank or any({frozenset(x) for x in option.strings} == chosen for option in plan.options):
        return ()
    members = [battery for battery in travellers if battery.name in trip.bank]
    size = len(trip.strings[0])
    asked = size in demand.in_series or (size == 4 and demand.bears_four)
    if len(members) != len(trip.bank) or not asked:
        return ()
    alone = plan_bank(members, replace(demand, worst_fit=Fit.NO_ARC, in_series=(size,), strings=trip.bank_strings))
    return tuple(option for option in alone.options if {frozenset(x) for x in option.strings} == chosen)


def _offers(
    kit: Kit,
    trip: Trip,
    options: tuple[Option, ...],
    batteries: Mapping[str, BatteryOutlook],
    *,
    on: date,
    few: int,
    known: Mapping[_Strings, Offer | Lost],
    polarity: Polarity | None,
) -> tuple[tuple[Offer, ...], tuple[tuple[Lost, Option], ...]]:
    """The banks that may be offered, best first by what is expected of them; and those that may not, with why."""
    found: list[Offer] = []
    lost: list[tuple[Lost, Option]] = []
    for option in options:
        offer = known.get(option.strings)
        if offer is None:
            offer = offer_of(kit, trip, option, batteries, on=on, polarity=polarity)
        if isinstance(offer, Lost):
            lost.append((offer, option))
        else:
            found.append(offer)
        if len(found) == few:
            break
    return tuple(sorted(found, key=lambda offer: offer.key)), tuple(lost)


def _missed(
    trip: Trip, plan: Plan, offers: tuple[Offer, ...], lost: tuple[tuple[Lost, Option], ...]
) -> tuple[Missed, ...]:
    """Why the other banks are out, by the search and by what is expected; never one that is on offer."""
    offered = {frozenset(map(frozenset, offer.strings)) for offer in offers}
    found: dict[Lost, Missed] = {}
    for why, option in lost:
        before = found.get(why)
        found[why] = Missed(why, before.count + 1 if before else 1, before.nearest if before else option.strings)
    for missed in plan.missed:
        why = Lost.WET_NOT_SAID if missed.why is Lost.WET and trip.wet is None else missed.why
        known = frozenset(map(frozenset, missed.nearest)) in offered
        count, nearest = missed.count - known, () if known else missed.nearest
        if count > 0:
            before = found.get(why)
            found[why] = Missed(why, count + before.count, before.nearest) if before else Missed(why, count, nearest)
    return tuple(sorted(found.values(), key=lambda missed: -missed.count))


def _improvements(kit: Kit, trip: Trip, look: _Look, *, on: date, four: bool, few: int) -> Iterator[Improvement]:
    """The changes that help most. Each is looked at anew on the kit as it would then be, so that what is promised is
    what the next look shows first; one that would not help is not named."""
    if look.demand is None:
        return
    others = tuple(_other_rods(look.rods))
    found = what_would_help(look.travellers, look.demand, look.plan, other_rods=others)
    for change in found[:_CHANGES_LOOKED_AT]:
        other = supposed(kit, trip, change, on=on)
        if other is None:
            continue
        batteries, known = _untouched(look, other, trip, change, on=on)
        offers = _look(other, trip, on=on, four=four, few=few, batteries=batteries, known=known).offers
        if offers and (not look.offers or offers[0].key < look.offers[0].key):
            yield Improvement(change=change, offer=offers[0])


def _untouched(
    look: _Look, other: Kit, trip: Trip, change: Change, *, on: date
) -> tuple[Mapping[str, BatteryOutlook], Mapping[_Strings, Offer | Lost]]:
    """What a change leaves as it was: the batteries that it is not about, and the banks of those alone.

    Another packet of rods changes what every bank is good for.
    """
    if change.effort is Effort.ROD:
        return look.batteries, {}
    named = {battery.name for battery in other.batteries if battery.name not in look.batteries} | set(change.batteries)
    moved = tuple(battery for battery in other.batteries if battery.name in named)
    again = batteries_out(replace(other, batteries=moved), trip, on=on)
    known = {
        strings: found
        for strings, found in look.looked_at.items()
        if named.isdisjoint(name for string in strings for name in string)
    }
    return {**look.batteries, **again}, known


def is_chosen(offer: Offer, trip: Trip) -> bool:
    """Whether this is the trip's bank: the same batteries in the same strings, in whatever order."""
    return {frozenset(string) for string in offer.strings} == {frozenset(string) for string in trip.strings}


def _traveller(outlook: BatteryOutlook, trip: Trip, limits: Limits) -> Traveller:
    battery = outlook.battery
    since, soc = battery.in_service_since, outlook.charge.soc_ratio
    return Traveller(
        name=battery.name,
        chemistry=battery.chemistry,
        capacity_ah=battery.c20_ah,
        resistance=outlook.resistance,
        soc_ratio=soc,
        ocv_25_v=outlook.charge.ocv_25_v,
        full_v=full_v(battery.chemistry),
        reserve_ratio=2.0 if outlook.never_cranks else outlook.reserve_ratio,
        last_starter_ratio=limits.every_starter_ratio,
        unfit=outlook.refusal,
        may_freeze=soc is not None and may_freeze(soc_ratio=soc, coldest_c=outlook.coldest_c) is True,
        starts_engine=battery.place is BatteryPlace.START,
        mass_kg=battery.mass_kg,
        age_years=None if since is None else round((trip.starts_on - since).days / 365.25, 1),
    )


def _missing(rods: tuple[RodOutlook, ...], travellers: tuple[Traveller, ...]) -> Iterator[str]:
    if not rods:
        yield "rods: none is packed"
    if not travellers:
        yield "batteries: none travels that may be in a bank"


def _plannable(rod: RodOutlook) -> bool:
    return (
        rod.usable and rod.range is not None and rod.designation is not None and rod.designation.table_class is not None
    )


def _packed(rod: RodOutlook, taught_ah: Span | None) -> PackedRod:
    """A packet as the planner takes it, with what own welds taught of it."""
    if rod.range is None or rod.designation is None:
        raise AssertionError(f"{rod.words} has no range")  # left out by _plannable
    found = packed_rod(
        rod.words,
        rod.designation.table_class,
        covering=rod.designation.covering,
        diameter_mm=rod.rod.diameter_mm,
        length_mm=rod.rod.length_mm,
        count=rod.rod.count,
    )
    return found if taught_ah is None else replace(found, charge_ah=taught_ah)


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


def _other_rods(rods: tuple[RodOutlook, ...]) -> Iterator[PackedRod]:
    """Common rods that are not packed: what another packet would do."""
    packed = {rod.words for rod in rods}
    for name, diameter_mm, length_mm in _OTHER_RODS:
        words = f"{diameter_mm:g} mm {name}"
        if words in packed:
            continue
        try:
            other = packed_rod(words, name, covering=Covering.RUTILE, diameter_mm=diameter_mm, length_mm=length_mm)
        except KitlistError:
            continue
        yield replace(other, designation=name, diameter_mm=diameter_mm, length_mm=length_mm)
