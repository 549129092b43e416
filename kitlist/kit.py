"""The kit as a frozen snapshot: what is owned, measured and planned. No database behind it, no judgement in it.

Each class below is also the one description of its kind (see `kitlist.fields`): the command line, the import and
the store's tables follow it, and tests hold them to it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from functools import cached_property
from typing import Annotated, Any

from kitlist.checked import CheckedOff
from kitlist.errors import BadData
from kitlist.fields import About, plural
from kitlist.printed import PrintedPaper
from kitlist.rulebook import Rulebook, standard
from kitlist.terms import (
    BatteryPlace,
    Chemistry,
    ClampKind,
    Condition,
    Conductor,
    CrankingStandard,
    Extinguishant,
    FireRules,
    Fitting,
    GearKind,
    Joint,
    LeadUse,
    Mark,
    Position,
    RodCondition,
    RodStorage,
    Steel,
    Terminal,
    ToolKind,
)

Name = Annotated[str, About("short name, the handle for every command", example="heron-main")]
Note = Annotated[str, About("anything worth remembering")]
BagName = Annotated[str | None, About("the bag it is stowed in", refers="bag")]
Count = Annotated[int, About("how many", low=0, high=1000)]
ExpiresOn = Annotated[date | None, About("the last day it may be relied on")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """Where things are stowed."""

    name: Name
    place: Annotated[str, About("where the bag rides", example="Heron, left rear locker")] = ""
    walk_order: Annotated[int, About("its place in the walk round the vehicles", low=0, high=99)] = 50
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Vehicle:
    """A vehicle that goes on trips."""

    name: Name
    crank_a: Annotated[float | None, About("what its starter draws, cold", low=50, high=1500)] = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Battery:
    """A 12 V battery, in a vehicle or loose."""

    name: Name
    vehicle: Annotated[str | None, About("the vehicle it lives in; none when loose", refers="vehicle")] = None
    place: Annotated[BatteryPlace, About("its work: start, second or loose")] = BatteryPlace.START
    chemistry: Annotated[Chemistry, About("what is inside")] = Chemistry.UNKNOWN
    built_in_cutoff: Annotated[bool | None, About("does electronics inside cut it off?")] = None
    condition: Annotated[Condition, About("what the eye sees")] = Condition.UNKNOWN
    c20_ah: Annotated[float | None, About("20-hour capacity on its label", low=5, high=400)] = None
    cranking_a: Annotated[float | None, About("cranking rating on its label", low=50, high=2500)] = None
    cranking_standard: Annotated[CrankingStandard, About("the standard of that rating")] = CrankingStandard.UNKNOWN
    tester_mohm: Annotated[float | None, About("internal resistance a tester showed", low=0.5, high=200)] = None
    terminals: Annotated[Terminal, About("its terminals")] = Terminal.UNKNOWN
    in_service_since: Annotated[date | None, About("the day it went into service")] = None
    stays_connected: Annotated[bool | None, About("is it left connected to the vehicle between trips?")] = None
    mass_kg: Annotated[float | None, About("what it weighs", low=1, high=90)] = None
    bag: BagName = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        found = []
        if self.cranking_a is not None and self.cranking_standard is CrankingStandard.UNKNOWN:
            allowed = ", ".join(s for s in CrankingStandard if s != "unknown")
            found.append(("cranking_standard", f"a cranking rating needs its standard: one of {allowed}"))
        if self.vehicle is None and self.place is not BatteryPlace.LOOSE:
            found.append(("place", "a battery without a vehicle is loose: name its vehicle, or place = loose"))
        if self.vehicle is not None and self.place is BatteryPlace.LOOSE:
            found.append(("place", "a battery in a vehicle is start or second, not loose"))
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """Volts measured at a battery, with the circumstances that say what they mean."""

    battery: Annotated[str, About("the battery measured", refers="battery")]
    volts_v: Annotated[float, About("volts at the posts", low=0, high=20, example="12.71")]
    taken_at: Annotated[datetime, About("when")]
    rested_h: Annotated[float | None, About("hours since charge, drive or load", low=0, high=9000)] = None
    battery_temp_c: Annotated[float | None, About("temperature of the battery", low=-50, high=80)] = None
    load_a: Annotated[float | None, About("amps drawn while measuring; 0 at rest", low=0, high=2000)] = None
    charging: Annotated[bool, About("was it on charge?")] = False
    quick_load: Annotated[bool, About("surface charge taken off first: 10 A or more for 15 s, then 3 min")] = False
    meter_accuracy_ratio: Annotated[float | None, About("the meter's accuracy", low=0, high=0.1)] = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if self.charging and (self.load_a or self.rested_h):
            return (("charging", "a battery on charge is neither rested nor on load"),)
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """A cable with two ends."""

    name: Name
    use: Annotated[LeadUse, About("its work in the circuit")]
    end_a: Annotated[Fitting, About("what is on one end")]
    end_b: Annotated[Fitting, About("what is on the other end")]
    pattern_a: Annotated[str, About("pattern of the plug on end a, as the crew calls it")] = ""
    pattern_b: Annotated[str, About("pattern of the plug on end b")] = ""
    area_mm2: Annotated[float | None, About("conductor area, or a gauge like '4 AWG'", low=1.5, high=150)] = None
    length_m: Annotated[float | None, About("length of the conductor, end to end", low=0.05, high=60)] = None
    conductor: Annotated[Conductor, About("what it is made of")] = Conductor.UNKNOWN
    insulation_limit_c: Annotated[float | None, About("what its insulation bears", low=50, high=200)] = None
    mark: Annotated[Mark, About("how its polarity is marked")] = Mark.NONE
    measured_mohm: Annotated[float | None, About("end to end, joints and all, if measured", low=0.01, high=500)] = None
    rating_a: Annotated[float | None, About("rating of the holder or work clamp on it", low=10, high=1000)] = None
    count: Count = 1
    bag: BagName = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamp:
    """A loose fitting in the bag: a post clamp, a work clamp, a holder, an adaptor."""

    name: Name
    what: Annotated[ClampKind, About("what it is")]
    joins_a: Annotated[Fitting | None, About("what it takes on one side")] = None
    joins_b: Annotated[Fitting | None, About("what it gives on the other side")] = None
    pattern_a: Annotated[str, About("pattern of the plug on one side")] = ""
    pattern_b: Annotated[str, About("pattern of the plug on the other side")] = ""
    rating_a: Annotated[float | None, About("its rating", low=10, high=1000)] = None
    insulated: Annotated[bool | None, About("is it fully insulated?")] = None
    count: Count = 1
    bag: BagName = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """A packet of covered electrodes."""

    name: Name
    designation: Annotated[str, About("the classification printed on the packet", example="E6013")]
    diameter_mm: Annotated[float, About("core diameter, or '1/8 in'", low=1, high=8)]
    length_mm: Annotated[float, About("length of a rod", low=150, high=700)] = 350.0
    count: Annotated[int, About("rods left in the packet", low=0, high=5000)]
    storage: Annotated[RodStorage, About("how they are kept")] = RodStorage.UNKNOWN
    opened_on: Annotated[date | None, About("the day the packet was opened")] = None
    exposed_h: Annotated[float | None, About("hours in open air since opened or baked", low=0, high=90000)] = None
    condition: Annotated[RodCondition, About("what bending, tapping and looking say")] = RodCondition.UNKNOWN
    bakes: Annotated[int, About("how often they have been baked", low=0, high=9)] = 0
    bag: BagName = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if self.storage is RodStorage.SEALED and self.opened_on is not None:
            return (("storage", "a packet that was opened is no longer sealed"),)
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Gear:
    """Protective equipment."""

    name: Name
    what: Annotated[GearKind, About("what it is")]
    shade: Annotated[float | None, About("filter shade number, dark", low=1.2, high=16)] = None
    protection: Annotated[str, About("class or type on its label", example="EN 12477 type A")] = ""
    lowest_c: Annotated[float | None, About("coldest its electronics work at", low=-60, high=30)] = None
    tested_on: Annotated[date | None, About("the day it was last tried")] = None
    cell_changed_on: Annotated[date | None, About("the day its cell was changed")] = None
    sound: Annotated[bool | None, About("looked over and sound?")] = None
    expires_on: ExpiresOn = None
    count: Count = 1
    bag: BagName = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A tool, meter, consumable or piece of fire gear."""

    name: Name
    what: Annotated[ToolKind, About("what it is")]
    count: Count = 1
    rating_a: Annotated[float | None, About("current rating", low=1, high=5000)] = None
    rating_v: Annotated[float | None, About("voltage rating, DC", low=1, high=2000)] = None
    accuracy_ratio: Annotated[float | None, About("a meter's accuracy", low=0, high=0.1)] = None
    agent: Annotated[Extinguishant | None, About("what an extinguisher throws")] = None
    amount_kg: Annotated[float | None, About("how much it holds", low=0, high=50)] = None
    volume_l: Annotated[float | None, About("how much it holds", low=0, high=500)] = None
    thickness_mm: Annotated[float | None, About("thickness of stock", low=0.5, high=50)] = None
    insulating: Annotated[bool | None, About("does it insulate: a battery cover, a spanner's handle?")] = None
    checked_on: Annotated[date | None, About("the day it was last checked")] = None
    expires_on: ExpiresOn = None
    bag: BagName = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something of the owner's own that must be carried, and that no other kind covers."""

    name: Name
    must_carry: Annotated[int, About("how many must be carried", low=0, high=1000)] = 1
    count: Count = 0
    expires_on: ExpiresOn = None
    bag: BagName = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A break worth being ready for."""

    name: Name
    part: Annotated[str, About("the part, in trade words", example="spring hanger")]
    vehicle: Annotated[str | None, About("the vehicle; none when any", refers="vehicle")] = None
    steel: Annotated[Steel, About("its steel")] = Steel.UNKNOWN
    thickness_mm: Annotated[float | None, About("thinnest part, measured", low=0.5, high=60)] = None
    joint: Annotated[Joint, About("the joint")] = Joint.FILLET
    position: Annotated[Position, About("the hardest position it needs")] = Position.FLAT
    weld_length_mm: Annotated[float | None, About("weld to lay, all runs together", low=5, high=5000)] = None
    leg_mm: Annotated[float | None, About("leg of a fillet", low=1, high=25)] = None
    load_bearing: Annotated[bool | None, About("does it carry load?")] = None
    behind: Annotated[str, About("what lies behind the weld, or 'nothing'", example="brake line, wiring")] = ""
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trip:
    """A trip: when, who, how cold, how far from help, what may break, which bank."""

    name: Name
    starts_on: Annotated[date, About("the day of departure")]
    ends_on: Annotated[date, About("the day of return")]
    vehicles: Annotated[tuple[str, ...], About("the vehicles going", refers="vehicle")] = ()
    crew: Annotated[str, About("who goes, as it stands on sheet and card")] = ""
    people: Annotated[int | None, About("people going", low=1, high=200)] = None
    coldest_c: Annotated[float | None, About("coldest expected", low=-60, high=50)] = None
    hottest_c: Annotated[float | None, About("hottest expected", low=-40, high=60)] = None
    days_from_help: Annotated[float | None, About("days until help can come", low=0, high=90)] = None
    wet: Annotated[bool | None, About("may the welding be in the wet, sweaty or cramped?")] = None
    parked_apart_m: Annotated[float | None, About("how near the vehicles can park", low=0, high=30)] = None
    repairs: Annotated[tuple[str, ...], About("the repairs to be ready for", refers="repair")] = ()
    bank: Annotated[tuple[str, ...], About("the chosen batteries, in linking order", refers="battery")] = ()
    bank_strings: Annotated[int, About("parallel strings in the bank; 1 is plain series", low=1, high=4)] = 1
    fire_rules: Annotated[FireRules, About("what the fire authority answered")] = FireRules.NOT_ASKED
    fire_rules_asked_on: Annotated[date | None, About("the day they were asked")] = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        found = []
        if self.ends_on < self.starts_on:
            found.append(("ends_on", f"the trip ends on {self.ends_on}, before it starts on {self.starts_on}"))
        if self.coldest_c is not None and self.hottest_c is not None and self.coldest_c > self.hottest_c:
            found.append(("coldest_c", f"coldest {self.coldest_c:g} °C is above hottest {self.hottest_c:g} °C"))
        if len(set(self.bank)) != len(self.bank):
            found.append(("bank", "a battery stands in the bank twice"))
        if self.bank and len(self.bank) % self.bank_strings:
            found.append(("bank_strings", f"{len(self.bank)} batteries do not make {self.bank_strings} equal strings"))
        return tuple(found)

    @property
    def strings(self) -> tuple[tuple[str, ...], ...]:
        """The bank as parallel strings, each in linking order."""
        if not self.bank:
            return ()
        size = len(self.bank) // self.bank_strings
        return tuple(self.bank[start : start + size] for start in range(0, len(self.bank), size))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """A practice weld with its meter readings: what narrows the predictions."""

    name: Name
    welded_on: Annotated[date, About("the day it was welded")]
    bank: Annotated[tuple[str, ...], About("the batteries it was welded from, in linking order", refers="battery")]
    bank_strings: Annotated[int, About("parallel strings in that bank", low=1, high=4)] = 1
    rod: Annotated[str | None, About("the packet of rods used", refers="rod")] = None
    rest_v: Annotated[float, About("volts across the whole bank at rest", low=8, high=60)]
    bank_v: Annotated[float, About("volts across the bank while welding", low=5, high=60)]
    current_a: Annotated[float, About("amps while welding, by the clamp meter", low=10, high=1000)]
    holder_v: Annotated[float | None, About("volts from holder to work while welding", low=5, high=60)] = None
    meter_accuracy_ratio: Annotated[float | None, About("the voltmeter's accuracy", low=0, high=0.1)] = None
    clamp_accuracy_ratio: Annotated[float | None, About("the clamp meter's accuracy", low=0, high=0.1)] = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if len(set(self.bank)) != len(self.bank):
            return (("bank", "a battery stands in the bank twice"),)
        if not self.bank or len(self.bank) % self.bank_strings:
            return (("bank", f"{len(self.bank)} batteries do not make {self.bank_strings} equal strings"),)
        return self._nonsense()

    def _nonsense(self) -> tuple[tuple[str, str], ...]:
        """Readings that no bead can have."""
        from kitlist.physics import bead as physics

        try:
            physics.work_out(
                physics.Bead(
                    rest_v=self.rest_v,
                    bank_v=self.bank_v,
                    current_a=self.current_a,
                    in_series=self.in_series,
                    in_parallel=self.bank_strings,
                    holder_v=self.holder_v,
                )
            )
        except BadData as error:
            return (("bank_v", error.message),)
        return ()

    @property
    def in_series(self) -> int:
        """How many batteries' volts added up."""
        return len(self.bank) // self.bank_strings


@dataclass(frozen=True, slots=True, kw_only=True)
class Acceptance:
    """A gap that somebody took on for one trip: which, how grave it was, who, why, and to which day."""

    name: Name
    rule: Annotated[str, About("the rule whose gap it is", example="link-without-spare")]
    subject: Annotated[str, About("the thing that the gap is about", example="links")]
    severity: Annotated[str, About("how grave it was when it was accepted: stop, fix or note")]
    trip: Annotated[str, About("the trip it is accepted for", refers="trip")]
    accepted_by: Annotated[str, About("who takes it on")]
    reason: Annotated[str, About("why")]
    accepted_on: Annotated[date, About("the day it was accepted")]
    until: Annotated[date, About("the last day it holds")]
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        found = []
        if self.severity not in ("stop", "fix", "note"):
            found.append(("severity", f"severity = {self.severity!r}: must be one of stop, fix, note"))
        if self.until < self.accepted_on:
            found.append(("until", f"it ends on {self.until}, before it was accepted on {self.accepted_on}"))
        return tuple(found)


KINDS: dict[str, type] = {
    "bag": Bag,
    "vehicle": Vehicle,
    "battery": Battery,
    "lead": Lead,
    "clamp": Clamp,
    "rod": Rod,
    "gear": Gear,
    "tool": Tool,
    "item": Item,
    "repair": Repair,
    "trip": Trip,
    "acceptance": Acceptance,
    "bead": Bead,
    "reading": Reading,
}
"""Every kind by the word that commands and files use, each after the kinds that it refers to."""

PLURALS = {kind: plural(kind) for kind in KINDS}


@dataclass(frozen=True, kw_only=True)
class Kit:
    """All that one owner or crew keeps. Readings run from the newest to the oldest."""

    bags: tuple[Bag, ...] = ()
    vehicles: tuple[Vehicle, ...] = ()
    batteries: tuple[Battery, ...] = ()
    leads: tuple[Lead, ...] = ()
    clamps: tuple[Clamp, ...] = ()
    rods: tuple[Rod, ...] = ()
    gear: tuple[Gear, ...] = ()
    tools: tuple[Tool, ...] = ()
    items: tuple[Item, ...] = ()
    repairs: tuple[Repair, ...] = ()
    trips: tuple[Trip, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
    beads: tuple[Bead, ...] = ()
    readings: tuple[Reading, ...] = ()
    printed: tuple[PrintedPaper, ...] = ()
    checked: tuple[CheckedOff, ...] = ()
    rulebook: Rulebook = field(default_factory=standard, repr=False)

    @cached_property
    def battery(self) -> dict[str, Battery]:
        """Batteries by name."""
        return {b.name: b for b in self.batteries}

    @cached_property
    def readings_of(self) -> dict[str, tuple[Reading, ...]]:
        """Readings by battery name, newest first."""
        found: dict[str, list[Reading]] = {b.name: [] for b in self.batteries}
        for reading in self.readings:
            found.setdefault(reading.battery, []).append(reading)
        return {name: tuple(readings) for name, readings in found.items()}

    def travelling(self, trip: Trip) -> tuple[Battery, ...]:
        """The batteries that go on the trip: those of its vehicles, and the loose ones."""
        going = set(trip.vehicles)
        return tuple(b for b in self.batteries if b.vehicle is None or b.vehicle in going)


def plain(value: Any) -> Any:
    """A kit value as JSON and TOML have it: enum members as text, tuples as lists."""
    if isinstance(value, StrEnum):
        return str(value)
    if isinstance(value, tuple):
        return [plain(v) for v in value]
    return value
