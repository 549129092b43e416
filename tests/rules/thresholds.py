"""Both sides of the thresholds of the circuit, skin, fire, tools, repairs and paper: (rule, kit, severity or None)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from typing import Any

from kitlist.kit import Acceptance, Clamp, Item, Lead
from kitlist.rules import Example, Severity
from kitlist.rules.example import (
    BAG,
    battery,
    gear,
    lead,
    reading,
    rod,
    tool,
    whole,
    with_battery,
    with_gear,
    with_kit,
    with_lead,
    with_reading,
    with_repair,
    with_tool,
    with_trip,
    without_gear,
    without_lead,
    without_tool,
)
from kitlist.rules.eye_protection_missing import COVERS_FACE
from kitlist.terms import (
    BatteryPlace,
    ClampKind,
    Conductor,
    Extinguishant,
    Fitting,
    GearKind,
    LeadUse,
    Mark,
    Position,
    RodStorage,
    Steel,
    Terminal,
    ToolKind,
)

STOP, FIX, NOTE = Severity.STOP, Severity.FIX, Severity.NOTE
Row = tuple[str, Callable[[], Example], Severity | None]


def plus(example: Example, **more: tuple[Any, ...]) -> Example:
    """An example with more of some things: `plus(whole(), leads=(...,))`."""
    return replace(example, kit=replace(example.kit, **{k: (*getattr(example.kit, k), *v) for k, v in more.items()}))


def jumper(**changes: Any) -> Example:
    return plus(whole(), leads=(lead("jumper", LeadUse.JUMPER, Fitting.SPRING_CLAMP, **changes),))


def clamp(**changes: Any) -> Example:
    fields: dict[str, Any] = {"joins_a": Fitting.LUG_M8, "joins_b": Fitting.HOLDER, "rating_a": 300, "insulated": True}
    return with_kit(clamps=(Clamp(name="loose", **({"what": ClampKind.HOLDER, "bag": BAG} | fields | changes)),))


def two_readings(name: str, older_v: float, newer_v: float, days: int = 5, **changes: Any) -> Example:
    older = reading(name, volts_v=older_v, taken_at=datetime(2027, 3, 3 - days, 8, 0) if days < 3 else _before(days))  # noqa: DTZ001
    kit = whole().kit
    newer = tuple(replace(r, volts_v=newer_v) if r.battery == name else r for r in kit.readings)
    batteries = tuple(replace(b, **changes) if b.name == name else b for b in kit.batteries)
    return with_kit(readings=(*newer, older), batteries=batteries)


def _before(days: int) -> datetime:
    return datetime(2027, 2, 28 + 3 - days, 8, 0)  # noqa: DTZ001


def loose(volts_v: float, coldest_c: float, **changes: Any) -> Example:
    cold = with_trip(coldest_c=coldest_c, **({"bank": changes.pop("bank")} if "bank" in changes else {}))
    flat = battery("loose", None, **({"place": BatteryPlace.LOOSE, "bag": BAG} | changes))
    return plus(cold, batteries=(flat,), readings=(reading("loose", volts_v=volts_v),))


def auto(**changes: Any) -> Example:
    fields = {"shade": 11, "count": 2, "lowest_c": -10, "cell_changed_on": date(2026, 6, 1)}
    fields |= {"tested_on": date(2027, 2, 1)}
    return without_gear(*COVERS_FACE, also=(gear("auto helmet", GearKind.HELMET_AUTO, **(fields | changes)),))


def far(example: Example, days: float | None) -> Example:
    return replace(example, trip=replace(example.trip, days_from_help=days))


def accepted(**changes: Any) -> Example:
    fields: dict[str, Any] = {
        "name": "one",
        "rule": "link-without-spare",
        "subject": "links",
        "severity": "fix",
        "trip": "Example",
        "accepted_by": "Ada",
        "reason": "later",
        "accepted_on": date(2027, 3, 1),
        "until": date(2027, 3, 3),
    }
    return with_kit(acceptances=(Acceptance(**(fields | changes)),))


def links(*made: Lead, **trip: Any) -> Example:
    example = without_lead("link", also=made)
    return replace(example, trip=replace(example.trip, **trip))


def link(name: str = "own link", end_b: Fitting = Fitting.POST_CLAMP, **changes: Any) -> Lead:
    return lead(name, LeadUse.LINK, end_b, **changes)


THRESHOLDS: tuple[Row, ...] = (
    # the circuit: marks, bags, heat, joints, ratings
    ("polarity-not-marked", lambda: with_lead("work lead", mark=Mark.NONE), FIX),
    ("polarity-not-marked", lambda: with_lead("link", mark=Mark.NONE), FIX),
    ("polarity-not-marked", lambda: with_lead("link", mark=Mark.NONE, count=0), None),
    ("polarity-not-marked", lambda: jumper(mark=Mark.NONE), None),
    ("plus-and-minus-together", lambda: with_lead("work lead", bag=BAG), NOTE),
    ("plus-and-minus-together", lambda: with_lead("work lead", bag=BAG, mark=Mark.BOTH_ENDS), None),
    ("plus-and-minus-together", lambda: with_lead("work lead", bag=BAG, count=0), None),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25), None),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=24.9), FIX),  # the table's 16 mm² counts
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=9), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", conductor=Conductor.UNKNOWN), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25, conductor=Conductor.COPPER_CLAD), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25, insulation_limit_c=60), FIX),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=25), None),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=24.9), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=None), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=35, conductor=Conductor.COPPER_CLAD), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=40, conductor=Conductor.ALUMINIUM), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=41, conductor=Conductor.ALUMINIUM), None),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=10, count=0), None),
    # 3 m of 35 mm² is 1.66 mΩ by IEC 60228 class 5; 1 mΩ a joint makes 3.66
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=3.66), None),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=3.67), FIX),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=9, count=0), None),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=9, area_mm2=None), None),
    ("holder-underrated", lambda: with_lead("holder lead", rating_a=203), None),
    ("holder-underrated", lambda: with_lead("holder lead", rating_a=202), FIX),
    ("holder-underrated", lambda: with_lead("work lead", rating_a=202), FIX),
    ("holder-underrated", lambda: with_lead("work lead", rating_a=None), NOTE),
    ("holder-underrated", lambda: clamp(rating_a=150), FIX),
    ("holder-underrated", lambda: clamp(rating_a=150, count=0), None),
    ("holder-underrated", lambda: clamp(what=ClampKind.ADAPTOR, rating_a=None), None),
    ("holder-not-insulated", lambda: clamp(), None),
    ("holder-not-insulated", lambda: clamp(insulated=False), STOP),
    ("holder-not-insulated", lambda: clamp(insulated=None), FIX),
    ("holder-not-insulated", lambda: clamp(insulated=False, count=0), None),
    ("holder-not-insulated", lambda: clamp(insulated=False, what=ClampKind.WORK_CLAMP), None),
    ("isolator-missing", lambda: without_tool(ToolKind.ISOLATOR), FIX),
    ("isolator-missing", lambda: with_tool(ToolKind.ISOLATOR, count=0), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_v=60), None),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_v=59.9), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_v=None), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=None), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=202), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=203), NOTE),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=933), NOTE),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=934), None),
    ("fuse-missing", lambda: without_tool(ToolKind.FUSE), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_v=58), None),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_v=57.9), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_v=None), NOTE),
    ("voltmeter-missing", lambda: without_tool(ToolKind.VOLTMETER), STOP),
    ("meter-accuracy-not-known", lambda: with_tool(ToolKind.VOLTMETER, accuracy_ratio=None), NOTE),
    ("clamp-meter-missing", lambda: without_tool(ToolKind.CLAMP_METER), NOTE),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=3), None),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=2), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, insulating=None), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, insulating=False), FIX),
    ("battery-cover-missing", lambda: without_tool(ToolKind.BATTERY_COVER), FIX),
    ("spanner-missing", lambda: without_tool(ToolKind.SPANNER), FIX),
    ("post-brush-missing", lambda: without_tool(ToolKind.POST_BRUSH), NOTE),
    (
        "post-brush-missing",
        lambda: without_tool(ToolKind.POST_BRUSH, ToolKind.WIRE_BRUSH),
        None,
    ),  # hammer and brush say it
    # batteries: 800 A by SAE is good to 3.8/800 = 4.75 mΩ and worn out over 6.0/800 = 7.5 mΩ
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=4.75), None),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=4.76), FIX),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=7.6), FIX),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=7.6, cranking_a=None), None),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45), FIX),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.70), None),
    ("battery-failing", lambda: two_readings("south-main", 12.45, 12.82), None),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45, stays_connected=None), FIX),
    ("battery-may-freeze", lambda: loose(11.95, -12), FIX),
    ("battery-may-freeze", lambda: loose(11.95, -9), None),
    ("battery-may-freeze", lambda: loose(12.82, -12), None),
    ("battery-may-freeze", lambda: loose(11.95, -12, bank=("north-main", "south-second", "loose")), STOP),
    ("battery-under-floor", lambda: loose(11.95, -12), None),  # one cause, one line
    ("battery-under-floor", lambda: loose(11.95, -9), FIX),
    ("no-battery-left-to-start", lambda: with_trip(bank=("north-main", "north-second", "south-main")), FIX),
    ("no-battery-left-to-start", lambda: with_trip(bank=("north-main", "north-second", "south-second")), None),
    ("no-battery-left-to-start", lambda: with_trip(vehicles=("North",), bank=("north-main", "north-second")), FIX),
    ("loose-battery-not-stowed", lambda: loose(12.82, 5, bag=None), FIX),
    ("loose-battery-not-stowed", lambda: loose(12.82, 5), None),
    # does it join up: 1 m between vehicles and 0.5 m into each
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=2), None),
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=2.01), STOP),
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=None), FIX),
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=None, bank=("north-main", "north-second")), None),
    ("circuit-does-not-join", lambda: with_battery("north-main", terminals=Terminal.UNKNOWN), FIX),
    ("circuit-does-not-join", lambda: with_battery("north-main", terminals=Terminal.STUD_M8), STOP),
    ("circuit-does-not-join", lambda: with_battery("south-main", terminals=Terminal.STUD_M8), None),
    ("circuit-does-not-join", lambda: links(link(count=1)), None),  # links-too-few says it
    ("circuit-does-not-join", lambda: without_lead("work lead"), None),  # arc-lead-missing says it
    ("circuit-does-not-join", lambda: links(link(end_b=Fitting.LUG_M8, count=2)), STOP),
    ("spare-link-does-not-fit", lambda: links(link(), link("b", length_m=2.0, count=2)), None),
    ("spare-link-does-not-fit", lambda: links(link(), link("b", length_m=1.99, count=2)), FIX),
    ("spare-link-does-not-fit", lambda: links(link(count=2)), None),  # link-without-spare says it
    # rods and repairs
    ("rod-polarity-not-known", lambda: with_kit(rods=(rod("a", designation="E 42 0 RR 12"),)), FIX),
    ("rod-strikes-poorly", lambda: with_kit(rods=(rod("a", designation="E6011"),)), NOTE),
    ("rod-strikes-poorly", lambda: _basic_on_two(), FIX),
    ("rod-strikes-poorly", lambda: with_trip(bank=("north-second",)), None),  # no arc at all
    ("repair-never", lambda: with_repair(part="brake pedal"), STOP),
    ("repair-last-resort", lambda: with_repair(part="tie rod"), NOTE),
    ("repair-not-known", lambda: with_repair(part="flux capacitor"), FIX),
    ("repair-not-known", lambda: with_repair(steel=Steel.UNKNOWN), FIX),
    ("repair-not-known", lambda: with_repair(weld_length_mm=None), FIX),
    ("repair-not-known", lambda: with_repair(part="wheel", thickness_mm=None), None),
    ("repair-not-known", lambda: with_trip(repairs=("gone",)), FIX),
    ("repair-without-rod", lambda: with_repair(steel=Steel.CAST_IRON), FIX),
    ("repair-without-rod", lambda: with_repair(thickness_mm=3), FIX),
    ("repair-without-rod", lambda: with_repair(thickness_mm=None), None),
    ("rods-too-few", lambda: with_repair(weld_length_mm=460), None),
    ("rods-too-few", lambda: with_repair(weld_length_mm=480), FIX),
    ("rods-too-few", lambda: far(with_repair(weld_length_mm=380), 2), None),
    ("rods-too-few", lambda: far(with_repair(weld_length_mm=380), 2.1), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind=""), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind="", part="wheel"), None),
    ("danger-behind-the-weld", lambda: with_repair(behind="fuel tank"), NOTE),
    ("danger-behind-the-weld", lambda: with_repair(behind="wiring loom"), NOTE),
    ("danger-behind-the-weld", lambda: with_repair(behind="side airbag"), NOTE),
    ("danger-behind-the-weld", lambda: with_repair(behind="battery tray"), NOTE),
    ("danger-behind-the-weld", lambda: with_repair(behind="coil spring"), NOTE),
    ("danger-behind-the-weld", lambda: with_repair(behind="cross-member"), None),
    ("danger-behind-the-weld", lambda: with_repair(behind="fuel tank", part="wheel"), None),
    ("test-plate-missing", lambda: without_tool(ToolKind.SCRAP_PLATE), NOTE),
    ("test-plate-missing", lambda: with_repair(thickness_mm=9), None),
    ("test-plate-missing", lambda: with_repair(thickness_mm=9.1), NOTE),
    ("test-plate-missing", lambda: with_repair(thickness_mm=6.9), NOTE),
    ("test-plate-missing", lambda: with_repair(thickness_mm=None), None),
    ("stock-missing", lambda: _without(with_repair(), ToolKind.STOCK_FLAT), NOTE),
    ("stock-missing", lambda: _without(with_repair(load_bearing=False), ToolKind.STOCK_FLAT), None),
    ("stock-missing", lambda: _without(with_repair(part="wheel"), ToolKind.STOCK_FLAT), None),
    # eyes and skin
    ("bystander-unprotected", lambda: without_gear(*COVERS_FACE, also=(_helmet(1),)), FIX),
    ("bystander-unprotected", lambda: without_gear(*COVERS_FACE, also=(_helmet(2),)), None),
    ("bystander-unprotected", lambda: _people(without_gear(*COVERS_FACE, also=(_helmet(1),)), None), FIX),
    ("bystander-unprotected", lambda: _people(without_gear(*COVERS_FACE, also=(_helmet(1),)), 1), None),
    ("bystander-unprotected", lambda: without_gear(*COVERS_FACE), None),
    ("spare-filter-missing", lambda: far(without_gear(GearKind.SPARE_FILTER), 2), NOTE),
    ("spare-filter-missing", lambda: far(without_gear(GearKind.SPARE_FILTER), 2.1), FIX),
    ("spare-filter-missing", lambda: far(without_gear(GearKind.SPARE_FILTER), None), FIX),
    ("auto-darkening-doubtful", lambda: auto(), None),
    ("auto-darkening-doubtful", lambda: auto(tested_on=date(2026, 12, 6)), None),  # 90 days before 6 March
    ("auto-darkening-doubtful", lambda: auto(tested_on=date(2026, 12, 5)), FIX),
    ("auto-darkening-doubtful", lambda: auto(tested_on=None), FIX),
    ("auto-darkening-doubtful", lambda: auto(cell_changed_on=date(2025, 3, 6)), None),  # 730 days
    ("auto-darkening-doubtful", lambda: auto(cell_changed_on=date(2025, 3, 5)), FIX),
    ("auto-darkening-doubtful", lambda: auto(cell_changed_on=None), FIX),
    ("auto-darkening-doubtful", lambda: auto(lowest_c=5), None),
    ("auto-darkening-doubtful", lambda: auto(lowest_c=6), FIX),
    ("safety-glasses-missing", lambda: without_gear(GearKind.SAFETY_GLASSES), FIX),
    ("gloves-missing", lambda: without_gear(GearKind.GLOVES), STOP),
    ("gloves-missing", lambda: with_gear(GearKind.GLOVES, sound=False), STOP),
    ("gloves-not-for-stick", lambda: with_gear(GearKind.GLOVES, protection="EN 12477 type B"), FIX),
    ("gloves-not-for-stick", lambda: with_gear(GearKind.GLOVES, protection=""), FIX),
    ("gloves-not-for-stick", lambda: with_gear(GearKind.GLOVES, protection="TYPE A"), None),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET), FIX),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET, also=(gear("apron", GearKind.APRON),)), FIX),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET, also=_apron_and_sleeves()), None),
    ("clothing-synthetic", lambda: with_gear(GearKind.JACKET, note="Nylon shell"), STOP),
    ("clothing-synthetic", lambda: with_gear(GearKind.JACKET, protection="fleece"), STOP),
    ("clothing-synthetic", lambda: with_gear(GearKind.JACKET, note="wool"), None),
    ("clothing-class-too-low", lambda: with_gear(GearKind.JACKET, protection="ISO 11611 class 1"), None),
    ("clothing-class-too-low", lambda: _clothed("class 1", with_repair(position=Position.OVERHEAD)), NOTE),
    ("clothing-class-too-low", lambda: _clothed("class 2", with_repair(position=Position.OVERHEAD)), None),
    ("clothing-class-too-low", lambda: _clothed("class 1", with_kit(rods=(rod("a", designation="E7018"),))), NOTE),
    ("clothing-class-too-low", lambda: with_gear(GearKind.JACKET, protection=""), NOTE),
    ("gear-unsound", lambda: with_gear(GearKind.MASK, sound=False), FIX),
    ("gear-unsound", lambda: with_gear(GearKind.MASK, sound=False, count=0), None),
    ("gear-unsound", lambda: with_gear(GearKind.GLOVES, sound=None), NOTE),
    ("gear-unsound", lambda: with_gear(GearKind.MASK, sound=None), None),
    ("mask-missing", lambda: without_gear(GearKind.MASK), NOTE),
    # fire, help, holding up
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, amount_kg=1), None),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, amount_kg=0.99), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, amount_kg=None), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, agent=None), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, agent=Extinguishant.WATER), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, agent=Extinguishant.CO2), None),
    ("extinguisher-wrong-kind", lambda: without_tool(ToolKind.EXTINGUISHER), None),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=9), None),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=8.9), FIX),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=4.5, count=2), None),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=None), FIX),
    ("fire-water-short", lambda: without_tool(ToolKind.WATER), FIX),
    ("fire-watch-missing", lambda: with_trip(people=2), None),
    ("fire-watch-missing", lambda: with_trip(people=1), FIX),
    ("fire-watch-missing", lambda: with_trip(people=None), FIX),
    ("fire-tools-missing", lambda: without_tool(ToolKind.SHOVEL), NOTE),
    ("fire-tools-missing", lambda: without_tool(ToolKind.FIRE_BLANKET), NOTE),
    ("burns-kit-missing", lambda: without_tool(ToolKind.FIRST_AID_BURNS), FIX),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=2), None),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=1.9), FIX),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=None), FIX),
    ("eye-wash-short", lambda: without_tool(ToolKind.EYE_WASH), FIX),
    ("call-for-help-missing", lambda: without_tool(ToolKind.CALL_FOR_HELP), FIX),
    ("help-distance-not-known", lambda: with_trip(days_from_help=None), FIX),
    ("help-distance-not-known", lambda: with_trip(days_from_help=0), None),
    ("stands-missing", lambda: without_tool(ToolKind.STANDS), STOP),
    ("stands-missing", lambda: without_tool(ToolKind.CHOCKS), FIX),
    # tools
    ("cleaning-tools-missing", lambda: without_tool(ToolKind.WIRE_BRUSH), FIX),
    ("cleaning-tools-missing", lambda: without_tool(ToolKind.CHIPPING_HAMMER), FIX),
    ("preparation-tools-missing", lambda: without_tool(ToolKind.FILE), FIX),
    ("preparation-tools-missing", lambda: _prepared(ToolKind.GRINDER), FIX),
    ("preparation-tools-missing", lambda: _prepared(ToolKind.DISC), FIX),
    ("preparation-tools-missing", lambda: _prepared(ToolKind.GRINDER, ToolKind.DISC), None),
    # paper and process; the trip ends on 9 March 2027 and is judged on 4 March
    ("out-of-date", lambda: with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 9)), None),
    ("out-of-date", lambda: with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 8)), FIX),
    ("out-of-date", lambda: with_gear(GearKind.MASK, expires_on=date(2027, 3, 8)), FIX),
    ("out-of-date", lambda: with_tool(ToolKind.EXTINGUISHER, expires_on=date(2027, 3, 8)), None),
    ("out-of-date", lambda: with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 8), count=0), None),
    ("out-of-date", lambda: _item(expires_on=date(2027, 3, 8)), FIX),
    ("not-in-a-bag", lambda: with_lead("link", bag=None), NOTE),
    ("not-in-a-bag", lambda: with_lead("link", bag=None, count=0), None),
    ("not-in-a-bag", lambda: _item(bag=None), NOTE),
    ("own-item-missing", lambda: _item(count=2), None),
    ("own-item-missing", lambda: _item(count=1), FIX),
    ("own-item-missing", lambda: _item(count=0, must_carry=0), None),
    ("acceptance-past-its-date", lambda: accepted(), FIX),
    ("acceptance-past-its-date", lambda: accepted(until=date(2027, 3, 4)), None),
    ("acceptance-past-its-date", lambda: accepted(trip="Another"), None),
    ("reading-stale", lambda: with_reading("north-main", taken_at=datetime(2027, 2, 27, 8, 0)), None),  # noqa: DTZ001
)


def _basic_on_two() -> Example:
    basic = with_kit(rods=(rod("a", designation="E7018", diameter_mm=2.5, storage=RodStorage.SEALED, opened_on=None),))
    return replace(basic, trip=replace(basic.trip, bank=("north-second", "south-second")))


def _without(example: Example, kind: ToolKind) -> Example:
    return replace(example, kit=replace(example.kit, tools=tuple(t for t in example.kit.tools if t.what is not kind)))


def _helmet(count: int) -> Any:
    return gear("helmet", GearKind.HELMET, shade=11, count=count)


def _people(example: Example, people: int | None) -> Example:
    return replace(example, trip=replace(example.trip, people=people))


def _apron_and_sleeves() -> tuple[Any, ...]:
    return (gear("apron", GearKind.APRON, protection="ISO 11611 class 2"), gear("sleeves", GearKind.SLEEVES))


def _clothed(protection: str, example: Example) -> Example:
    worn = tuple(replace(g, protection=protection) if g.what is GearKind.JACKET else g for g in example.kit.gear)
    return replace(example, kit=replace(example.kit, gear=worn))


def _prepared(*kinds: ToolKind) -> Example:
    return without_tool(ToolKind.FILE, also=tuple(tool(str(kind), kind) for kind in kinds))


def _item(**changes: Any) -> Example:
    fields: dict[str, Any] = {"must_carry": 2, "count": 2, "bag": BAG}
    return with_kit(items=(Item(name="fan belt", **(fields | changes)),))
