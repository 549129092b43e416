"""Kits that the trade calls sound, of many makes: no stop and no fix, whatever is worth knowing of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from edges import on_trip, plus, with_all

from kitlist.base.terms import (
    BallastMetal,
    BatteryPlace,
    Chemistry,
    ClampKind,
    Conductor,
    CrankingStandard,
    Extinguishant,
    FireRules,
    Fitting,
    GearKind,
    LeadUse,
    Position,
    RodStorage,
    StartBatteries,
    Steel,
    ToolKind,
)
from kitlist.kit import Ballast, Bead, Clamp, Reading, Repair, Vehicle
from kitlist.readiness import Verdict, assess
from kitlist.rules import Example, Severity
from kitlist.rules.example import BAG, battery, gear, lead, reading, rod, tool, whole, with_lead, without_gear

TWO = ("north-second", "south-second")
FULL_V = {
    Chemistry.FLOODED: 12.66,
    Chemistry.CALCIUM: 12.82,
    Chemistry.EFB: 12.84,
    Chemistry.AGM: 12.84,
    Chemistry.GEL: 12.82,
}


def for_repairs(shown: Example, *repairs: Repair) -> Example:
    names = tuple(repair.name for repair in repairs)
    return replace(on_trip(shown, repairs=names), kit=replace(shown.kit, repairs=repairs))


def repair(part: str, **changes: Any) -> Repair:
    fields: dict[str, Any] = {
        "name": part,
        "vehicle": "North",
        "steel": Steel.MILD,
        "thickness_mm": 3,
        "weld_length_mm": 60,
        "load_bearing": False,
        "behind": "nothing, looked at from both sides",
    }
    return Repair(part=part, **(fields | changes))


def of_kind(shown: Example, chemistry: Chemistry) -> Example:
    """Every battery of a kind, each full and rested."""
    return with_all(with_all(shown, "batteries", chemistry=chemistry), "readings", volts_v=FULL_V[chemistry])


def light(
    chemistry: Chemistry = Chemistry.FLOODED, c20_ah: float = 70, part: Repair | None = None, **trip: Any
) -> Example:
    """Two batteries of a common size, thin rods for thin steel, and a practice bead with them."""
    bead = Bead(name="b", welded_on=date(2027, 2, 14), bank=TWO, rest_v=25.6, bank_v=23.0, current_a=80)
    shown = of_kind(on_trip(whole(), bank=TWO, **trip), chemistry)
    shown = with_all(shown, "batteries", c20_ah=c20_ah, cranking_a=c20_ah * 9)
    rods = (rod("thin rods", diameter_mm=2.5, length_mm=300, count=10),)
    shown = replace(shown, kit=replace(shown.kit, rods=rods, beads=(bead,)))
    return for_repairs(with_all(shown, "tools", "scrap plate", thickness_mm=3), part or repair("roof rack leg"))


def truck(bank: tuple[str, ...]) -> Example:
    """A truck of 24 V goes along, with both its batteries."""
    shown = whole()
    vehicle = Vehicle(name="Truck", crank_a=400, system_v=24, start_batteries=StartBatteries.PAIR)
    pair = tuple(battery(name, "Truck", place=BatteryPlace.START) for name in ("t1", "t2"))
    readings: tuple[Reading, ...] = (reading("t1"), reading("t2"))
    return on_trip(
        plus(shown, vehicles=(vehicle,), batteries=pair, readings=readings),
        vehicles=("North", "South", "Truck"),
        bank=bank,
    )


def rated(standard: CrankingStandard, cranking_a: float | None) -> Example:
    return with_all(whole(), "batteries", cranking_standard=standard, cranking_a=cranking_a)


def behind_a_strip() -> Example:
    strip = Ballast(name="strip", metal=BallastMetal.STAINLESS, width_mm=40, thickness_mm=1, length_m=3.6, bag=BAG)
    shown = on_trip(plus(whole(), ballasts=(strip,)), ballast="strip")
    shown = replace(shown, kit=replace(shown.kit, rods=(rod("rods", diameter_mm=3.2, count=8),)))
    return for_repairs(shown, repair("spring hanger", thickness_mm=5, load_bearing=True))


def loose_holder() -> Example:
    holder = Clamp(name="holder", what=ClampKind.HOLDER, joins_a=Fitting.LUG_M8, rating_a=300, insulated=True, bag=BAG)
    return plus(with_lead("holder lead", end_b=Fitting.LUG_M8), clamps=(holder,))


def leathers() -> Example:
    """Apron and sleeves in place of a jacket."""
    both = (
        gear("apron", GearKind.APRON, protection="leather"),
        gear("sleeves", GearKind.SLEEVES, protection="leather"),
    )
    return without_gear(GearKind.JACKET, also=both)


def basic(**repairs: Any) -> Example:
    packet = rod("low hydrogen", designation="E7018", diameter_mm=4, storage=RodStorage.SEALED, opened_on=None)
    shown = replace(whole(), kit=replace(whole().kit, rods=(packet,)))
    return for_repairs(shown, repair("cross-member", thickness_mm=8, load_bearing=True, **repairs))


def pressure_water() -> Example:
    water = tool("water", ToolKind.EXTINGUISHER, agent=Extinguishant.WATER, amount_kg=9, expires_on=date(2029, 1, 31))
    kept = tuple(t for t in whole().kit.tools if t.what is not ToolKind.WATER)
    return replace(whole(), kit=replace(whole().kit, tools=(*kept, water)))


def answered(rules: FireRules, words: str) -> Example:
    return on_trip(whole(), fire_rules=rules, fire_answer=words)


SOUND: tuple[tuple[str, Callable[[], Example]], ...] = (
    ("two flooded", light),
    ("two calcium", lambda: light(Chemistry.CALCIUM, 75)),
    ("two EFB", lambda: light(Chemistry.EFB, 65)),
    ("two AGM", lambda: light(Chemistry.AGM, 95)),
    ("two gel", lambda: light(Chemistry.GEL, 75)),
    ("two in the wet", lambda: light(wet=True)),
    ("two in the wet and the heat", lambda: light(wet=True, hottest_c=38)),
    ("two in frost", lambda: light(Chemistry.AGM, 95, coldest_c=-8)),
    ("two, overhead", lambda: light(part=repair("mudguard stay", thickness_mm=4, position=Position.OVERHEAD))),
    ("two, galvanised", lambda: light(part=repair("galvanised roof rack leg", steel=Steel.GALVANISED))),
    (
        "two, what lies behind taken away",
        lambda: light(part=repair("step", behind="jerrycan", cleared="jerry can away", cleared_by="Jo")),
    ),
    ("three EFB", lambda: of_kind(whole(), Chemistry.EFB)),
    ("three gel", lambda: of_kind(whole(), Chemistry.GEL)),
    ("three flooded", lambda: of_kind(whole(), Chemistry.FLOODED)),
    ("a truck along, its pair left alone", lambda: truck(whole().trip.bank)),
    ("a truck's pair and one more", lambda: truck(("t1", "t2", "north-second"))),
    ("a companion's vehicle", lambda: with_all(whole(), "vehicles", "South", guest_of="Kim")),
    ("rated by EN", lambda: rated(CrankingStandard.EN, 800)),
    ("rated by DIN", lambda: rated(CrankingStandard.DIN, 480)),
    ("rated by JIS", lambda: rated(CrankingStandard.JIS, 600)),
    ("rated MCA", lambda: rated(CrankingStandard.MCA, 1000)),
    ("capacity alone", lambda: rated(CrankingStandard.UNKNOWN, None)),
    ("temperatures not read", lambda: with_all(whole(), "readings", battery_temp_c=None)),
    ("bled after the drive", lambda: with_all(whole(), "readings", rested_h=0.1, quick_load=True)),
    ("behind a strip", behind_a_strip),
    (
        "3.2 mm rods on 8 mm steel",
        lambda: for_repairs(
            replace(whole(), kit=replace(whole().kit, rods=(rod("rods", diameter_mm=3.2, count=8),))),
            repair("spring hanger", thickness_mm=8, load_bearing=True),
        ),
    ),
    ("sealed basic rods", basic),
    ("sealed basic rods on high-strength steel", lambda: basic(steel=Steel.HIGH_STRENGTH)),
    ("copper-clad of 50 mm2", lambda: with_all(whole(), "leads", area_mm2=50, conductor=Conductor.COPPER_CLAD)),
    ("a loose holder", loose_holder),
    ("a jumper set too", lambda: plus(whole(), leads=(lead("jump", LeadUse.JUMPER, Fitting.SPRING_CLAMP),))),
    ("leather apron and sleeves", leathers),
    ("water under pressure", pressure_water),
    (
        "a permit with conditions",
        lambda: answered(FireRules.WITH_CONDITIONS, "no hot work from 10 to 18 h if the wind is over 30 km/h"),
    ),
    ("a permit, not on ban days", lambda: answered(FireRules.WITH_CONDITIONS, "permit 12, not on total fire ban days")),
)


@pytest.mark.parametrize(("name", "build"), SOUND, ids=lambda value: value if isinstance(value, str) else "")
def test_a_sound_kit_is_ready(name: str, build: Callable[[], Example]) -> None:
    shown = build()
    readiness = assess(shown.kit, shown.trip, on=shown.on)
    assert [f"{g.weight} {g.rule}: {g.what}" for g in readiness.gaps if g.weight is not Severity.NOTE] == [], name
    assert readiness.verdict is Verdict.READY


def test_somebody_alone_has_one_fix_that_changes_the_procedure() -> None:
    alone = on_trip(without_gear(GearKind.HELMET, also=(gear("helmet", GearKind.HELMET, shade=11),)), people=1)
    gaps = assess(alone.kit, alone.trip, on=alone.on).gaps
    assert [gap.rule for gap in gaps if gap.weight is not Severity.NOTE] == ["fire-watch-missing"]
