"""What is owned and measured: bags, vehicles, batteries and their readings, leads, rods, gear, tools."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated

from kitlist.base.fields import About
from kitlist.base.noted import noted
from kitlist.base.terms import (
    BallastMetal,
    BatteryPlace,
    BatterySite,
    Chemistry,
    ClampKind,
    Condition,
    Conductor,
    CrankingStandard,
    Extinguishant,
    Fitting,
    GearKind,
    LeadUse,
    Mark,
    RodCondition,
    RodStorage,
    StartBatteries,
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
    crank_a: Annotated[float | None, About("what its starter draws, cold", low=50, high=1500, also=("starter",))] = None
    driven_at: Annotated[datetime | None, About("when its engine last ran; readings from before it count no more")] = (
        None
    )
    system_v: Annotated[int, About("volts of its system: 12 or 24", low=12, high=24)] = 12
    start_batteries: Annotated[StartBatteries, About("how its starting batteries are joined")] = StartBatteries.SINGLE
    starts_on_one: Annotated[bool | None, About("twins: has the other one alone been seen to start it?")] = None
    alternator_a: Annotated[float | None, About("what its alternator is rated for", low=10, high=500)] = None
    guest_of: Annotated[str, About("whose it is, when it is a companion's; empty for the kit's own")] = ""
    note: Note = ""

    @property
    def crank_each_a(self) -> float | None:
        """What one starting battery gives to the starter: twins share its current, the halves of 24 V both carry it."""
        if self.crank_a is None or self.start_batteries is not StartBatteries.TWIN:
            return self.crank_a
        return self.crank_a / 2

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if self.system_v not in (12, 24):
            return (("system_v", f"system = {self.system_v} V: must be 12 V or 24 V"),)
        if (self.system_v == 24) is not (self.start_batteries is StartBatteries.PAIR):
            return (
                (
                    "start_batteries",
                    "24 V is a pair under a bridge: give system=24V and start-batteries=pair together",
                ),
            )
        return ()

    def doubts(self, *, on: date) -> tuple[str, ...]:
        """What can be true but is more likely a slip of the pen, as questions."""
        if self.driven_at is not None and self.driven_at.date() > on:
            return (f"it was driven at {self.driven_at:%Y-%m-%d %H:%M}, after today: is the day right?",)
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Battery:
    """A 12 V battery, in a vehicle or loose."""

    name: Name
    vehicle: Annotated[str | None, About("the vehicle it lives in; none when loose", refers="vehicle")] = None
    place: Annotated[BatteryPlace, About("its work: start, second or loose")] = BatteryPlace.START
    chemistry: Annotated[Chemistry, About("what is inside", also=("type", "kind"))] = Chemistry.UNKNOWN
    built_in_cutoff: Annotated[bool | None, About("does electronics inside cut it off?", also=("bms", "cutoff"))] = None
    condition: Annotated[Condition, About("what the eye sees", also=("state",))] = Condition.UNKNOWN
    c20_ah: Annotated[
        float | None, About("20-hour capacity on its label", low=5, high=400, also=("ah", "capacity"))
    ] = None
    cranking_a: Annotated[
        float | None, About("cranking rating on its label", low=50, high=2500, also=("cca", "mca"))
    ] = None
    cranking_standard: Annotated[CrankingStandard, About("the standard of that rating", also=("standard",))] = (
        CrankingStandard.UNKNOWN
    )
    tester_mohm: Annotated[float | None, About("internal resistance a tester showed", low=0.5, high=200)] = None
    terminals: Annotated[Terminal, About("its terminals", also=("posts", "terminal"))] = Terminal.UNKNOWN
    in_service_since: Annotated[date | None, About("the day it went into service")] = None
    stays_connected: Annotated[bool | None, About("is it left connected to the vehicle between trips?")] = None
    mass_kg: Annotated[float | None, About("what it weighs", low=1, high=90, also=("weight",))] = None
    sits: Annotated[BatterySite, About("where in the vehicle it sits")] = BatterySite.UNKNOWN
    welded_on: Annotated[date | None, About("last day it welded elsewhere; earlier readings count no more")] = None
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
    quick_load: Annotated[bool, About("surface charge taken off first: 20 A or more for 3 min, 5 min off")] = False
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
    area_mm2: Annotated[
        float | None,
        About("conductor area, or a gauge like '4 AWG'", low=1.5, high=150, also=("gauge", "size", "section")),
    ] = None
    length_m: Annotated[float | None, About("length of the conductor, end to end", low=0.05, high=60)] = None
    conductor: Annotated[Conductor, About("what it is made of")] = Conductor.UNKNOWN
    insulation_limit_c: Annotated[float | None, About("what its insulation bears", low=50, high=200)] = None
    mark: Annotated[Mark, About("how its polarity is marked")] = Mark.NONE
    measured_mohm: Annotated[float | None, About("end to end, joints and all, if measured", low=0.01, high=500)] = None
    rating_a: Annotated[float | None, About("rating of the holder or work clamp on it", low=10, high=1000)] = None
    splice_m: Annotated[
        float | None, About("how far from the holder its nearest splice, tape or bare spot is", low=0, high=60)
    ] = None
    splice_insulated: Annotated[bool | None, About("is that splice insulated like the cable?")] = None
    plug_breaks_a: Annotated[float | None, About("current under which its plug may be pulled", low=10, high=5000)] = (
        None
    )
    count: Count = 1
    bag: BagName = None
    note: Note = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ballast:
    """A bare metal strip that takes volts: of a known section and length, or of measured resistance."""

    name: Name
    metal: Annotated[BallastMetal | None, About("stainless (304 and its like) or mild")] = None
    width_mm: Annotated[float | None, About("width of the strip", low=3, high=200)] = None
    thickness_mm: Annotated[float | None, About("thickness of the strip", low=0.3, high=12)] = None
    length_m: Annotated[float | None, About("length between its doubled ends", low=0.1, high=50)] = None
    measured_mohm: Annotated[float | None, About("end to end, cold, if measured", low=1, high=1000)] = None
    count: Count = 1
    bag: BagName = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        section = (self.metal, self.width_mm, self.thickness_mm)
        if self.measured_mohm is None and None in (*section, self.length_m):
            return (("measured_mohm", "say metal, width, thickness and length, or what was measured: measured=70mohm"),)
        if None in section and any(known is not None for known in section):
            return (("metal", "metal, width and thickness tell its heat only together: give all three, or none"),)
        return ()


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
    rating_v: Annotated[float | None, About("DC volts it is rated for; a voltmeter: reads to", low=1, high=2000)] = None
    accuracy_ratio: Annotated[float | None, About("a meter's accuracy", low=0, high=0.1)] = None
    agent: Annotated[Extinguishant | None, About("what an extinguisher throws")] = None
    amount_kg: Annotated[float | None, About("how much it holds", low=0, high=50)] = None
    volume_l: Annotated[float | None, About("how much it holds", low=0, high=500)] = None
    thickness_mm: Annotated[float | None, About("thickness of stock", low=0.5, high=50)] = None
    power_w: Annotated[float | None, About("watts of a solar panel", low=1, high=5000)] = None
    insulating: Annotated[bool | None, About("does it insulate: a battery cover, a spanner's handle?")] = None
    checked_on: Annotated[date | None, About("the day it was last checked")] = None
    expires_on: ExpiresOn = None
    bag: BagName = None
    note: Note = ""

    @property
    def dc_v(self) -> float | None:
        """The DC volts it is rated for; None where they are not known, as where its name or note speaks of AC alone."""
        alternating = noted("ac rating", self.name, self.note) and not noted("dc rating", self.name, self.note)
        return None if alternating else self.rating_v


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something of the owner's own that must be carried, and that no other kind covers."""

    name: Name
    must_carry: Annotated[int, About("how many must be carried", low=0, high=1000)] = 1
    count: Count = 0
    expires_on: ExpiresOn = None
    bag: BagName = None
    note: Note = ""
