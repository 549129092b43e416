"""The chosen bank on a trip: its batteries joined with the leads that are packed, and the current it will give."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from kitlist.errors import KitlistError
from kitlist.kit import Kit, Lead, Trip
from kitlist.outlook.battery import BatteryOutlook
from kitlist.physics import cable, figures
from kitlist.physics.band import Band, current_band
from kitlist.physics.charge import no_reading, ocv_points
from kitlist.physics.endurance import Endurance, LeadHeat, RodUse, burn_rods
from kitlist.physics.rig import BankBattery, Leads, Rig, leads_in_row
from kitlist.physics.span import Span
from kitlist.terms import Chemistry, Conductor, Covering, Fitting, LeadUse

INSULATION_C = 70.0  # limit of common PVC insulation, where nobody wrote down another
NEW_FULL_V = 12.80  # volts of a full, rested battery of unknown kind, AGM and gel table


@dataclass(frozen=True, slots=True, kw_only=True)
class BankOutlook:
    """The bank. `rig` is None where the current cannot be foretold; `not_known` then says what is missing."""

    trip: Trip
    rig: Rig | None
    not_known: tuple[str, ...]
    full_v: float
    leads_used: tuple[Lead, ...]
    reserves: Mapping[str, float]

    def endurance(self, use: RodUse) -> Endurance | None:
        """How many of the rods burn, one after the other, and what ends it; None where it cannot be told."""
        if self.rig is None or any(battery.capacity_ah is None for battery in self.rig.batteries):
            return None
        return burn_rods(self.rig, use, reserves=self.reserves, lead=_thinnest(self.leads_used))

    def band(self, covering: Covering | None) -> Band | None:
        """The current of the bank through a rod of one covering family, A; None where it is not known."""
        if self.rig is None:
            return None
        return _band(self.rig, Covering.CELLULOSIC if covering is Covering.CELLULOSIC else None)

    @property
    def stuck_a(self) -> float | None:
        """Current of a rod that sticks, A by the best guess."""
        if self.rig is None:
            return None
        network = self.rig.network()
        ocv_v = sum(unit.ocv_v for unit in network.groups[0])
        string_ohm = [sum(unit.branch_ohm for unit in group) for group in network.groups]
        return ocv_v / (1 / sum(1 / ohm for ohm in string_ohm) + network.external_ohm)

    @property
    def rested_v(self) -> float | None:
        """Volts of the bank at rest, by the best guess."""
        return None if self.rig is None else sum(b.volts(temp_c=self.rig.temp_c.best) for b in self.rig.groups[0])


@cache
def _band(rig: Rig, covering: Covering | None) -> Band:
    return current_band(rig, covering=covering)


def bank_outlook(kit: Kit, trip: Trip, batteries: Mapping[str, BatteryOutlook]) -> BankOutlook:
    """The outlook of the trip's chosen bank."""
    used = tuple(_leads_used(kit, trip))
    not_known = [*_unknown_leads(kit, used), *_unknown_batteries(trip, batteries)]
    rig = None
    if not not_known:
        try:
            rig = Rig(
                groups=tuple(tuple(_bank_battery(batteries[name]) for name in string) for string in trip.strings),
                leads=_leads(used),
                temp_c=_temperatures(trip),
            )
        except KitlistError as error:
            not_known.append(error.message)
    first = trip.strings[0]
    full_v = sum(_full_v(batteries[name].battery.chemistry) for name in first if name in batteries)
    reserves = {name: _reserve(batteries[name]) for name in trip.bank if name in batteries}
    return BankOutlook(
        trip=trip, rig=rig, not_known=tuple(not_known), full_v=full_v, leads_used=used, reserves=reserves
    )


def _reserve(outlook: BatteryOutlook) -> float:
    """The charge a battery keeps: its floor, or what its engine needs in the cold where that is more."""
    needed = outlook.charge_to_crank
    return min(1.0, max(outlook.floor_ratio, needed or 0.0))


def _thinnest(leads: tuple[Lead, ...]) -> LeadHeat | None:
    """The lead that warms most: the thinnest whose area is known."""
    known = [lead for lead in leads if lead.area_mm2 is not None and lead.conductor is not Conductor.UNKNOWN]
    if not known:
        return None
    lead = min(known, key=lambda x: x.area_mm2 or 0.0)
    return LeadHeat(
        area_mm2=lead.area_mm2 or 0.0,
        conductor=lead.conductor,
        limit_c=lead.insulation_limit_c or INSULATION_C,
    )


def _leads_used(kit: Kit, trip: Trip) -> Iterator[Lead]:
    """One packed lead after another: a link between each two batteries of a string, then holder and work leads."""
    wanted = len(trip.strings[0]) - 1
    for lead in sorted((x for x in kit.leads if x.use is LeadUse.LINK), key=lambda x: -(x.area_mm2 or 0)):
        take = min(wanted, lead.count)
        wanted -= take
        yield from [lead] * take
    for use in (LeadUse.HOLDER, LeadUse.WORK):
        yield from [lead for lead in kit.leads if lead.use is use and lead.count > 0][:1]
    yield from (lead for lead in kit.leads if lead.use is LeadUse.EXTENSION and lead.count > 0)


def _unknown_leads(kit: Kit, used: tuple[Lead, ...]) -> Iterator[str]:
    uses = {lead.use for lead in used}
    for use in (LeadUse.HOLDER, LeadUse.WORK):
        if use not in uses:
            yield f"no {use} lead is packed"
    for lead in dict.fromkeys(used):
        if lead.measured_mohm is None and lead.length_m is None:
            yield f"length of {lead.name}"
        if lead.measured_mohm is None and lead.area_mm2 is None:
            yield f"area of {lead.name}"


def _unknown_batteries(trip: Trip, batteries: Mapping[str, BatteryOutlook]) -> Iterator[str]:
    for name in trip.bank:
        if name not in batteries:
            yield f"{name} does not travel"
        elif batteries[name].battery.chemistry is Chemistry.LITHIUM:
            yield f"{name} is lithium"
        elif batteries[name].resistance is None:
            yield f"capacity or cranking rating of {name}"


def _bank_battery(outlook: BatteryOutlook) -> BankBattery:
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


def _leads(used: tuple[Lead, ...]) -> Leads:
    """The leads in a row. Joints at posts, holder and work clamp are counted with batteries and arc; plugs here."""
    return leads_in_row(
        [
            cable.Lead(
                length_m=lead.length_m or 0.0,
                area_mm2=lead.area_mm2 or 1.5,
                conductor=Conductor.COPPER if lead.conductor is Conductor.UNKNOWN else lead.conductor,
                joints=tuple(end for end in (lead.end_a, lead.end_b) if end is Fitting.PLUG),
                measured_ohm=None if lead.measured_mohm is None else lead.measured_mohm / 1000,
            )
            for lead in used
        ]
    )


def _temperatures(trip: Trip) -> Span:
    """Temperature of the batteries while welding: anywhere between the coldest and hottest of the trip."""
    if trip.coldest_c is None or trip.hottest_c is None:
        return Span.of(figures.BATTERY_TEMP_C)
    return Span(trip.coldest_c, (trip.coldest_c + trip.hottest_c) / 2, trip.hottest_c)


def _full_v(chemistry: Chemistry) -> float:
    """Volts of a full, rested battery at 25 °C."""
    if chemistry in (Chemistry.LITHIUM, Chemistry.UNKNOWN):
        return NEW_FULL_V
    return ocv_points(chemistry)[-1][1]
