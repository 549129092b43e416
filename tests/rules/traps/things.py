"""What is wrong with a thing in the bags, a battery, or what is written of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from typing import Any

from kitlist.base.terms import (
    BatterySite,
    Chemistry,
    Condition,
    Extinguishant,
    Fitting,
    GearKind,
    LeadUse,
    RodCondition,
    RodStorage,
    Steel,
    ToolKind,
)
from kitlist.rules import Example, Severity, thin_steel_polarity
from kitlist.rules.example import (
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
from traps import Trap
from traps.trips import more

STOP, FIX, NOTE = Severity.STOP, Severity.FIX, Severity.NOTE
Row = tuple[str, Callable[[], Example], str | None, Severity | None, str]
TWO = ("north-second", "south-second")
HELMETS = (GearKind.HELMET, GearKind.HELMET_AUTO, GearKind.HAND_SHIELD)


def without_heater(shown: Example) -> Example:
    """Nothing to warm steel with."""
    kept = tuple(t for t in shown.kit.tools if t.what is not ToolKind.HEATER)
    return replace(shown, kit=replace(shown.kit, tools=kept))


def helmets(count: int, people: int | None = 2, shade: float | None = 12) -> Example:
    """So many passive helmets for so many people."""
    shown = without_gear(*HELMETS, also=(gear("helmet", GearKind.HELMET, shade=shade, count=count),))
    return replace(shown, trip=replace(shown.trip, people=people))


def rods(*packets: Any) -> Example:
    """These packets and no others."""
    return with_kit(rods=packets)


def earlier(volts_v: float, **fields: Any) -> Example:
    """An older reading of north-main before the good one."""
    old = reading("north-main", volts_v=volts_v, taken_at=datetime(2027, 2, 25, 8, 0), **fields)  # noqa: DTZ001
    return more(whole(), readings=(old,))


def tested_since() -> Example:
    """Flat once, and read under load after that."""
    shown = earlier(11.2)
    load = reading("north-main", volts_v=11.0, taken_at=datetime(2027, 3, 1, 8, 0), load_a=400, rested_h=None)  # noqa: DTZ001
    return more(shown, readings=(load,))


ROWS: tuple[Row, ...] = (
    ("no helmet", lambda: without_gear(*HELMETS), "eye-protection-missing", STOP, "eyes"),
    (
        "goggles alone",
        lambda: without_gear(*HELMETS, also=(gear("g", GearKind.GOGGLES, shade=5),)),
        "face-uncovered",
        STOP,
        "face",
    ),
    ("one helmet for two", lambda: helmets(1), "bystander-unprotected", STOP, "the watcher sees every arc"),
    (
        "one helmet, people not said",
        lambda: helmets(1, people=None),
        "bystander-unprotected",
        FIX,
        "not known is no pass",
    ),
    ("two helmets for two", lambda: helmets(2), None, None, "both covered"),
    ("a helmet of shade 10 for 200 A", lambda: helmets(2, shade=10), "filter-too-light", STOP, "eyes"),
    ("a helmet of unknown shade", lambda: helmets(2, shade=None), "filter-too-light", STOP, "not known is no pass"),
    (
        "a spare filter of shade 9",
        lambda: with_gear(GearKind.SPARE_FILTER, shade=9),
        "filter-too-light",
        STOP,
        "it is looked through too",
    ),
    (
        "a spare filter of unknown shade",
        lambda: with_gear(GearKind.SPARE_FILTER, shade=None),
        "filter-too-light",
        STOP,
        "the same",
    ),
    (
        "light eyes and no rod that is known",
        lambda: _light_and_unknown(),
        "filter-too-light",
        STOP,
        "the bank's own current",
    ),
    ("no gloves", lambda: without_gear(GearKind.GLOVES), "gloves-missing", STOP, "hands"),
    (
        "gloves for TIG",
        lambda: with_gear(GearKind.GLOVES, protection="EN 12477 type B"),
        "gloves-not-for-stick",
        FIX,
        "thin",
    ),
    ("no jacket", lambda: without_gear(GearKind.JACKET), "skin-uncovered", FIX, "skin"),
    ("no masks", lambda: without_gear(GearKind.MASK), "mask-missing", NOTE, "fume, outdoors"),
    ("one stand", lambda: with_tool(ToolKind.STANDS, count=1), "stands-missing", FIX, "a vehicle stands on two"),
    ("no stands", lambda: without_tool(ToolKind.STANDS), "stands-missing", STOP, "a jack lets go"),
    ("one chock", lambda: with_tool(ToolKind.CHOCKS, count=1), "stands-missing", FIX, "it rolls the other way"),
    ("two stands, two chocks", lambda: with_tool(ToolKind.CHOCKS, count=2), None, None, "enough"),
    (
        "links with spring clamps",
        lambda: with_lead("link", end_a=Fitting.SPRING_CLAMP),
        "spring-clamp-in-circuit",
        FIX,
        "hot",
    ),
    (
        "links with bonded spring clamps",
        lambda: with_lead("link", end_a=Fitting.SPRING_CLAMP_BONDED, end_b=Fitting.SPRING_CLAMP_BONDED),
        "spring-clamp-in-circuit",
        FIX,
        "slips over a vent",
    ),
    (
        "a holder lead with a spring clamp",
        lambda: with_lead("holder lead", end_a=Fitting.SPRING_CLAMP),
        "spring-clamp-in-circuit",
        FIX,
        "hot",
    ),
    (
        "a jumper set beside the links",
        lambda: more(whole(), leads=(lead("j", LeadUse.JUMPER, Fitting.SPRING_CLAMP),)),
        None,
        None,
        "for starting",
    ),
    (
        "a holder lead of 2 m",
        lambda: with_lead("holder lead", length_m=2),
        "arc-lead-too-short",
        FIX,
        "3 m from the bank",
    ),
    (
        "a work lead of 2.5 m",
        lambda: with_lead("work lead", length_m=2.5),
        "arc-lead-too-short",
        FIX,
        "3 m from the bank",
    ),
    ("a holder lead of 3 m", lambda: with_lead("holder lead", length_m=3), None, None, "just enough"),
    ("a splice 1 m from the holder", lambda: with_lead("holder lead", splice_m=1), "lead-spliced", FIX, "over the arm"),
    (
        "an insulated splice 1 m from the holder",
        lambda: with_lead("holder lead", splice_m=1, splice_insulated=True),
        None,
        None,
        "allowed",
    ),
    ("a splice 4 m from the holder", lambda: with_lead("holder lead", splice_m=4), None, None, "far enough"),
    (
        "a note of a splice",
        lambda: with_lead("holder lead", note="spliced near the end"),
        "lead-spliced",
        FIX,
        "how near?",
    ),
    ("a note of tape", lambda: with_lead("holder lead", note="Taped once"), "lead-spliced", FIX, "how near?"),
    ("a bare holder", lambda: _bare_holder(), "holder-not-insulated", STOP, "the hand on it"),
    (
        "a battery under a seat",
        lambda: with_battery("north-second", sits=BatterySite.UNDER_SEAT),
        "battery-inside",
        FIX,
        "gas",
    ),
    (
        "a battery in the cabin by its note",
        lambda: with_battery("north-second", note="in the cabin"),
        "battery-inside",
        FIX,
        "gas",
    ),
    (
        "a battery under the bonnet",
        lambda: with_battery("north-second", sits=BatterySite.BONNET),
        None,
        None,
        "open air",
    ),
    (
        "a battery in a cabin that is not in the bank",
        lambda: with_battery("south-main", sits=BatterySite.CABIN),
        None,
        None,
        "it stays",
    ),
    (
        "CO2 alone",
        lambda: with_tool(ToolKind.EXTINGUISHER, agent=Extinguishant.CO2),
        "extinguisher-wrong-kind",
        FIX,
        "wind takes it",
    ),
    (
        "water alone",
        lambda: with_tool(ToolKind.EXTINGUISHER, agent=Extinguishant.WATER),
        "extinguisher-wrong-kind",
        FIX,
        "wiring",
    ),
    ("no extinguisher", lambda: without_tool(ToolKind.EXTINGUISHER), "extinguisher-missing", STOP, "fire"),
    (
        "a clamp meter to 100 A",
        lambda: with_tool(ToolKind.CLAMP_METER, rating_a=100),
        "clamp-meter-underrated",
        NOTE,
        "off its scale",
    ),
    (
        "a clamp meter of unknown range",
        lambda: with_tool(ToolKind.CLAMP_METER, rating_a=None),
        "clamp-meter-underrated",
        NOTE,
        "not known",
    ),
    (
        "no clamp meter",
        lambda: without_tool(ToolKind.CLAMP_METER),
        "clamp-meter-missing",
        NOTE,
        "a guess stays a guess",
    ),
    ("all rods wet", lambda: rods(rod("a", condition=RodCondition.WET)), "no-usable-rod", STOP, "scrap"),
    ("all rods damaged", lambda: rods(rod("a", condition=RodCondition.DAMAGED)), "no-usable-rod", STOP, "scrap"),
    ("all rods damp", lambda: rods(rod("a", condition=RodCondition.DAMP)), "no-usable-rod", STOP, "as they are"),
    ("all rods undecodable", lambda: rods(rod("a", designation="X99")), "no-usable-rod", STOP, "what are they?"),
    (
        "all rods open too long",
        lambda: rods(rod("a", designation="E7018", storage=RodStorage.LOOSE, exposed_h=400)),
        "no-usable-rod",
        STOP,
        "hydrogen",
    ),
    (
        "wet beside dry rods",
        lambda: rods(rod("a", count=2), rod("b", condition=RodCondition.WET)),
        "rod-damp",
        FIX,
        "one is scrap",
    ),
    (
        "undecodable beside dry rods",
        lambda: rods(rod("a", count=2), rod("b", designation="X99")),
        "rod-not-known",
        FIX,
        "leave them",
    ),
    ("no rods", lambda: rods(rod("a", count=0)), "rods-missing", STOP, "count 0 is not packed"),
    (
        "cellulosic on two batteries",
        lambda: _on_two(rod("b", designation="E6011", diameter_mm=2.5, count=2)),
        "rod-strikes-poorly",
        FIX,
        "never strikes",
    ),
    (
        "basic on two batteries",
        lambda: _on_two(
            rod("b", designation="E7018", diameter_mm=2.5, count=2, storage=RodStorage.SEALED, opened_on=None)
        ),
        "rod-strikes-poorly",
        FIX,
        "wants 36 V to restrike",
    ),
    (
        "frost and nothing to warm with",
        lambda: without_heater(with_trip(coldest_c=-3)),
        "heater-missing",
        FIX,
        "20 °C first",
    ),
    (
        "no frost and nothing to warm with",
        lambda: without_heater(with_trip(coldest_c=0)),
        None,
        None,
        "0 °C is no frost",
    ),
    (
        "spring steel and nothing to warm with",
        lambda: without_heater(with_repair(steel=Steel.SPRING)),
        "heater-missing",
        FIX,
        "it cracks",
    ),
    (
        "hardened steel and nothing to warm with",
        lambda: without_heater(with_repair(steel=Steel.HARDENED)),
        "heater-missing",
        FIX,
        "it cracks",
    ),
    ("night of -25", lambda: with_trip(coldest_c=-25), "too-cold-to-weld", FIX, "by day only"),
    (
        "never over -22",
        lambda: with_trip(coldest_c=-30, hottest_c=-22),
        "too-cold-to-weld",
        STOP,
        "no hour is warm enough",
    ),
    ("flat last week, full today", lambda: earlier(10.5), "battery-refused", STOP, "a cell may be shorted"),
    (
        "11.5 V last week, full today",
        lambda: earlier(11.5),
        "battery-deep-discharged",
        FIX,
        "slow charge and a load test",
    ),
    ("11.7 V last week, full today", lambda: earlier(11.7), None, None, "low, and not flat"),
    ("flat last week, loaded since", tested_since, None, None, "tested"),
    ("cranking volts last week", lambda: earlier(10.4, rested_h=None, load_a=300), None, None, "not at rest"),
    (
        "a pacemaker",
        lambda: with_trip(keep_away="Ada: pacemaker"),
        "implant-near-the-arc",
        FIX,
        "the physician decides",
    ),
    (
        "an insulin pump",
        lambda: with_trip(keep_away="Bo, insulin pump"),
        "implant-near-the-arc",
        FIX,
        "the physician decides",
    ),
    (
        "a pacemaker, the physician asked",
        lambda: with_trip(keep_away="Ada: pacemaker", keep_away_asked="10 m, Dr Rose, 2 March"),
        "implant-near-the-arc",
        NOTE,
        "known, and kept",
    ),
    ("contact lenses", lambda: with_trip(keep_away="Ada: contact lenses"), None, None, "no arc welds them to an eye"),
    (
        "a swollen battery",
        lambda: with_battery("north-main", condition=Condition.SWOLLEN),
        "battery-refused",
        STOP,
        "bursts",
    ),
    (
        "a lithium battery",
        lambda: with_battery("north-main", chemistry=Chemistry.LITHIUM),
        "battery-refused",
        STOP,
        "cuts out",
    ),
    ("a cut-off inside", lambda: with_battery("north-main", built_in_cutoff=True), "battery-refused", STOP, "cuts out"),
    (
        "a battery of unknown kind",
        lambda: with_battery("north-main", chemistry=Chemistry.UNKNOWN),
        "battery-not-looked-at",
        STOP,
        "not known",
    ),
    (
        "a reading just after a drive",
        lambda: with_reading("north-main", rested_h=0),
        "charge-not-known",
        STOP,
        "surface charge",
    ),
    ("no isolator", lambda: without_tool(ToolKind.ISOLATOR), "isolator-missing", STOP, "a stuck rod"),
    ("no voltmeter", lambda: without_tool(ToolKind.VOLTMETER), "voltmeter-missing", STOP, "blind"),
    ("no holder lead", lambda: without_lead("holder lead"), "arc-lead-missing", STOP, "no circuit"),
    ("one link too few", lambda: with_lead("link", count=1), "links-too-few", STOP, "no circuit"),
    ("no spare link", lambda: with_lead("link", count=2), "link-without-spare", FIX, "one breaks"),
    ("5 l of fire water", lambda: with_tool(ToolKind.WATER, volume_l=5), "fire-water-short", FIX, "9 l"),
    ("no burns kit", lambda: without_tool(ToolKind.FIRST_AID_BURNS), "burns-kit-missing", FIX, "burns"),
    ("no way to call", lambda: without_tool(ToolKind.CALL_FOR_HELP), "call-for-help-missing", FIX, "help"),
    ("a bare spanner", lambda: with_tool(ToolKind.SPANNER, insulating=False), "spanner-bare", FIX, "a dead short"),
    ("zinc on the steel", lambda: _zinc(), "mask-missing", FIX, "fume fever"),
    (
        "gold plated steel",
        lambda: with_repair(name="gold plated hanger"),
        "repair-never",
        STOP,
        "cadmium until shown zinc",
    ),
    (
        "thin steel, a rod that runs either way",
        thin_steel_polarity.RULE.bad,
        "thin-steel-polarity",
        NOTE,
        "DCEN is milder",
    ),
    (
        "a helmet that nobody looked over",
        lambda: more(whole(), gear=(gear("h", GearKind.HELMET, shade=12, sound=None),)),
        "gear-unsound",
        NOTE,
        "look",
    ),
    (
        "a torn glove",
        lambda: more(whole(), gear=(gear("old", GearKind.GLOVES, sound=False),)),
        "gear-unsound",
        FIX,
        "a hole",
    ),
    (
        "a tool in no bag",
        lambda: more(whole(), tools=(tool("file 2", ToolKind.FILE, bag=None),)),
        "not-in-a-bag",
        NOTE,
        "left behind",
    ),
)


def _light_and_unknown() -> Example:
    shown = helmets(2, shade=9)
    return replace(shown, kit=replace(shown.kit, rods=(rod("a", designation="X99"),)))


def _bare_holder() -> Example:
    from kitlist.base.terms import ClampKind
    from kitlist.kit import Clamp

    bare = Clamp(
        name="h",
        what=ClampKind.HOLDER,
        joins_a=Fitting.LUG_M8,
        joins_b=Fitting.HOLDER,
        rating_a=300,
        insulated=False,
        bag="Red bag",
    )
    return more(whole(), clamps=(bare,))


def _on_two(packet: Any) -> Example:
    shown = with_trip(bank=TWO)
    return replace(shown, kit=replace(shown.kit, rods=(rod("a", diameter_mm=2.5, count=2), packet)))


def _zinc() -> Example:
    shown = with_repair(steel=Steel.GALVANISED)
    masks = tuple(replace(g, count=0) if g.what is GearKind.MASK else g for g in shown.kit.gear)
    return replace(shown, kit=replace(shown.kit, gear=masks))


TRAPS = tuple(Trap(f"thing: {change}", build, rule, severity, why) for change, build, rule, severity, why in ROWS)
