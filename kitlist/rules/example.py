"""A whole kit in which no rule finds a gap: what each rule's good and bad example is made from."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from kitlist.kit import Battery, Gear, Kit, Lead, Reading, Rod, Tool, Trip, Vehicle
from kitlist.rules.core import Example
from kitlist.terms import (
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
    Terminal,
    ToolKind,
)

ON = date(2027, 3, 4)
_BANK = ("north-main", "north-second", "south-second")


def whole() -> Example:
    """Two vehicles, four like batteries of which three make the bank, and all that goes with them."""
    names = {"north-main": "North", "north-second": "North", "south-main": "South", "south-second": "South"}
    kit = Kit(
        vehicles=(Vehicle(name="North", crank_a=250), Vehicle(name="South", crank_a=250)),
        batteries=tuple(battery(name, vehicle) for name, vehicle in names.items()),
        readings=tuple(reading(name) for name in names),
        leads=(
            lead("link", LeadUse.LINK, Fitting.POST_CLAMP, count=3),
            lead("holder lead", LeadUse.HOLDER, Fitting.HOLDER, length_m=6.0, mark=Mark.PLUS),
            lead("work lead", LeadUse.WORK, Fitting.WORK_CLAMP, length_m=6.0, mark=Mark.MINUS),
        ),
        rods=(rod("thick rods"),),
        gear=(
            Gear(name="helmet", what=GearKind.HELMET, shade=11, sound=True),
            Gear(name="second helmet", what=GearKind.HELMET, shade=11, sound=True),
            Gear(name="gloves", what=GearKind.GLOVES, protection="EN 12477 type A", sound=True),
            Gear(name="glasses", what=GearKind.SAFETY_GLASSES, sound=True),
            Gear(name="jacket", what=GearKind.JACKET, protection="ISO 11611 class 2", sound=True),
        ),
        tools=(
            Tool(
                name="extinguisher",
                what=ToolKind.EXTINGUISHER,
                agent=Extinguishant.POWDER,
                expires_on=date(2029, 1, 31),
            ),
            Tool(name="voltmeter", what=ToolKind.VOLTMETER, accuracy_ratio=0.005),
            Tool(name="isolator", what=ToolKind.ISOLATOR, rating_a=400, rating_v=60),
        ),
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
    }
    return Rod(name=name, **(fields | changes))


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
    return with_kit(gear=(*(g for g in whole().kit.gear if g.what not in kinds), *also))


def without_tool(*kinds: ToolKind, also: tuple[Tool, ...] = ()) -> Example:
    """The whole kit without some kinds of tools, perhaps with others in their place."""
    return with_kit(tools=(*(t for t in whole().kit.tools if t.what not in kinds), *also))
