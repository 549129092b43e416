"""What is wrong with a trip, its days, its people and its answers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from typing import Any

from kitlist.base.terms import FireRules, GearKind, RodStorage, Steel, ToolKind
from kitlist.kit import Acceptance, Repair, Trip, Vehicle
from kitlist.rules import Example, Severity, example
from kitlist.rules.example import gear, rod, tool, whole, with_battery, with_kit, with_reading, with_repair, with_trip
from traps import Trap

STOP, FIX, NOTE = Severity.STOP, Severity.FIX, Severity.NOTE
Row = tuple[str, Callable[[], Example], str | None, Severity | None, str]


def more(shown: Example, **things: tuple[Any, ...]) -> Example:
    """An example with more of some things."""
    return replace(shown, kit=replace(shown.kit, **{k: (*getattr(shown.kit, k), *v) for k, v in things.items()}))


def bag(place: str) -> Example:
    """The red bag in another place; East stays at home."""
    bags = tuple(replace(b, place=place) if b.name == example.BAG else b for b in whole().kit.bags)
    return more(with_kit(bags=bags), vehicles=(Vehicle(name="East"),))


def beside(starts_on: date, ends_on: date, **trip: Any) -> Example:
    """Another trip of the same kit."""
    return with_kit(trips=(whole().trip, Trip(name="Other", starts_on=starts_on, ends_on=ends_on, **trip)))


def of_vehicle(vehicle: str | None) -> Example:
    """A repair of a vehicle; East stays at home."""
    return more(with_repair(vehicle=vehicle), vehicles=(Vehicle(name="East"),))


def accepted_until(day: date) -> Example:
    """A gap that somebody accepted, and that is there no more."""
    return with_kit(
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
                until=day,
            ),
        )
    )


def answered(rules: FireRules, words: str = "", **trip: Any) -> Example:
    """An answer of the fire authority, and its words."""
    return with_trip(fire_rules=rules, fire_answer=words, **trip)


def repairs(many: int, **packet: Any) -> Example:
    """So many hangers alike, and one packet of rods for them all."""
    made = tuple(
        Repair(
            name=f"hanger {n}",
            part="spring hanger",
            vehicle="North",
            steel=Steel.MILD,
            thickness_mm=8,
            weld_length_mm=150,
            load_bearing=True,
            behind="nothing",
        )
        for n in range(many)
    )
    shown = with_trip(repairs=tuple(r.name for r in made))
    return replace(shown, kit=replace(shown.kit, repairs=made, rods=(rod("thick rods", **packet),)))


LATER = date(2028, 3, 1)
ROWS: tuple[Row, ...] = (
    ("a bag rides in a vehicle that stays", lambda: bag("East, tray"), "bag-stays-home", FIX, "left on a shelf"),
    (
        "a bag rides behind the seat of one that stays",
        lambda: bag("behind the seat of East"),
        "bag-stays-home",
        FIX,
        "s",
    ),
    ("a bag rides in another that goes", lambda: bag("South, tray"), None, None, "it goes"),
    ("a bag's place names no vehicle", lambda: bag("left locker"), None, None, "its place is the crew's word"),
    ("a bag's place holds a vehicle's name in another word", lambda: bag("Eastern shelf"), None, None, "no vehicle"),
    ("a repair of a vehicle that stays", lambda: of_vehicle("East"), "repair-stays-home", FIX, "cannot come up"),
    ("a repair of any vehicle", lambda: of_vehicle(None), None, None, "any vehicle is one that goes"),
    (
        "another trip on the last day",
        lambda: beside(date(2027, 3, 9), date(2027, 3, 20)),
        "trips-overlap",
        FIX,
        "one set of bags",
    ),
    (
        "another trip around this one with its batteries",
        lambda: beside(date(2027, 3, 1), date(2027, 3, 20), bank=("north-main",), vehicles=("North",)),
        "trips-overlap",
        FIX,
        "one battery cannot be in two banks",
    ),
    (
        "another trip the day after",
        lambda: beside(date(2027, 3, 10), date(2027, 3, 20)),
        None,
        None,
        "one after the other",
    ),
    (
        "another trip the day before",
        lambda: beside(date(2027, 3, 1), date(2027, 3, 5)),
        None,
        None,
        "one after the other",
    ),
    (
        "an acceptance ends mid-trip",
        lambda: accepted_until(date(2027, 3, 7)),
        "acceptance-past-its-date",
        FIX,
        "then it counts",
    ),
    (
        "an acceptance ends the day before the return",
        lambda: accepted_until(date(2027, 3, 8)),
        "acceptance-past-its-date",
        FIX,
        "s",
    ),
    ("an acceptance ends with the trip", lambda: accepted_until(date(2027, 3, 9)), None, None, "the whole trip"),
    (
        "a ban in the words",
        lambda: answered(FireRules.ALLOWED, "TOTAL FIRE BAN"),
        "fire-ban",
        STOP,
        "words beat a choice",
    ),
    (
        "a ban in other words",
        lambda: answered(FireRules.WITH_CONDITIONS, "hot work prohibited"),
        "fire-ban",
        STOP,
        "the same",
    ),
    (
        "no welding in the words",
        lambda: answered(FireRules.ALLOWED, "camp fires ok, no welding"),
        "fire-ban",
        STOP,
        "the same",
    ),
    ("suspended permits", lambda: answered(FireRules.ALLOWED, "permits suspended"), "fire-ban", STOP, "the same"),
    (
        "a ban in the note",
        lambda: answered(FireRules.ALLOWED, note="total fire ban on Sunday"),
        "fire-ban",
        STOP,
        "the same",
    ),
    ("a ban", lambda: answered(FireRules.BANNED), "fire-ban", STOP, "a ban is a ban"),
    ("no ban in the words", lambda: answered(FireRules.ALLOWED, "no ban, no permit needed"), None, None, "denied"),
    ("not banned in the words", lambda: answered(FireRules.ALLOWED, "not banned before April"), None, None, "denied"),
    ("a ban lifted", lambda: answered(FireRules.ALLOWED, "ban lifted on 1 March"), None, None, "over"),
    (
        "conditions without words",
        lambda: answered(FireRules.WITH_CONDITIONS),
        "fire-rules-not-asked",
        FIX,
        "which are they?",
    ),
    (
        "conditions with words",
        lambda: answered(FireRules.WITH_CONDITIONS, "before noon, pump at hand"),
        None,
        None,
        "said",
    ),
    ("fire rules not asked", lambda: answered(FireRules.NOT_ASKED), "fire-rules-not-asked", FIX, "ask, never assume"),
    (
        "fire rules asked on a day to come",
        lambda: with_trip(fire_rules_asked_on=date(2027, 3, 5)),
        "fire-rules-not-asked",
        FIX,
        "a slip of the pen",
    ),
    ("rods for one of two repairs", lambda: repairs(2, count=3), "rods-too-few", FIX, "both may break"),
    ("rods for two repairs", lambda: repairs(2, count=6), None, None, "enough for both"),
    (
        "opened on a day to come",
        lambda: with_kit(rods=(rod("thick rods", opened_on=LATER),)),
        "date-in-the-future",
        FIX,
        "s",
    ),
    (
        "basic rods opened on a day to come",
        lambda: with_kit(
            rods=(
                rod("dry", count=2),
                rod("b", designation="E7018", count=1, storage=RodStorage.CARTON, opened_on=LATER),
            )
        ),
        "rod-open-too-long",
        FIX,
        "how long they lay open is then not known",
    ),
    (
        "an auto helmet tried on a day to come",
        lambda: auto(tested_on=LATER),
        "auto-darkening-doubtful",
        FIX,
        "nobody has tried it",
    ),
    (
        "a cell changed on a day to come",
        lambda: auto(cell_changed_on=LATER),
        "auto-darkening-doubtful",
        FIX,
        "nobody has changed it",
    ),
    (
        "a battery in service from a day to come",
        lambda: with_battery("north-main", in_service_since=LATER),
        "date-in-the-future",
        FIX,
        "s",
    ),
    (
        "a tool checked on a day to come",
        lambda: more(whole(), tools=(tool("x", ToolKind.FILE, checked_on=LATER),)),
        "date-in-the-future",
        FIX,
        "s",
    ),
    (
        "a reading of a day to come",
        lambda: with_reading("north-main", taken_at=datetime(2027, 3, 5, 8, 0)),  # noqa: DTZ001
        "reading-missing",
        STOP,
        "it was not taken",
    ),
    ("coldest not known", lambda: with_trip(coldest_c=None), "coldest-not-known", FIX, "floors follow from it"),
    ("hottest not known over 35 V", lambda: with_trip(hottest_c=None), "sweating-over-35-v", FIX, "sweat is wet"),
    ("hot day over 35 V", lambda: with_trip(hottest_c=40), "sweating-over-35-v", FIX, "may be accepted"),
    ("wet over 35 V", lambda: with_trip(wet=True), "wet-over-35-v", STOP, "may never be accepted"),
    ("wet not said over 35 V", lambda: with_trip(wet=None), "wet-over-35-v", STOP, "not known is no pass"),
    ("one person alone", lambda: with_trip(people=1), "fire-watch-missing", FIX, "nobody watches"),
    ("people not said", lambda: with_trip(people=None), "fire-watch-missing", FIX, "not known is no pass"),
    (
        "no way to tell how far help is",
        lambda: with_trip(days_from_help=None),
        "help-distance-not-known",
        FIX,
        "spares",
    ),
)


def auto(**changes: Any) -> Example:
    """Two auto-darkening helmets in place of the passive ones."""
    fields = {
        "shade": 11,
        "count": 2,
        "lowest_c": -10,
        "cell_changed_on": date(2026, 6, 1),
        "tested_on": date(2027, 2, 1),
    }
    kept = tuple(g for g in whole().kit.gear if g.what is not GearKind.HELMET)
    return with_kit(gear=(*kept, gear("auto helmet", GearKind.HELMET_AUTO, **(fields | changes))))


_SHORT = "a slip of the pen satisfies nothing"
TRAPS = tuple(
    Trap(f"trip: {change}", build, rule, severity, _SHORT if why == "s" else why)
    for change, build, rule, severity, why in ROWS
)
