"""The chosen bank on a trip: its batteries joined with the leads that are packed, and the current it will give."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from math import floor

from kitlist.base.errors import KitlistError
from kitlist.base.span import Span
from kitlist.base.terms import DAMAGED, BatteryPlace, Chemistry, Covering, LeadUse
from kitlist.kit import Bead, Kit, Lead, Trip
from kitlist.outlook.ballasts import BallastOutlook, cold_rig, packed_ballast, with_strip
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.lasting import Lasting, lasting
from kitlist.outlook.leads import (
    Lack,
    Missing,
    arc_leads,
    first_to_warm,
    in_row,
    link_ohm_20c,
    missing_or_unknown,
    packed_links,
)
from kitlist.outlook.linkable import BankBar, barred, full_v
from kitlist.outlook.starters import takes_every_start
from kitlist.physics import figures
from kitlist.physics.arc import bead as beads
from kitlist.physics.arc.learned import Learned
from kitlist.physics.bank.band import Band, current_band
from kitlist.physics.bank.endurance import RodUse
from kitlist.physics.bank.network import longest_held, stuck_rod
from kitlist.physics.bank.rig import BankBattery, Rig
from kitlist.physics.bank.verdict import is_short_arc
from kitlist.physics.battery.charge import no_reading


@dataclass(frozen=True, slots=True, kw_only=True)
class BankOutlook:
    """The bank. `rig` is None where the current cannot be predicted; `not_known` then says what is missing; `bars`
    what forbids that it is linked.

    `bead` is the practice weld that narrows its band, if one was made with these batteries.
    """

    trip: Trip
    rig: Rig | None
    not_known: tuple[Missing, ...]
    full_v: float
    bars: tuple[BankBar, ...]
    leads_used: tuple[Lead, ...]
    batteries: Mapping[str, BatteryOutlook]
    bead: Bead | None = None
    ballast: BallastOutlook | None = None

    def lasting(self, use: RodUse, band: Band) -> Lasting | None:
        """What each battery keeps and what ends the rods, for one kind of them; None where it is not known."""
        if self.rig is None:
            return None
        lead = first_to_warm(self.leads_used)
        return lasting(self.rig, self.batteries, use, band, lead=lead, taught=self.bead is not None)

    @property
    def longest_mm(self) -> float | None:
        """The longest arc that the bank holds, mm by the best guess: with two batteries the arc to keep under."""
        return None if self.rig is None else longest_held(self.rig.network())

    @property
    def holds_mm(self) -> float | None:
        """The same as it is shown, mm: never more than it is."""
        return None if self.longest_mm is None else floor(self.longest_mm * 10) / 10

    @property
    def short_arc(self) -> bool:
        """Whether it lets only a short arc be held."""
        return self.longest_mm is not None and is_short_arc(self.longest_mm)

    def band(self, covering: Covering | None, *, taught: bool = True, cold_strip: bool = False) -> Band | None:
        """The current of the bank through a rod of one covering family, A, narrowed by a practice weld if `taught`.

        With `cold_strip` that of the first strike, when a ballast strip has not warmed. None where it is not known.
        """
        if self.rig is None:
            return None
        family = Covering.CELLULOSIC if covering is Covering.CELLULOSIC else None
        rig = cold_rig(self.rig, self.ballast) if cold_strip and self.ballast else self.rig
        return _band(rig, family, learned_from(self.bead) if self.bead and taught else None)

    @property
    def stuck_a(self) -> float | None:
        """Current of a rod that sticks, A by the best guess."""
        if self.rig is None:
            return None
        rig = cold_rig(self.rig, self.ballast) if self.ballast else self.rig
        return stuck_rod(rig.network()).current_a

    @property
    def external_ohm(self) -> tuple[float, float] | None:
        """Ohm between bank and arc: what the practice weld found, and the most that these leads have with poor joints.

        The links are inside the bank, whose volts are read across all of it. None without volts at the holder.
        """
        if self.rig is None or self.bead is None:
            return None
        found_ohm = beads.work_out(self.bead.as_read()).external_ohm
        posts_ohm = 2 * Span.of(figures.POST_JOINT_MOHM).high / 1000
        arc = in_row([lead for lead in self.leads_used if lead.use is not LeadUse.LINK])
        return None if found_ohm is None else (found_ohm, arc.most_ohm + posts_ohm)

    @property
    def rested_v(self) -> float | None:
        """Volts of the bank at rest, by the best guess."""
        return None if self.rig is None else sum(b.volts(temp_c=self.rig.temp_c.best) for b in self.rig.groups[0])


@cache
def _band(rig: Rig, covering: Covering | None, learned: Learned | None) -> Band:
    return current_band(rig, covering=covering, learned=learned)


def learned_from(bead: Bead) -> Learned:
    """What a practice weld teaches. Raises BadData, OutOfRange where its readings are nonsense."""
    learned = beads.learn(
        bead.as_read(),
        meter_ratio=figures.METER_RATIO.value if bead.meter_accuracy_ratio is None else bead.meter_accuracy_ratio,
        clamp_ratio=figures.CLAMP_METER_RATIO.value if bead.clamp_accuracy_ratio is None else bead.clamp_accuracy_ratio,
    )
    # With a strip between bank and holder the fall of volts is not that of the leads, nor what is left the arc's.
    return learned.with_other_leads() if bead.ballast else learned


def bank_outlook(
    kit: Kit, trip: Trip, batteries: Mapping[str, BatteryOutlook], *, on: date | None = None
) -> BankOutlook:
    """The outlook of the chosen bank; `on` lets practice welds up to that day narrow it, None leaves them out."""
    first = trip.strings[0]
    arc, links = arc_leads(kit), packed_links(kit)[: _links_in_row(trip)]
    not_known = [*missing_or_unknown(arc, links), *_unknown_batteries(trip, batteries)]
    rig, strip = None, packed_ballast(kit, trip)
    ballast = None
    if trip.ballast is not None and strip is None:
        not_known.append(Missing(Lack.BALLAST, trip.ballast))
    if not not_known:
        try:
            rig = _rig(trip, batteries, arc, links)
            if strip is not None:
                rig, ballast = with_strip(rig, strip)
        except KitlistError as error:
            not_known.append(Missing(Lack.NUMBERS, error.message))
    return BankOutlook(
        trip=trip,
        rig=rig,
        not_known=tuple(not_known),
        full_v=sum(full_v(batteries[name].battery.chemistry) for name in first if name in batteries),
        bars=barred(trip, batteries, limits=kit.limits, ballast=strip is not None),
        leads_used=(*links, *arc),
        batteries={name: batteries[name] for name in trip.bank if name in batteries},
        bead=None if on is None else _newest_bead(kit, trip, on),
        ballast=ballast,
    )


def starting(batteries: Mapping[str, BatteryOutlook]) -> set[str]:
    """The sound batteries that start an engine, those too that may not be in a bank: they stay with their vehicle."""
    found = {name for name, battery in batteries.items() if battery.battery.place is BatteryPlace.START}
    return {name for name in found if batteries[name].battery.condition not in DAMAGED}


def with_starters_kept(kit: Kit, trip: Trip, batteries: Mapping[str, BatteryOutlook]) -> dict[str, BatteryOutlook]:
    """The batteries; those of a bank that leaves no vehicle that starts keep what the limits ask then."""
    if not takes_every_start(kit, trip):
        return dict(batteries)
    kept = kit.limits.every_starter_ratio
    return {
        name: replace(one, floor=replace(one.floor, always_ratio=kept)) if name in trip.bank else one
        for name, one in batteries.items()
    }


def bank_battery(outlook: BatteryOutlook) -> BankBattery:
    """A battery as the computation of a bank takes it; its resistance must be known."""
    battery = outlook.battery
    if outlook.resistance is None:
        raise AssertionError(f"{battery.name} has no resistance")  # refused by _unknown_batteries
    return BankBattery(
        name=battery.name,
        chemistry=battery.chemistry,
        resistance=outlook.resistance,
        soc_ratio=outlook.charge.soc_ratio or no_reading(),
        ocv_25_v=outlook.charge.ocv_25_v,
        capacity_ah=battery.c20_ah,
    )


def temperatures(trip: Trip) -> Span:
    """Temperature of the batteries while welding: anywhere between the coldest and hottest of the trip."""
    if trip.coldest_c is None or trip.hottest_c is None:
        return Span.of(figures.BATTERY_TEMP_C)
    return Span(trip.coldest_c, (trip.coldest_c + trip.hottest_c) / 2, trip.hottest_c)


def _links_in_row(trip: Trip) -> int:
    """Links that carry the whole current one after the other; in parallel strings every string has its own."""
    return len(trip.strings[0]) - 1 if len(trip.strings) == 1 else len(trip.bank)


def _rig(trip: Trip, batteries: Mapping[str, BatteryOutlook], arc: tuple[Lead, ...], links: tuple[Lead, ...]) -> Rig:
    """One string: its links in the row. Parallel strings: in each its links and one tie, as bad as the worst link."""
    alone = len(trip.strings) == 1
    return Rig(
        groups=tuple(tuple(bank_battery(batteries[name]) for name in string) for string in trip.strings),
        leads=in_row((*links, *arc) if alone else arc),
        link_ohm_20c=0.0 if alone else len(trip.strings[0]) * link_ohm_20c(links),
        temp_c=temperatures(trip),
    )


def _newest_bead(kit: Kit, trip: Trip, on: date) -> Bead | None:
    """The newest practice weld, or metered repair, with exactly the batteries of this bank."""
    metered = (*kit.beads, *(bead for weld in kit.welds if (bead := weld.as_bead()) is not None))
    same = [
        bead
        for bead in metered
        if set(bead.bank) == set(trip.bank) and bead.bank_strings == trip.bank_strings and bead.welded_on <= on
    ]
    return max(same, key=lambda bead: bead.welded_on, default=None)


def _unknown_batteries(trip: Trip, batteries: Mapping[str, BatteryOutlook]) -> Iterator[Missing]:
    for name in trip.bank:
        if name not in batteries:
            yield Missing(Lack.NOT_ALONG, name)
        elif batteries[name].battery.chemistry is Chemistry.LITHIUM:
            yield Missing(Lack.LITHIUM, name)
        elif batteries[name].resistance is None:
            yield Missing(Lack.RATING, name)
