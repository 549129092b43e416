"""A whole kit in which no rule finds a gap: what each rule's good and bad example is made from."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from kitlist.base.terms import (
    BatteryPlace,
    Chemistry,
    Condition,
    Conductor,
    CrankingStandard,
    Extinguishant,
    FireRules,
    Fitting,
    GearKind,
    LeadUse,
    Mark,
    RodCondition,
    RodStorage,
    Steel,
    Terminal,
    ToolKind,
)
from kitlist.kit import Bag, Battery, Gear, Kit, Lead, Reading, Repair, Rod, Tool, Trip, Vehicle
from kitlist.rules.core import Example

ON = date(2027, 3, 4)
_BANK = ("north-main", "north-second", "south-second")


BAG = "Red bag"
OTHER_BAG = "Blue bag"
_GEAR: tuple[tuple[str, GearKind, dict[str, Any]], ...] = (
    ("helmet", GearKind.HELMET, {"shade": 11}),
    ("second helmet", GearKind.HELMET, {"shade": 11}),
    ("spare filter", GearKind.SPARE_FILTER, {"shade": 11}),
    ("glasses", GearKind.SAFETY_GLASSES, {"count": 2}),
    ("gloves", GearKind.GLOVES, {"protection": "EN 12477 type A"}),
    ("jacket", GearKind.JACKET, {"protection": "ISO 11611 class 2"}),
    ("masks", GearKind.MASK, {"protection": "FFP3", "count": 4}),
)
_TOOLS: tuple[tuple[str, ToolKind, dict[str, Any]], ...] = (
    (
        "extinguisher",
        ToolKind.EXTINGUISHER,
        {"agent": Extinguishant.POWDER, "amount_kg": 2, "expires_on": date(2029, 1, 31)},
    ),
    ("water", ToolKind.WATER, {"volume_l": 10}),
    ("blanket", ToolKind.FIRE_BLANKET, {}),
    ("shovel", ToolKind.SHOVEL, {}),
    ("stub tin", ToolKind.STUB_TIN, {}),
    ("burns kit", ToolKind.FIRST_AID_BURNS, {"expires_on": date(2029, 1, 31)}),
    ("eye wash", ToolKind.EYE_WASH, {"volume_l": 2, "expires_on": date(2029, 1, 31)}),
    ("satellite phone", ToolKind.CALL_FOR_HELP, {}),
    ("voltmeter", ToolKind.VOLTMETER, {"accuracy_ratio": 0.005}),
    ("clamp meter", ToolKind.CLAMP_METER, {"accuracy_ratio": 0.02, "rating_a": 600}),
    ("isolator", ToolKind.ISOLATOR, {"rating_a": 2000, "rating_v": 60}),
    ("fuse", ToolKind.FUSE, {"rating_a": 300, "rating_v": 80, "count": 2}),
    ("spanner", ToolKind.SPANNER, {"count": 2, "insulating": True}),
    ("post brush", ToolKind.POST_BRUSH, {}),
    ("battery covers", ToolKind.BATTERY_COVER, {"count": 3, "insulating": True}),
    ("wire brush", ToolKind.WIRE_BRUSH, {}),
    ("chipping hammer", ToolKind.CHIPPING_HAMMER, {}),
    ("file", ToolKind.FILE, {}),
    ("scrap plate", ToolKind.SCRAP_PLATE, {"thickness_mm": 8}),
    ("flat bar", ToolKind.STOCK_FLAT, {"thickness_mm": 6}),
    ("stands", ToolKind.STANDS, {"count": 2}),
    ("chocks", ToolKind.CHOCKS, {"count": 4}),
    ("blowlamp", ToolKind.HEATER, {}),
)


def whole() -> Example:
    """Two vehicles, four like batteries of which three make the bank, and all that goes with them."""
    names = {"north-main": "North", "north-second": "North", "south-main": "South", "south-second": "South"}
    kit = Kit(
        bags=(Bag(name=BAG, place="North, left locker"), Bag(name=OTHER_BAG, place="South, right locker")),
        vehicles=(Vehicle(name="North", crank_a=250), Vehicle(name="South", crank_a=250)),
        batteries=tuple(battery(name, vehicle) for name, vehicle in names.items()),
        readings=tuple(reading(name) for name in names),
        leads=(
            lead("link", LeadUse.LINK, Fitting.POST_CLAMP, count=3),
            lead("holder lead", LeadUse.HOLDER, Fitting.HOLDER, length_m=6.0, mark=Mark.PLUS, rating_a=300),
            lead(
                "work lead",
                LeadUse.WORK,
                Fitting.WORK_CLAMP,
                length_m=6.0,
                mark=Mark.MINUS,
                bag=OTHER_BAG,
                rating_a=300,
            ),
        ),
        rods=(rod("thick rods"),),
        gear=tuple(gear(name, what, **fields) for name, what, fields in _GEAR),
        tools=tuple(tool(name, what, **fields) for name, what, fields in _TOOLS),
    )
    trip = Trip(
        name="Example",
        starts_on=date(2027, 3, 6),
        ends_on=date(2027, 3, 9),
        vehicles=("North", "South"),
        people=2,
        coldest_c=5,
        hottest_c=25,
        days_from_help=1,
        wet=False,
        parked_apart_m=1,
        bank=_BANK,
        fire_rules=FireRules.ALLOWED,
        fire_rules_asked_on=date(2027, 3, 3),
    )
    return Example(kit=kit, trip=trip, on=ON)


def battery(name: str, vehicle: str | None, **changes: Any) -> Battery:
    """A sound AGM battery of 80 Ah."""
    second = name.endswith("second")
    fields: dict[str, Any] = {
        "place": BatteryPlace.SECOND if second else BatteryPlace.START,
        "chemistry": Chemistry.AGM,
        "built_in_cutoff": False,
        "condition": Condition.SOUND,
        "c20_ah": 80,
        "cranking_a": 800,
        "cranking_standard": CrankingStandard.SAE,
        "terminals": Terminal.POST,
        "in_service_since": date(2026, 1, 15),
        "stays_connected": False,
    }
    return Battery(name=name, vehicle=vehicle, **(fields | changes))


def reading(name: str, **changes: Any) -> Reading:
    """A good reading of a full AGM battery, the day before."""
    fields: dict[str, Any] = {
        "volts_v": 12.82,
        "taken_at": datetime(2027, 3, 3, 8, 0),  # noqa: DTZ001 - readings are kept in local time
        "rested_h": 12,
        "battery_temp_c": 15,
        "load_a": 0,
    }
    return Reading(battery=name, **(fields | changes))


def lead(name: str, use: LeadUse, end_b: Fitting, **changes: Any) -> Lead:
    """A copper lead of 35 mm2."""
    fields: dict[str, Any] = {
        "area_mm2": 35,
        "length_m": 3.0,
        "conductor": Conductor.COPPER,
        "insulation_limit_c": 85,
        "mark": Mark.BOTH_ENDS,
        "bag": BAG,
    }
    return Lead(name=name, use=use, end_a=Fitting.POST_CLAMP, end_b=end_b, **(fields | changes))


def rod(name: str, **changes: Any) -> Rod:
    """A dry packet of thick E6013, few enough for the bank."""
    fields: dict[str, Any] = {
        "designation": "E6013",
        "diameter_mm": 4.0,
        "length_mm": 350,
        "count": 6,
        "storage": RodStorage.DRY_TUBE,
        "opened_on": date(2027, 2, 20),
        "condition": RodCondition.DRY,
        "bag": BAG,
    }
    return Rod(name=name, **(fields | changes))


def gear(name: str, what: GearKind, **fields: Any) -> Gear:
    """A sound piece of gear in a bag."""
    described: dict[str, Any] = {"sound": True, "bag": BAG}
    return Gear(name=name, what=what, **(described | fields))


def tool(name: str, what: ToolKind, **fields: Any) -> Tool:
    """A tool in a bag."""
    described: dict[str, Any] = {"bag": BAG}
    return Tool(name=name, what=what, **(described | fields))


def with_repair(**changes: Any) -> Example:
    """The whole kit, ready for one repair: a spring hanger of 8 mm mild steel, with nothing behind it."""
    fields: dict[str, Any] = {
        "name": "hanger",
        "part": "spring hanger",
        "vehicle": "North",
        "steel": Steel.MILD,
        "thickness_mm": 8,
        "weld_length_mm": 40,
        "load_bearing": True,
        "behind": "nothing",
    }
    repair = Repair(**(fields | changes))
    example = with_trip(repairs=(repair.name,))
    return replace(example, kit=replace(example.kit, repairs=(repair,)))


def without_lead(name: str, *, also: tuple[Lead, ...] = ()) -> Example:
    """The whole kit without one lead, perhaps with others in its place."""
    return with_kit(leads=(*(x for x in whole().kit.leads if x.name != name), *also))


def with_lead(name: str, **changes: Any) -> Example:
    """The whole kit with one lead changed."""
    return with_kit(leads=tuple(replace(x, **changes) if x.name == name else x for x in whole().kit.leads))


def with_tool(what: ToolKind, **changes: Any) -> Example:
    """The whole kit with the tools of one kind changed."""
    return with_kit(tools=tuple(replace(t, **changes) if t.what is what else t for t in whole().kit.tools))


def with_gear(what: GearKind, **changes: Any) -> Example:
    """The whole kit with the gear of one kind changed."""
    return with_kit(gear=tuple(replace(g, **changes) if g.what is what else g for g in whole().kit.gear))


def with_trip(**changes: Any) -> Example:
    """The whole kit on another trip."""
    example = whole()
    return replace(example, trip=replace(example.trip, **changes))


def with_kit(**changes: Any) -> Example:
    """The whole kit with some of its parts replaced: `with_kit(rods=())`."""
    example = whole()
    return replace(example, kit=replace(example.kit, **changes))


def with_battery(name: str, **changes: Any) -> Example:
    """The whole kit with one battery changed."""
    batteries = tuple(replace(b, **changes) if b.name == name else b for b in whole().kit.batteries)
    return with_kit(batteries=batteries)


def with_reading(name: str, **changes: Any) -> Example:
    """The whole kit with the reading of one battery changed."""
    readings = tuple(replace(r, **changes) if r.battery == name else r for r in whole().kit.readings)
    return with_kit(readings=readings)


def without_gear(*kinds: GearKind, also: tuple[Gear, ...] = ()) -> Example:
    """The whole kit without some kinds of gear, perhaps with other gear in their place."""
    stowed = tuple(replace(g, bag=g.bag or BAG) for g in also)
    return with_kit(gear=(*(g for g in whole().kit.gear if g.what not in kinds), *stowed))


def without_tool(*kinds: ToolKind, also: tuple[Tool, ...] = ()) -> Example:
    """The whole kit without some kinds of tools, perhaps with others in their place."""
    stowed = tuple(replace(t, bag=t.bag or BAG) for t in also)
    return with_kit(tools=(*(t for t in whole().kit.tools if t.what not in kinds), *stowed))
