"""Kits just beside those of the thresholds: what is not known, what comes twice, what another rule says already."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from kitlist.base.terms import (
    BatteryPlace,
    BatterySite,
    Chemistry,
    Condition,
    Conductor,
    CrankingStandard,
    Extinguishant,
    FireRules,
    Fitting,
    GearKind,
    LeadUse,
    RodCondition,
    RodStorage,
    Settled,
    StartBatteries,
    Steel,
    Terminal,
    ToolKind,
)
from kitlist.kit import Acceptance, Bag, Mend, Reading, Rod, Trip
from kitlist.rules import Example, Severity
from kitlist.rules.card_out_of_date import RULE as CARDS
from kitlist.rules.example import (
    gear,
    lead,
    reading,
    rod,
    tool,
    whole,
    with_battery,
    with_kit,
    with_lead,
    with_reading,
    with_repair,
    with_tool,
    with_trip,
    without_gear,
    without_tool,
)
from kitlist.rules.parallel_strings_apart import with_strings
from kitlist.rules.starting_pair_parted import with_two as starters

STOP, FIX, NOTE = Severity.STOP, Severity.FIX, Severity.NOTE
OTHER = ("north-second", "south-main", "south-second")
SEALED: dict[str, Any] = {"storage": RodStorage.SEALED, "opened_on": None}


def plus(shown: Example, **more: tuple[Any, ...]) -> Example:
    """An example with more of some things."""
    added: dict[str, Any] = {k: (*getattr(shown.kit, k), *v) for k, v in more.items()}
    return replace(shown, kit=replace(shown.kit, **added))


def with_all(shown: Example, kind: str, name: str = "", **changes: Any) -> Example:
    """An example with every thing of a kind, or the one of a name, changed."""
    things = (replace(t, **changes) if not name or t.name == name else t for t in getattr(shown.kit, kind))
    changed: dict[str, Any] = {kind: tuple(things)}
    return replace(shown, kit=replace(shown.kit, **changed))


def on_trip(shown: Example, **changes: Any) -> Example:
    return replace(shown, trip=replace(shown.trip, **changes))


def at(month: int, day: int, hour: int, minute: int) -> datetime:
    """A time of 2027, local as readings are."""
    return datetime(2027, month, day, hour, minute)  # noqa: DTZ001


def with_bag(place: str) -> Example:
    """The whole kit with an empty bag more, and East, which stays at home."""
    shown = plus(whole(), bags=(Bag(name="empty bag", place=place),))
    return plus(shown, vehicles=(replace(shown.kit.vehicles[0], name="East"),))


def bankless(shown: Example) -> Example:
    return on_trip(shown, bank=(), bank_strings=1)


def card(*cards: dict[str, Any]) -> Example:
    """The whole kit with cards that were printed of it, each changed."""
    (first,) = CARDS.good().kit.printed
    return with_kit(printed=tuple(replace(first, **changes) for changes in cards))


def low(
    volts_v: float = 11.2, more: tuple[Reading, ...] = (), batt: dict[str, Any] | None = None, **fields: Any
) -> Example:
    """A battery that was low on 20 February, and full since."""
    then = reading("north-main", volts_v=volts_v, taken_at=at(2, 20, 8, 0), **fields)
    return plus(with_battery("north-main", **(batt or {})), readings=(then, *more))


def load(taken_at: datetime) -> Reading:
    return reading("north-main", volts_v=11.0, taken_at=taken_at, load_a=400, rested_h=None)


def _tools(what: ToolKind, fields: tuple[dict[str, Any], ...], *also: ToolKind) -> Example:
    named = tuple(tool(f"{what} {number}", what, **each) for number, each in enumerate(fields))
    return without_tool(what, *also, also=named)


def fuses(*fields: dict[str, Any]) -> Example:
    return _tools(ToolKind.FUSE, fields)


def isol(*fields: dict[str, Any], fuse: bool = True) -> Example:
    """These isolators, with the fuse or without."""
    return _tools(ToolKind.ISOLATOR, fields, *(() if fuse else (ToolKind.FUSE,)))


def covers(*fields: dict[str, Any]) -> Example:
    return _tools(ToolKind.BATTERY_COVER, fields)


def masks(*fields: dict[str, Any]) -> Example:
    named = tuple(gear(f"masks {number}", GearKind.MASK, **each) for number, each in enumerate(fields))
    return without_gear(GearKind.MASK, also=named)


def mend(**changes: Any) -> Example:
    fields: dict[str, Any] = {"part": "spring hanger", "welded_on": date(2027, 1, 20), "vehicle": "North"}
    return with_kit(mends=(Mend(name="hanger", **(fields | changes)),))


def rods(*packets: Rod) -> Example:
    return with_kit(rods=packets)


def for_repair(*packets: Rod, **repair: Any) -> Example:
    shown = with_repair(**repair)
    return replace(shown, kit=replace(shown.kit, rods=packets))


def three_repairs() -> Example:
    """Two brackets of aluminium, and one of stainless steel."""
    shown = with_repair(steel=Steel.ALUMINIUM, part="bracket")
    (first,) = shown.kit.repairs
    more = plus(shown, repairs=(replace(first, name="b"), replace(first, name="c", steel=Steel.STAINLESS)))
    return on_trip(more, repairs=("hanger", "b", "c"))


def two_reads(older_v: float, newer_v: float, days: int, **changes: Any) -> Example:
    """South's starting battery read twice, so many days apart."""
    shown = with_battery("south-main", **changes)
    now = next(r for r in shown.kit.readings if r.battery == "south-main")
    then = replace(now, volts_v=older_v, taken_at=now.taken_at - timedelta(days=days))
    newest = tuple(replace(r, volts_v=newer_v) if r is now else r for r in shown.kit.readings)
    return replace(shown, kit=replace(shown.kit, readings=(*newest, then)))


def unrested(shown: Example) -> Example:
    return with_readings(shown, "south-main", rested_h=None)


def untempered(shown: Example) -> Example:
    return with_readings(shown, "south-main", battery_temp_c=None)


def with_readings(shown: Example, name: str, **changes: Any) -> Example:
    read = tuple(replace(r, **changes) if r.battery == name else r for r in shown.kit.readings)
    return replace(shown, kit=replace(shown.kit, readings=read))


def unheated(shown: Example) -> Example:
    kept = tuple(t for t in shown.kit.tools if t.what is not ToolKind.HEATER)
    return replace(shown, kit=replace(shown.kit, tools=kept))


def as_singles(shown: Example) -> Example:
    return with_all(shown, "vehicles", start_batteries=StartBatteries.SINGLE, system_v=12)


def plugged(breaks_a: float | None, shown: Example) -> Example:
    """A plug in the holder lead that may be pulled under so many amperes."""
    return with_all(shown, "leads", "holder lead", end_a=Fitting.PLUG, pattern_a="big", plug_breaks_a=breaks_a)


def rodless(shown: Example) -> Example:
    return replace(shown, kit=replace(shown.kit, rods=()))


def unsized(shown: Example) -> Example:
    return with_all(shown, "batteries", "west-main", c20_ah=None)


def garments(jacket: str, apron: str, *, basic: bool = False) -> Example:
    """A jacket and an apron of a class each."""
    both = (
        gear("jacket", GearKind.JACKET, protection=f"ISO 11611 class {jacket}"),
        gear("apron", GearKind.APRON, protection=f"ISO 11611 class {apron}"),
    )
    shown = without_gear(GearKind.JACKET, also=both)
    packets = (rod("x", designation="E7018", **SEALED),) if basic else shown.kit.rods
    return replace(shown, kit=replace(shown.kit, rods=packets))


EDGES: tuple[tuple[str, Callable[[], Example], Severity | None], ...] = (
    ("card-out-of-date", lambda: card({"basis": "7:abcd"}), FIX),
    ("card-out-of-date", lambda: card({"strings": ()}), None),
    ("card-out-of-date", lambda: card({"strings": (), "basis": "7:abcd"}), FIX),
    ("card-out-of-date", lambda: card({"strings": (OTHER,)}), FIX),
    (
        "card-out-of-date",
        lambda: card(
            {"strings": (OTHER,), "revision": 3, "content_hash": "aaaa1111"},
            {"strings": (OTHER[::-1],), "revision": 2, "content_hash": "bbbb2222"},
        ),
        FIX,
    ),
    ("card-out-of-date", lambda: card({"strings": (OTHER,)}, {}), NOTE),
    (
        "card-out-of-date",
        lambda: card({"strings": (("north-main", "north-second"), ("south-main", "south-second"))}, {}),
        NOTE,
    ),
    ("card-out-of-date", lambda: card({"paper": "sheet", "basis": "x"}), None),
    ("card-out-of-date", lambda: card({"trip": "Other", "basis": "x"}), None),
    ("card-out-of-date", lambda: bankless(card({"basis": "x"})), None),
    ("card-out-of-date", lambda: bankless(card({"strings": (OTHER,)})), None),
    ("card-out-of-date", lambda: card({"strings": (("north-main", "west-main", "south-second"),)}, {}), None),
    ("card-out-of-date", lambda: card({"basis": ""}), FIX),
    ("parallel-strings-apart", lambda: with_strings(13.04), None),
    ("parallel-strings-apart", lambda: with_strings(13.04, c20_ah=60), None),
    ("parallel-strings-apart", lambda: with_strings(13.04, c20_ah=None), None),
    (
        "parallel-strings-apart",
        lambda: with_strings(13.04, c20_ah=None, cranking_a=None, cranking_standard=CrankingStandard.UNKNOWN),
        None,
    ),
    ("parallel-strings-apart", lambda: with_strings(12.82, chemistry=Chemistry.GEL), STOP),
    ("battery-deep-discharged", lambda: low(batt={"chemistry": Chemistry.LITHIUM}), None),
    ("battery-deep-discharged", lambda: low(batt={"condition": Condition.CRACKED}), None),
    ("battery-deep-discharged", lambda: low(batt={"c20_ah": None}), FIX),
    ("battery-deep-discharged", lambda: low(batt={"c20_ah": 75}), FIX),
    ("battery-deep-discharged", lambda: low(charging=True, rested_h=None, load_a=None), None),
    ("battery-deep-discharged", lambda: low(load_a=20), None),
    ("battery-deep-discharged", lambda: low(rested_h=None), None),
    ("battery-deep-discharged", lambda: low(rested_h=2), FIX),
    ("battery-deep-discharged", lambda: low(rested_h=1.9), None),
    ("battery-deep-discharged", lambda: low(more=(load(at(2, 19, 8, 0)),)), FIX),
    ("battery-deep-discharged", lambda: low(more=(load(at(2, 20, 8, 0)),)), FIX),
    ("battery-deep-discharged", lambda: low(more=(load(at(2, 20, 8, 1)),)), None),
    ("isolator-underrated", lambda: isol({"rating_a": None, "rating_v": 60}, {"rating_a": 2000, "rating_v": 60}), None),
    (
        "isolator-underrated",
        lambda: isol({"rating_a": 2000, "rating_v": None}, {"rating_a": 300, "rating_v": 60}),
        NOTE,
    ),
    ("isolator-underrated", lambda: isol({"rating_a": 300, "rating_v": 60}), NOTE),
    ("isolator-underrated", lambda: isol({"rating_a": 300, "rating_v": 60}, fuse=False), NOTE),
    ("isolator-underrated", lambda: isol({"rating_a": 203, "rating_v": 60}, fuse=False), NOTE),
    ("isolator-underrated", lambda: bankless(isol({"rating_a": 1, "rating_v": 60})), None),
    ("isolator-underrated", lambda: bankless(isol({"rating_a": None, "rating_v": None})), FIX),
    ("isolator-underrated", lambda: bankless(isol({"rating_a": 300, "rating_v": 12})), FIX),
    (
        "isolator-underrated",
        lambda: plus(
            isol({"rating_a": 300, "rating_v": 60}, fuse=False),
            leads=(lead("far lead", LeadUse.EXTENSION, Fitting.PLUG, pattern_b="x"),),
        ),
        NOTE,
    ),
    ("isolator-underrated", lambda: plugged(None, isol({"rating_a": 300, "rating_v": 60}, fuse=False)), NOTE),
    ("isolator-underrated", lambda: plugged(3000, isol({"rating_a": 300, "rating_v": 60}, fuse=False)), None),
    ("fuse-missing", lambda: fuses({"rating_a": None, "rating_v": None}), NOTE),
    ("fuse-missing", lambda: fuses({"rating_a": None, "rating_v": 80}), NOTE),
    ("fuse-missing", lambda: fuses({"rating_a": 300, "rating_v": None}), NOTE),
    ("fuse-missing", lambda: fuses({"rating_a": 100, "rating_v": 32}, {"rating_a": 100, "rating_v": 80}), NOTE),
    ("fuse-missing", lambda: fuses({"rating_a": 100, "rating_v": 32}, {"rating_a": 300, "rating_v": 80}), None),
    ("fuse-missing", lambda: bankless(fuses({"rating_a": 5, "rating_v": 80})), None),
    ("fuse-missing", lambda: fuses({"rating_a": 2000, "rating_v": 12}), NOTE),
    ("battery-cover-missing", lambda: covers({"count": 1, "insulating": None}), FIX),
    ("battery-cover-missing", lambda: covers({"count": 1, "insulating": None}, {"count": 1, "insulating": None}), FIX),
    ("battery-cover-missing", lambda: covers({"count": 1, "insulating": None}, {"count": 2, "insulating": None}), FIX),
    ("battery-cover-missing", lambda: covers({"count": 3, "insulating": False}), FIX),
    ("battery-cover-missing", lambda: covers({"count": 3, "insulating": False}, {"count": 1, "insulating": True}), FIX),
    ("battery-cover-missing", lambda: covers({"count": 2, "insulating": True}), FIX),
    ("battery-cover-missing", lambda: covers(), FIX),
    ("mask-missing", lambda: masks(), NOTE),
    ("mask-missing", lambda: masks({"protection": "FFP1"}, {"protection": "P1"}), NOTE),
    ("mask-missing", lambda: masks({"protection": ""}, {"protection": "FFP1"}), NOTE),
    ("mask-missing", lambda: masks({"protection": "FFP1", "count": 1}, {"protection": "FFP3", "count": 1}), None),
    ("mask-missing", lambda: masks({"protection": "dust"}), NOTE),
    ("mend-not-settled", lambda: mend(vehicle=None), FIX),
    ("mend-not-settled", lambda: mend(vehicle=None, spot="left rear"), FIX),
    ("mend-not-settled", lambda: mend(spot="left rear"), FIX),
    ("mend-not-settled", lambda: mend(sound_at_5_km=True, sound_at_50_km=True, sound_after_a_day=True), FIX),
    ("mend-not-settled", lambda: mend(sound_at_5_km=False), STOP),
    ("mend-not-settled", lambda: mend(part="gizmo"), FIX),
    ("mend-not-settled", lambda: mend(part="wheel"), STOP),
    ("mend-not-settled", lambda: mend(settled=Settled.REPLACED, settled_on=date(2027, 2, 1), settled_by="Ada"), None),
    (
        "mend-not-settled",
        lambda: with_kit(
            mends=(
                Mend(name="a", part="bracket", welded_on=date(2027, 1, 2), vehicle="North"),
                Mend(name="b", part="bracket", welded_on=date(2027, 1, 3), vehicle="North", sound_at_5_km=False),
            )
        ),
        STOP,
    ),
    ("starting-batteries-not-clear", lambda: with_battery("south-main", place=BatteryPlace.SECOND), None),
    ("starting-batteries-not-clear", lambda: with_all(whole(), "vehicles", start_batteries=StartBatteries.TWIN), STOP),
    (
        "starting-batteries-not-clear",
        lambda: as_singles(starters(StartBatteries.TWIN, bank=("west-main", "north-second", "south-second"))),
        STOP,
    ),
    ("starting-batteries-not-clear", lambda: as_singles(starters(StartBatteries.TWIN)), FIX),
    (
        "starting-pair-parted",
        lambda: starters(StartBatteries.TWIN, bank=("north-second", "south-second", "west-main"), coldest_c=-5),
        FIX,
    ),
    (
        "starting-pair-parted",
        lambda: starters(
            StartBatteries.TWIN, bank=("north-second", "south-second", "west-main"), coldest_c=-5, seen=True
        ),
        FIX,
    ),
    (
        "starting-pair-parted",
        lambda: starters(StartBatteries.TWIN, bank=("north-second", "south-second", "west-main"), seen=False),
        FIX,
    ),
    (
        "starting-pair-parted",
        lambda: rodless(starters(StartBatteries.PAIR, bank=("north-second", "south-second", "west-main"))),
        FIX,
    ),
    (
        "starting-pair-parted",
        lambda: unsized(starters(StartBatteries.PAIR, bank=("north-second", "south-second", "west-main"))),
        FIX,
    ),
    ("battery-failing", lambda: with_battery("north-second", condition=Condition.CRACKED), None),
    ("battery-failing", lambda: with_battery("south-main", condition=Condition.CRACKED), FIX),
    (
        "battery-failing",
        lambda: with_battery("south-main", tester_mohm=9, cranking_a=None, cranking_standard=CrankingStandard.UNKNOWN),
        None,
    ),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=9), FIX),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=6), FIX),
    ("battery-failing", lambda: two_reads(12.8, 12.45, 5), FIX),
    ("battery-failing", lambda: two_reads(12.8, 12.45, 5, stays_connected=None), FIX),
    ("battery-failing", lambda: two_reads(12.8, 12.45, 90), FIX),
    ("battery-failing", lambda: two_reads(12.8, 12.7, 5), None),
    ("battery-failing", lambda: unrested(two_reads(12.8, 12.45, 5)), None),
    ("battery-failing", lambda: untempered(two_reads(12.8, 12.45, 5)), FIX),
    ("battery-failing", lambda: two_reads(12.8, 12.45, 5, chemistry=Chemistry.UNKNOWN), None),
    ("circuit-does-not-join", lambda: with_lead("link", end_a=Fitting.LUG_M8, end_b=Fitting.LUG_M8), STOP),
    ("circuit-does-not-join", lambda: with_lead("holder lead", end_a=Fitting.PLUG, pattern_a="big"), STOP),
    ("circuit-does-not-join", lambda: with_lead("holder lead", count=0), None),
    ("circuit-does-not-join", lambda: with_lead("holder lead", end_b=Fitting.LUG_M8), STOP),
    ("circuit-does-not-join", lambda: on_trip(with_lead("link", length_m=0.4), parked_apart_m=5), STOP),
    ("circuit-does-not-join", lambda: on_trip(with_lead("link", length_m=None), parked_apart_m=5), None),
    ("circuit-does-not-join", lambda: on_trip(whole(), parked_apart_m=None), FIX),
    ("circuit-does-not-join", lambda: with_battery("north-main", terminals=Terminal.UNKNOWN), FIX),
    ("circuit-does-not-join", lambda: with_battery("north-main", terminals=Terminal.STUD_M10), STOP),
    ("circuit-does-not-join", lambda: with_lead("work lead", end_b=Fitting.PLUG, pattern_b="small"), STOP),
    ("lead-too-thin", lambda: with_lead("link", conductor=Conductor.UNKNOWN, measured_mohm=1.7), None),
    ("lead-too-thin", lambda: on_trip(with_lead("link", area_mm2=16), hottest_c=None), FIX),
    ("lead-too-thin", lambda: on_trip(with_lead("link", area_mm2=25), hottest_c=55), FIX),
    ("lead-too-thin", lambda: with_lead("link", area_mm2=10), FIX),
    ("lead-too-thin", lambda: with_lead("link", area_mm2=4), FIX),
    ("lead-too-thin", lambda: with_lead("link", area_mm2=16, insulation_limit_c=None), FIX),
    ("arc-lead-too-short", lambda: with_lead("holder lead", length_m=None), None),
    ("arc-lead-too-short", lambda: with_lead("holder lead", length_m=1.5, count=2), FIX),
    ("arc-lead-too-short", lambda: with_lead("holder lead", length_m=2, count=0), None),
    (
        "voltmeter-underrated",
        lambda: without_tool(
            ToolKind.VOLTMETER,
            also=(
                tool("m", ToolKind.VOLTMETER, rating_v=20, accuracy_ratio=0.005),
                tool("n", ToolKind.VOLTMETER, rating_v=30, accuracy_ratio=0.005),
            ),
        ),
        FIX,
    ),
    (
        "auto-darkening-doubtful",
        lambda: without_gear(
            GearKind.HELMET,
            also=(
                gear(
                    "auto",
                    GearKind.HELMET_AUTO,
                    shade=None,
                    count=2,
                    tested_on=date(2027, 2, 20),
                    cell_changed_on=date(2026, 10, 1),
                    lowest_c=-10,
                ),
            ),
        ),
        None,
    ),
    (
        "auto-darkening-doubtful",
        lambda: without_gear(
            GearKind.HELMET,
            also=(
                gear("auto", GearKind.HELMET_AUTO, shade=11, count=0),
                gear("helmet", GearKind.HELMET, shade=11, count=2),
            ),
        ),
        None,
    ),
    ("no-usable-rod", lambda: rods(rod("a", designation="X99"), rod("b", condition=RodCondition.WET)), STOP),
    ("no-usable-rod", lambda: rods(rod("a", diameter_mm=6.0)), STOP),
    ("no-usable-rod", lambda: rods(rod("a", condition=RodCondition.DAMP)), STOP),
    ("no-usable-rod", lambda: rods(rod("a", designation="E7018", storage=RodStorage.LOOSE, exposed_h=40)), STOP),
    (
        "no-usable-rod",
        lambda: rods(rod("a", diameter_mm=6.0, condition=RodCondition.DAMP), rod("b", designation="X99")),
        STOP,
    ),
    ("no-usable-rod", lambda: rods(), None),
    ("no-usable-rod", lambda: rods(rod("a", diameter_mm=6.0), rod("b")), None),
    ("rod-damp", lambda: rods(rod("a", count=2), rod("b", condition=RodCondition.DAMP)), FIX),
    ("rod-damp", lambda: rods(rod("a", count=2), rod("b", condition=RodCondition.DAMAGED)), FIX),
    ("rod-damp", lambda: rods(rod("a", count=2), rod("b", condition=RodCondition.DAMP, designation="E7018")), FIX),
    ("rod-damp", lambda: rods(rod("a", count=2), rod("b", condition=RodCondition.DAMP, designation="X99")), None),
    (
        "rod-open-too-long",
        lambda: rods(rod("a", count=2), rod("b", designation="E7018", storage=RodStorage.LOOSE, exposed_h=40)),
        FIX,
    ),
    ("rod-open-too-long", lambda: rods(rod("b", designation="E7018", storage=RodStorage.LOOSE, exposed_h=40)), None),
    (
        "rod-open-too-long",
        lambda: rods(
            rod("a", count=2),
            rod("b", designation="E7018", condition=RodCondition.WET, storage=RodStorage.LOOSE, exposed_h=40),
        ),
        None,
    ),
    ("rod-not-known", lambda: rods(rod("b", designation="X99")), None),
    (
        "rod-too-hot",
        lambda: rods(rod("a", count=2), rod("b", diameter_mm=2.0, count=2), rod("c", diameter_mm=1.6, count=2)),
        NOTE,
    ),
    ("no-rod-for-bank", lambda: rods(rod("b", diameter_mm=2.0, count=2), rod("c", diameter_mm=1.6, count=2)), STOP),
    (
        "no-rod-for-bank",
        lambda: on_trip(rods(rod("b", diameter_mm=5.0, count=2)), bank=("north-second", "south-second")),
        STOP,
    ),
    (
        "no-rod-for-bank",
        lambda: on_trip(
            rods(rod("b", diameter_mm=5.0, count=2), rod("c", diameter_mm=1.6, count=2)),
            bank=("north-second", "south-second"),
        ),
        STOP,
    ),
    (
        "rod-strikes-poorly",
        lambda: on_trip(rods(rod("b", diameter_mm=2.5, count=2)), bank=("north-second", "south-second")),
        None,
    ),
    (
        "rod-strikes-poorly",
        lambda: on_trip(
            rods(rod("b", designation="E7018", diameter_mm=2.5, count=2, **SEALED)),
            bank=("north-second", "south-second"),
        ),
        FIX,
    ),
    ("rod-strikes-poorly", lambda: on_trip(rods(rod("b", diameter_mm=2.5, count=2)), bank=("north-second",)), None),
    ("rods-too-few", lambda: on_trip(for_repair(rod("x", count=2), weld_length_mm=250), days_from_help=9), FIX),
    ("heater-missing", lambda: unheated(with_repair(part="wheel", steel=Steel.SPRING)), None),
    ("heater-missing", lambda: unheated(with_repair(part="gizmo", steel=Steel.SPRING)), None),
    ("heater-missing", lambda: unheated(with_repair(part="bracket", steel=Steel.HARDENED)), FIX),
    ("heater-missing", lambda: on_trip(unheated(with_repair(part="bracket")), coldest_c=None), None),
    ("bank-mixed", lambda: with_battery("north-main", in_service_since=date(2025, 1, 14)), NOTE),
    ("bank-mixed", lambda: with_battery("north-main", in_service_since=date(2025, 1, 15)), None),
    ("bank-mixed", lambda: with_battery("north-main", in_service_since=date(2025, 1, 16)), None),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=None, taken_at=at(2, 20, 8, 0)), STOP),
    ("charge-not-known", lambda: with_reading("south-main", volts_v=13.3, rested_h=3), FIX),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=1), STOP),
    ("charge-not-known", lambda: with_all(whole(), "vehicles", driven_at=at(3, 3, 9, 0)), STOP),
    ("battery-may-freeze", lambda: on_trip(with_reading("south-main", volts_v=11.95), coldest_c=-20), FIX),
    ("battery-may-freeze", lambda: on_trip(with_reading("south-main", volts_v=11.95), coldest_c=None), None),
    ("battery-may-freeze", lambda: on_trip(with_reading("south-main", rested_h=None), coldest_c=-20), None),
    (
        "extinguisher-wrong-kind",
        lambda: without_tool(
            ToolKind.EXTINGUISHER,
            also=(
                tool(
                    "w", ToolKind.EXTINGUISHER, agent=Extinguishant.WATER, amount_kg=None, expires_on=date(2029, 1, 1)
                ),
            ),
        ),
        FIX,
    ),
    (
        "extinguisher-wrong-kind",
        lambda: without_tool(
            ToolKind.EXTINGUISHER,
            also=(
                tool(
                    "p", ToolKind.EXTINGUISHER, agent=Extinguishant.POWDER, amount_kg=None, expires_on=date(2029, 1, 1)
                ),
            ),
        ),
        FIX,
    ),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=1, count=1), FIX),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=None), FIX),
    ("links-too-few", lambda: bankless(with_lead("link", count=0)), None),
    (
        "trips-overlap",
        lambda: with_kit(
            trips=(
                whole().trip,
                Trip(name="Other", starts_on=date(2027, 3, 1), ends_on=date(2027, 3, 6), vehicles=("South",)),
            )
        ),
        FIX,
    ),
    (
        "trips-overlap",
        lambda: with_kit(
            trips=(
                whole().trip,
                Trip(name="Other", starts_on=date(2027, 3, 1), ends_on=date(2027, 3, 5), vehicles=("South",)),
            )
        ),
        None,
    ),
    ("sweating-over-35-v", lambda: on_trip(whole(), hottest_c=33), FIX),
    ("rods-missing", lambda: bankless(rods()), STOP),
    ("current-not-known", lambda: rods(rod("a", designation="X99")), None),
    ("short-arc-only", lambda: on_trip(rods(rod("b", diameter_mm=2.5, count=2)), bank=("north-second",)), None),
    (
        "spare-link-does-not-fit",
        lambda: plus(with_lead("link", count=2), leads=(lead("odd link", LeadUse.LINK, Fitting.LUG_M8, length_m=3.0),)),
        FIX,
    ),
    (
        "acceptance-past-its-date",
        lambda: with_kit(
            acceptances=(
                Acceptance(
                    name="a",
                    rule="link-without-spare",
                    subject="links",
                    severity="fix",
                    trip="Example",
                    accepted_by="Ada",
                    reason="later",
                    accepted_on=date(2027, 3, 1),
                    until=date(2027, 3, 4),
                ),
            )
        ),
        FIX,
    ),
    (
        "acceptance-past-its-date",
        lambda: with_kit(
            acceptances=(
                Acceptance(
                    name="a",
                    rule="link-without-spare",
                    subject="links",
                    severity="fix",
                    trip="Example",
                    accepted_by="Ada",
                    reason="later",
                    accepted_on=date(2027, 3, 1),
                    until=date(2027, 3, 3),
                ),
            )
        ),
        FIX,
    ),
    ("battery-not-looked-at", lambda: with_battery("north-main", condition=Condition.UNKNOWN, tester_mohm=30), None),
    ("repair-without-rod", lambda: three_repairs(), FIX),
    ("repair-without-rod", lambda: with_repair(part="gizmo", steel=Steel.STAINLESS), None),
    ("repair-without-rod", lambda: with_repair(thickness_mm=3), FIX),
    ("thin-steel-polarity", lambda: with_repair(thickness_mm=8), None),
    ("holder-underrated", lambda: with_lead("holder lead", count=0, rating_a=50), None),
    ("clothing-class-too-low", lambda: garments("1", "2"), None),
    ("clothing-class-too-low", lambda: garments("1", "1", basic=True), NOTE),
    ("fire-rules-not-asked", lambda: on_trip(whole(), fire_rules_asked_on=date(2027, 3, 4)), None),
    ("fire-rules-not-asked", lambda: on_trip(whole(), fire_rules_asked_on=date(2027, 3, 5)), FIX),
    ("bag-stays-home", lambda: with_bag("garage shelf"), None),
    ("bag-stays-home", lambda: with_bag("East, tray"), None),
    ("bag-stays-home", lambda: with_all(whole(), "bags", "Red bag", place="North, in the garage of a morning"), None),
    (
        "battery-not-looked-at",
        lambda: bankless(with_battery("north-main", chemistry=Chemistry.UNKNOWN, built_in_cutoff=None)),
        FIX,
    ),
    (
        "battery-not-looked-at",
        lambda: bankless(with_battery("north-main", chemistry=Chemistry.UNKNOWN, condition=Condition.CRACKED)),
        None,
    ),
    ("battery-not-looked-at", lambda: bankless(whole()), None),
    ("battery-not-looked-at", lambda: with_battery("north-main", mass_kg=13.6), None),
    ("battery-not-looked-at", lambda: with_battery("north-main", mass_kg=13.5), FIX),
    ("battery-not-looked-at", lambda: with_battery("north-main", mass_kg=1, c20_ah=None), None),
    ("battery-inside", lambda: with_battery("north-main", note="was in the cabin", sits=BatterySite.TRAY), None),
    ("battery-inside", lambda: with_battery("north-main", note="in the cabin"), FIX),
    ("no-bank-chosen", lambda: on_trip(bankless(whole()), wet=None), STOP),
    ("no-bank-chosen", lambda: bankless(whole()), STOP),
    ("gear-unsound", lambda: with_all(whole(), "gear", "gloves", count=0, note="torn"), None),
    ("gear-unsound", lambda: with_all(whole(), "gear", "gloves", sound=None, note="torn"), FIX),
    ("gear-unsound", lambda: plus(whole(), gear=(gear("plugs", GearKind.EAR_PLUGS, note="torn"),)), None),
    ("gear-unsound", lambda: with_all(whole(), "tools", "shovel", count=0, note="broken"), None),
    ("gear-unsound", lambda: with_all(whole(), "tools", "shovel", note="broken"), FIX),
    (
        "lead-spliced",
        lambda: plus(whole(), leads=(lead("jump", LeadUse.JUMPER, Fitting.SPRING_CLAMP, note="frayed"),)),
        None,
    ),
    ("lead-spliced", lambda: with_lead("work lead", note="frayed"), FIX),
    ("lead-spliced", lambda: with_lead("work lead", note="taped once"), None),
    ("lead-spliced", lambda: with_lead("work lead", note="frayed", count=0), None),
    ("implant-near-the-arc", lambda: with_trip(keep_away="Kim: glasses"), None),
    ("implant-near-the-arc", lambda: with_trip(keep_away="Kim"), FIX),
    ("implant-near-the-arc", lambda: with_trip(note="Lee has an ICD"), FIX),
    ("implant-near-the-arc", lambda: with_trip(crew="Kim (ICD)", note="Lee: pacemaker"), FIX),
    ("fire-ban", lambda: with_trip(fire_rules=FireRules.BANNED, fire_answer="total fire ban"), STOP),
    ("fire-ban", lambda: with_trip(fire_rules=FireRules.ALLOWED, note="total fire ban"), STOP),
    (
        "holder-underrated",
        lambda: plus(
            whole(), leads=(lead("old holder lead", LeadUse.HOLDER, Fitting.HOLDER, length_m=6, rating_a=50, count=0),)
        ),
        None,
    ),
    ("eye-protection-missing", lambda: bankless(with_all(whole(), "gear", "second helmet", count=0)), None),
    ("no-bank-chosen", lambda: bankless(with_all(whole(), "gear", "second helmet", count=0)), STOP),
    ("fuse-missing", lambda: fuses({"rating_a": None, "rating_v": 12}), NOTE),
    ("eye-wash-short", lambda: without_tool(ToolKind.EYE_WASH), FIX),
    ("battery-may-freeze", lambda: on_trip(with_reading("south-main", volts_v=11.95), coldest_c=-12), FIX),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=None, taken_at=at(2, 27, 8, 0)), STOP),
    ("repair-not-known", lambda: with_repair(part="aluminium bracket", steel=Steel.ALUMINIUM), None),
    ("repair-not-known", lambda: with_repair(part="hardened bracket", steel=Steel.SPRING), None),
    ("repair-not-known", lambda: with_repair(part="leaf spring", steel=Steel.SPRING), None),
    ("repair-not-known", lambda: with_repair(part="gizmo", name="cast gizmo"), FIX),
    ("repair-not-known", lambda: with_repair(part="cast bracket", steel=Steel.UNKNOWN), FIX),
    ("battery-refused", lambda: with_battery("north-main", note="BMS", condition=Condition.CRACKED), STOP),
    ("battery-refused", lambda: with_battery("north-main", note="BMS, bulging"), STOP),
    ("behind-the-weld-not-read", lambda: with_repair(part="wheel", behind="gizmo"), None),
    ("behind-the-weld-not-read", lambda: with_repair(behind="?"), None),
    ("behind-the-weld-not-read", lambda: with_repair(behind="no wiring, brake line"), None),
    ("behind-the-weld-not-read", lambda: with_repair(behind="no wiring, nothing"), None),
    ("rod-not-tested", lambda: rods(rod("a", note="seal broken", designation="E7018", **SEALED)), FIX),
    ("rod-not-tested", lambda: rods(rod("a", note="seal not broken", designation="E7018", **SEALED)), None),
    ("rod-not-tested", lambda: rods(rod("a", note="rusty", condition=RodCondition.WET), rod("b")), None),
    (
        "rod-not-tested",
        lambda: rods(rod("a", note="rusty", storage=RodStorage.CARTON, condition=RodCondition.UNKNOWN), rod("b")),
        FIX,
    ),
    ("clothing-synthetic", lambda: with_all(whole(), "gear", "jacket", note="nylon", count=0), None),
    ("clothing-synthetic", lambda: with_all(whole(), "gear", "jacket", note="nylon", protection="hi-vis"), STOP),
)
