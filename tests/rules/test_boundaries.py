"""Both sides of every threshold, and what is not known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest
from test_traps import ALL
from thresholds import THRESHOLDS

from kitlist.base.terms import (
    BatteryPlace,
    Chemistry,
    ClampKind,
    Condition,
    FireRules,
    Fitting,
    GearKind,
    LeadUse,
    RodCondition,
    RodStorage,
    ToolKind,
)
from kitlist.kit import Clamp, Gear, Kit, Tool, Trip, Vehicle
from kitlist.outlook.card import card_facts
from kitlist.readiness import assess
from kitlist.rules import RULES, Case, Example, Gap, Severity, run
from kitlist.rules.card_out_of_date import RULE as RULE_OF_CARDS
from kitlist.rules.doing import Doing
from kitlist.rules.example import (
    battery,
    reading,
    rod,
    whole,
    with_battery,
    with_kit,
    with_reading,
    with_repair,
    with_trip,
    without_gear,
    without_tool,
)
from kitlist.rules.eye_protection_missing import COVERS_FACE
from kitlist.rules.pocket_page_out_of_date import RULE as RULE_OF_PAGES


def gaps(example: Example) -> dict[str, Gap]:
    """The gravest gap of each rule."""
    found = assess(example.kit, example.trip, on=example.on).gaps
    return {gap.rule: gap for gap in reversed(found)}


def links(count: int, bank: tuple[str, ...] = whole().trip.bank, strings: int = 1) -> Example:
    leads = tuple(replace(x, count=count) if x.use is LeadUse.LINK else x for x in whole().kit.leads)
    example = with_kit(leads=leads)
    return replace(example, trip=replace(example.trip, bank=bank, bank_strings=strings))


FOUR = ("north-main", "north-second", "south-main", "south-second")
EVERY_STARTER = ("north-main", "north-second", "south-main")
HELMET = Gear(name="helmet", what=GearKind.HELMET, shade=11, sound=True)


def taken(day: int) -> datetime:
    return datetime(2027, 2, day, 8, 0)  # noqa: DTZ001 - readings are kept in local time


def leads_of(use: LeadUse, **changes: object) -> Example:
    return with_kit(leads=tuple(replace(x, **changes) if x.use is use else x for x in whole().kit.leads))


BOUNDARIES: tuple[tuple[str, Callable[[], Example], Severity | None], ...] = (
    # links: n - 1 and one more; two more for each further parallel string
    ("links-too-few", lambda: links(2), None),
    ("links-too-few", lambda: links(1), Severity.STOP),
    ("link-without-spare", lambda: links(3), None),
    ("link-without-spare", lambda: links(2), Severity.FIX),
    ("link-without-spare", lambda: links(5, FOUR, 2), None),
    ("link-without-spare", lambda: links(4, FOUR, 2), Severity.FIX),
    ("links-too-few", lambda: links(3, FOUR, 2), Severity.STOP),
    # readings: 7 days before departure on 6 March, 2 h of rest
    ("reading-stale", lambda: with_reading("north-main", taken_at=taken(27)), None),
    ("reading-stale", lambda: with_reading("north-main", taken_at=taken(26)), Severity.FIX),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=2), None),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=1.99), Severity.STOP),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=None), Severity.STOP),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=None, quick_load=True), None),
    ("charge-not-known", lambda: with_reading("north-main", rested_h=None, charging=True), Severity.STOP),
    ("charge-not-known", lambda: with_reading("south-main", rested_h=0), Severity.FIX),
    ("charge-not-known", lambda: with_reading("north-main", volts_v=13.6), Severity.STOP),
    ("reading-missing", lambda: with_kit(readings=(reading("north-main"),)), Severity.STOP),
    # over 13.05 V (at 25 °C) within 24 h of charge and not bled an AGM battery shows no charge; read at 15 °C: 0.0125 V
    ("charge-not-known", lambda: with_reading("north-main", volts_v=13.03), None),
    ("charge-not-known", lambda: with_reading("north-main", volts_v=13.04), Severity.STOP),
    ("charge-not-known", lambda: with_reading("south-main", volts_v=13.04), Severity.FIX),
    ("charge-not-known", lambda: with_reading("north-main", volts_v=13.04, rested_h=23.9), Severity.STOP),
    ("charge-not-known", lambda: with_reading("north-main", volts_v=13.04, rested_h=24), None),
    ("charge-not-known", lambda: with_reading("north-main", volts_v=13.04, rested_h=1, quick_load=True), None),
    # floors, 1 - 0.5 f(T): 0.60 at 5 °C (f 0.80), 0.635 at -1 °C, 0.722 at -10 °C, which counts where nobody said; AGM
    # has 50 % at 12.30 V and 75 % at 12.60 V, so 12.42, 12.462 and 12.567 V, and 0.10 V of doubt (0.08 of its table,
    # 0.0625 of the meter); three days of standing take a quarter point
    ("battery-under-floor", lambda: cold(12.42, coldest_c=5), Severity.STOP),
    ("battery-under-floor", lambda: cold(12.43, coldest_c=5), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.52, coldest_c=5), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.53, coldest_c=5), None),
    ("battery-under-floor", lambda: cold(12.46, coldest_c=-1), Severity.STOP),
    ("battery-under-floor", lambda: cold(12.47, coldest_c=-1), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.57, coldest_c=-1), None),
    ("battery-under-floor", lambda: cold(12.56, coldest_c=-10), Severity.STOP),
    ("battery-under-floor", lambda: cold(12.57, coldest_c=-10), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.67, coldest_c=-10), None),
    ("battery-under-floor", lambda: cold(12.57, coldest_c=None), Severity.STOP),  # hotter days: it loses a little more
    ("battery-under-floor", lambda: cold(12.58, coldest_c=None), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.68, coldest_c=None), None),
    # a bank of every starting battery keeps 0.75, 12.60 V, in each of its batteries
    ("battery-under-floor", lambda: cold(12.60, coldest_c=5, bank=EVERY_STARTER), Severity.STOP),
    ("battery-under-floor", lambda: cold(12.61, coldest_c=5, bank=EVERY_STARTER), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.70, coldest_c=5, bank=EVERY_STARTER), Severity.NOTE),
    ("battery-under-floor", lambda: cold(12.71, coldest_c=5, bank=EVERY_STARTER), None),
    ("battery-under-floor", lambda: with_reading("south-main", volts_v=12.2), Severity.FIX),
    # refused
    ("battery-refused", lambda: with_battery("north-main", condition=Condition.SWOLLEN), Severity.STOP),
    ("battery-refused", lambda: with_battery("north-main", built_in_cutoff=True), Severity.STOP),
    ("battery-refused", lambda: with_battery("south-main", built_in_cutoff=True), None),
    ("battery-refused", lambda: with_reading("north-main", volts_v=10.69), Severity.STOP),
    ("battery-refused", lambda: with_reading("north-main", volts_v=10.71), None),
    ("battery-refused", lambda: once_low(10.69), Severity.STOP),
    ("battery-refused", lambda: once_low(10.71), None),
    ("battery-refused", lambda: once_low(10.69, on_load_v=11.2), None),  # tested since: 6.1 mΩ at the most, good
    ("battery-refused", lambda: once_low(10.69, on_load_v=10.2), Severity.STOP),  # 11.1 mΩ, 9.0 warm and full: worn out
    ("battery-refused", lambda: with_battery("north-main", tester_mohm=7.6), Severity.STOP),
    ("battery-refused", lambda: with_battery("north-main", tester_mohm=7.4), None),
    ("battery-not-looked-at", lambda: with_battery("north-main", chemistry=Chemistry.UNKNOWN), Severity.STOP),
    ("battery-not-looked-at", lambda: with_battery("south-main", condition=Condition.UNKNOWN), None),
    # the bank
    ("no-bank-chosen", lambda: with_trip(bank=()), Severity.STOP),
    ("no-bank-chosen", lambda: with_trip(vehicles=("North",)), Severity.STOP),
    ("arc-out-of-reach", lambda: with_trip(bank=("north-second",)), Severity.STOP),
    ("arc-out-of-reach", lambda: with_trip(bank=("north-second", "south-second", "north-main")), None),
    ("bank-mixed", lambda: with_battery("north-main", c20_ah=64), None),
    ("bank-mixed", lambda: with_battery("north-main", c20_ah=63.9), Severity.NOTE),
    ("bank-mixed", lambda: with_battery("north-main", in_service_since=date(2025, 1, 15)), None),
    ("bank-mixed", lambda: with_battery("north-main", in_service_since=date(2025, 1, 13)), Severity.NOTE),
    ("bank-mixed", lambda: with_reading("north-main", volts_v=12.70, battery_temp_c=25), Severity.NOTE),
    ("wet-over-35-v", lambda: with_trip(wet=True), Severity.STOP),
    ("wet-over-35-v", lambda: with_trip(wet=None), Severity.STOP),
    ("sweating-over-35-v", lambda: with_trip(hottest_c=32), None),
    ("sweating-over-35-v", lambda: with_trip(hottest_c=32.5), Severity.FIX),
    ("sweating-over-35-v", lambda: with_trip(hottest_c=None), Severity.FIX),
    ("sweating-over-35-v", lambda: with_trip(hottest_c=None, wet=True), None),
    ("sweating-over-35-v", lambda: with_trip(hottest_c=None, bank=("north-second", "south-second")), None),
    ("wet-over-35-v", lambda: with_trip(wet=True, bank=("north-second", "south-second")), None),
    ("engine-may-not-start", lambda: cranking(400), None),
    ("engine-may-not-start", lambda: cranking(900), Severity.FIX),
    ("coldest-not-known", lambda: with_trip(coldest_c=None), Severity.FIX),
    # the circuit
    ("current-not-known", lambda: leads_of(LeadUse.LINK, length_m=None), Severity.STOP),
    ("current-not-known", lambda: leads_of(LeadUse.LINK, length_m=None, measured_mohm=3), None),
    ("current-not-known", lambda: with_battery("north-main", cranking_a=None, c20_ah=None), Severity.STOP),
    ("arc-lead-missing", lambda: leads_of(LeadUse.HOLDER, count=0), Severity.STOP),
    ("arc-lead-missing", lambda: leads_of(LeadUse.HOLDER, end_b=Fitting.LUG_M8), Severity.STOP),
    ("arc-lead-missing", lambda: loose_holder(), None),
    # rods
    ("rods-missing", lambda: with_kit(rods=(rod("none left", count=0),)), Severity.STOP),
    ("rod-not-known", lambda: with_kit(rods=(rod("a"), rod("b", diameter_mm=7.0))), Severity.FIX),
    ("no-rod-for-bank", lambda: with_kit(rods=(rod("a", diameter_mm=2.0),)), Severity.STOP),
    # over the floor of 0.60 at 5 °C a full 80 Ah have 32 Ah; burned from full in one go they have given what is at hand
    # at 0.68: 25.4 Ah, seven rods of 3.2 Ah; sure are 17.3 Ah (0.10 V less), four thirsty rods of 3.84 Ah
    ("bank-too-small", lambda: with_kit(rods=(rod("a", count=7),)), None),
    ("bank-too-small", lambda: with_kit(rods=(rod("a", count=8),)), Severity.FIX),
    ("bank-too-small", lambda: with_repair(weld_length_mm=300), None),  # four rods
    ("bank-too-small", lambda: with_repair(weld_length_mm=320), Severity.FIX),  # five
    ("bank-too-small", lambda: with_reading("north-main", rested_h=2), Severity.FIX),  # 0.15 V more doubt: none is sure
    ("rod-damp", lambda: with_kit(rods=(rod("a", condition=RodCondition.WET),)), None),
    ("no-usable-rod", lambda: with_kit(rods=(rod("a", condition=RodCondition.WET),)), Severity.STOP),
    ("no-usable-rod", lambda: with_kit(rods=(rod("a", designation="X99"),)), Severity.STOP),
    ("no-usable-rod", lambda: with_kit(rods=(rod("a", condition=RodCondition.UNKNOWN),)), None),
    ("no-usable-rod", lambda: with_kit(rods=(rod("a", condition=RodCondition.WET), rod("b"))), None),
    ("rod-damp", lambda: with_kit(rods=(rod("a", condition=RodCondition.WET), rod("b"))), Severity.FIX),
    ("rod-open-too-long", lambda: basic(exposed_h=2.0), None),
    ("rod-open-too-long", lambda: basic(exposed_h=2.1), Severity.FIX),
    ("rod-open-too-long", lambda: basic(designation="E7018 H4R", exposed_h=9.0), None),
    ("rod-open-too-long", lambda: basic(designation="E7018 H4R", exposed_h=9.1), Severity.FIX),
    ("rod-open-too-long", lambda: basic(opened_on=None), Severity.FIX),
    ("rod-open-too-long", lambda: basic(opened_on=None, storage=RodStorage.SEALED), None),
    ("rod-open-too-long", lambda: basic(exposed_h=1.0, bakes=2), Severity.FIX),
    ("rod-not-tested", lambda: with_kit(rods=(rod("a", storage=RodStorage.CARTON),)), None),
    # eyes
    ("eye-protection-missing", lambda: without_gear(*COVERS_FACE), Severity.STOP),
    ("eye-protection-missing", lambda: without_gear(*COVERS_FACE, also=(replace(HELMET, count=0),)), Severity.STOP),
    ("eye-protection-missing", lambda: without_gear(*COVERS_FACE, also=(replace(HELMET, sound=False),)), Severity.STOP),
    ("face-uncovered", lambda: without_gear(also=(Gear(name="goggles", what=GearKind.GOGGLES),)), None),
    ("filter-too-light", lambda: without_gear(*COVERS_FACE, also=(replace(HELMET, shade=10.9),)), Severity.STOP),
    ("filter-too-light", lambda: without_gear(*COVERS_FACE, also=(replace(HELMET, shade=None),)), Severity.STOP),
    # fire
    ("extinguisher-missing", lambda: without_tool(ToolKind.EXTINGUISHER), Severity.STOP),
    ("extinguisher-out-of-date", lambda: extinguisher(date(2027, 3, 9)), None),
    ("extinguisher-out-of-date", lambda: extinguisher(date(2027, 3, 8)), Severity.FIX),
    ("extinguisher-out-of-date", lambda: extinguisher(None), Severity.FIX),
    ("fire-rules-not-asked", lambda: with_trip(fire_rules=FireRules.NOT_ASKED), Severity.FIX),
    ("fire-rules-not-asked", lambda: with_trip(fire_rules_asked_on=None), Severity.FIX),
    ("fire-rules-not-asked", lambda: with_trip(fire_rules_asked_on=date(2027, 2, 20)), None),
    ("fire-rules-not-asked", lambda: with_trip(fire_rules_asked_on=date(2027, 2, 19)), Severity.FIX),
    ("fire-rules-not-asked", lambda: with_trip(fire_rules_asked_on=date(2027, 3, 5)), Severity.FIX),
    ("fire-ban", lambda: with_trip(fire_rules=FireRules.BANNED), Severity.STOP),
    # paper: a card holds whatever its readings, and no longer when what it shows has changed
    ("card-out-of-date", lambda: carded(with_reading("north-main", volts_v=12.7)), None),
    ("card-out-of-date", lambda: carded(with_kit(rods=(rod("thick rods", count=5),))), None),
    ("card-out-of-date", lambda: carded(with_kit(rods=(rod("thick rods", diameter_mm=3.2),))), Severity.FIX),
    ("card-out-of-date", lambda: carded(without_tool(ToolKind.ISOLATOR)), Severity.FIX),
    ("card-out-of-date", lambda: carded(with_trip(crew="Others")), Severity.FIX),
    ("card-out-of-date", lambda: carded(with_trip(coldest_c=-1)), Severity.FIX),
    ("card-out-of-date", lambda: carded(with_trip(bank=FOUR[1:])), Severity.FIX),
    ("card-out-of-date", lambda: carded(with_trip(bank=FOUR[1:]), also=FOUR[1:]), None),
    ("card-out-of-date", lambda: carded(with_kit(rods=(rod("b", diameter_mm=3.2),)), chosen=FOUR[1:]), Severity.FIX),
    ("card-out-of-date", lambda: carded(with_kit(leads=()), basis=""), Severity.FIX),
    ("pocket-page-out-of-date", lambda: paged(with_reading("north-main", volts_v=12.7)), None),
    ("pocket-page-out-of-date", lambda: paged(with_kit(rods=(rod("thick rods", diameter_mm=3.2),))), Severity.FIX),
    ("pocket-page-out-of-date", lambda: paged(with_trip(bank=FOUR[1:])), Severity.FIX),
    ("pocket-page-out-of-date", lambda: paged(with_trip(bank=())), None),  # no bank: nobody links by it
    ("pocket-page-out-of-date", lambda: paged(whole(), strings=(), basis=""), Severity.FIX),  # made before the bank was
    ("pocket-page-out-of-date", lambda: paged(whole(), trip="another"), None),
    ("card-out-of-date", lambda: carded(whole(), basis=""), Severity.FIX),
    ("card-out-of-date", lambda: carded(with_trip(name="Another")), None),
    *THRESHOLDS,
)


def carded(now: Example, also: tuple[str, ...] = (), chosen: tuple[str, ...] = (), **changes: object) -> Example:
    """The kit of now with cards printed of the whole kit: of its bank, and of another one too."""
    (first,) = RULE_OF_CARDS.good().kit.printed
    cards = [replace(first, **changes)]
    for bank in filter(None, (also, chosen)):
        cards.append(replace(first, strings=(bank,), basis=basis(replace(now.trip, bank=bank), now.kit), revision=2))
    return replace(now, kit=replace(now.kit, printed=tuple(cards)))


def paged(now: Example, **changes: Any) -> Example:
    """A kit with the pocket page of the whole one."""
    (page,) = RULE_OF_PAGES.good().kit.printed
    return replace(now, kit=replace(now.kit, printed=(replace(page, **changes),)))


def basis(trip: Trip, kit: Kit) -> str:
    return card_facts(kit, trip, on=whole().on).basis


def cold(volts_v: float, **trip: Any) -> Example:
    example = with_reading("north-main", volts_v=volts_v, battery_temp_c=25)
    return replace(example, trip=replace(example.trip, **trip))


def once_low(volts_v: float, on_load_v: float | None = None) -> Example:
    """A battery that was low some days ago and is full now, perhaps with a test on load at 200 A since."""
    kit = whole().kit
    now = kit.readings[0]
    then = replace(now, volts_v=volts_v, taken_at=now.taken_at - timedelta(days=5))
    tests = (
        ()
        if on_load_v is None
        else (replace(now, volts_v=on_load_v, load_a=200, rested_h=None, taken_at=now.taken_at + timedelta(minutes=5)),)
    )
    return with_kit(readings=(*tests, *kit.readings, then))


def cranking(crank_a: float) -> Example:
    return with_kit(vehicles=(Vehicle(name="North", crank_a=crank_a), Vehicle(name="South", crank_a=250)))


def basic(**changes: object) -> Example:
    low = rod("basic", **({"designation": "E7018", "storage": RodStorage.CARTON, "count": 2} | changes))
    return with_kit(rods=(low, rod("dry", count=2)))


def extinguisher(expires_on: date | None) -> Example:
    return without_tool(
        ToolKind.EXTINGUISHER, also=(Tool(name="x", what=ToolKind.EXTINGUISHER, expires_on=expires_on),)
    )


def loose_holder() -> Example:
    example = leads_of(LeadUse.HOLDER, end_b=Fitting.LUG_M8)
    return replace(example, kit=replace(example.kit, clamps=(Clamp(name="holder", what=ClampKind.HOLDER),)))


@pytest.mark.parametrize(("name", "build", "severity"), BOUNDARIES, ids=lambda v: v if isinstance(v, str) else "")
def test_a_threshold_holds_on_both_sides(name: str, build: Callable[[], Example], severity: Severity | None) -> None:
    gap = gaps(build()).get(name)
    assert (gap.weight if gap else None) is severity


def test_a_load_test_is_somebody_s_looking_and_any_other_refusal_another_bank() -> None:
    tested, swollen = once_low(10.69), with_battery("north-main", condition=Condition.SWOLLEN)
    assert [gaps(e)["battery-refused"].asks for e in (tested, swollen)] == [Doing.CHECK, Doing.MEND]


def test_a_card_of_another_bank_that_no_longer_holds_is_only_noted_and_can_be_printed_with_its_bank() -> None:
    now = with_kit(rods=(rod("thick rods", diameter_mm=3.2),))
    now = replace(now, trip=replace(now.trip, bank=FOUR[1:]))
    found = assess(*(lambda e: (e.kit, e.trip))(carded(now, also=FOUR[1:])), on=now.on).gaps
    (gap,) = [gap for gap in found if gap.rule == "card-out-of-date"]
    assert gap.weight is Severity.NOTE
    assert gap.command == "kitlist print card --bank north-main,north-second,south-second"


def test_a_card_of_batteries_that_stay_at_home_is_not_held_against_the_kit() -> None:
    own = ("north-main", "north-second", "north-third")
    third = battery("north-third", "North", place=BatteryPlace.SECOND)
    now = with_kit(batteries=(*whole().kit.batteries, third), readings=(*whole().kit.readings, reading("north-third")))
    now = replace(now, trip=replace(now.trip, vehicles=("North",), bank=own))
    assert "card-out-of-date" not in gaps(carded(now, also=own))


def test_every_rule_has_a_boundary() -> None:
    quiet = {"rods-of-two-polarities"}
    trapped = {trap.rule for trap in ALL if trap.severity}
    assert {rule.name for rule in RULES} - {name for name, _, severity in BOUNDARIES if severity} - trapped == quiet


@pytest.mark.parametrize(
    "build",
    [
        lambda: with_kit(readings=()),
        lambda: with_reading("north-main", rested_h=None),
        lambda: with_battery("north-main", chemistry=Chemistry.UNKNOWN),
        lambda: with_battery("north-main", condition=Condition.UNKNOWN),
        lambda: with_trip(coldest_c=None),
        lambda: with_trip(wet=None),
        lambda: leads_of(LeadUse.WORK, area_mm2=None),
        lambda: without_gear(*COVERS_FACE, also=(replace(HELMET, shade=None),)),
        lambda: extinguisher(None),
        lambda: with_trip(fire_rules=FireRules.NOT_ASKED),
        lambda: with_kit(rods=(rod("mystery", designation="E9999"),)),
    ],
)
def test_not_known_is_never_a_pass(build: Callable[[], Example]) -> None:
    assert any(not gap.known for gap in gaps(build()).values())


def test_a_rule_that_breaks_is_reported_as_not_checked_and_never_ready() -> None:
    def broken(case: Case) -> list[Gap]:
        raise ZeroDivisionError("division by zero")

    example = whole()
    case = Case(
        kit=example.kit,
        trip=example.trip,
        on=example.on,
        outlook=assess(example.kit, example.trip, on=example.on).outlook,
    )
    (gap,) = run((replace(RULES[0], check=broken),), case)
    assert (gap.checked, gap.known, gap.weight) == (False, False, RULES[0].severity)
    assert "ZeroDivisionError" in gap.what


def test_gaps_come_gravest_first() -> None:
    example = with_kit(rods=(), readings=())
    ranks = [gap.weight.rank for gap in assess(example.kit, example.trip, on=example.on).gaps]
    assert ranks == sorted(ranks)
    assert len(ranks) > 2


def test_the_same_kit_trip_and_day_give_the_same_judgement() -> None:
    example = with_kit(readings=())
    first, second = (assess(example.kit, example.trip, on=example.on).plain() for _ in range(2))
    assert first == second


def test_an_empty_kit_is_judged_without_breaking() -> None:
    trip = replace(whole().trip, bank=(), vehicles=())
    readiness = assess(replace(whole().kit, **dict.fromkeys(PARTS, ())), trip, on=whole().on)
    assert readiness.verdict.exit_code == 10
    assert all(gap.checked for gap in readiness.gaps)


PARTS = ("vehicles", "batteries", "readings", "leads", "rods", "gear", "tools")


def test_a_reading_on_load_beside_a_rested_one_tells_the_resistance() -> None:
    rest = whole().kit.readings[0]
    under = replace(rest, volts_v=11.2, load_a=200, rested_h=None, taken_at=rest.taken_at + timedelta(minutes=5))
    example = with_kit(readings=(under, *whole().kit.readings))
    resistance = assess(example.kit, example.trip, on=example.on).outlook.batteries[rest.battery].resistance
    assert resistance is not None
    # (12.82 V - 11.2 V - 0.4 V of activation) / 200 A, by hand 6.1 mohm before cold and charge are taken off
    assert (resistance.basis, 4.0 < resistance.new_ohm.best * 1000 < 6.1) == ("a reading on load", True)


def test_loose_batteries_travel_and_are_judged() -> None:
    example = with_kit(batteries=(*whole().kit.batteries, battery("loose", None, place=BatteryPlace.LOOSE)))
    assert gaps(example)["reading-missing"].subject == "loose"


def test_a_reading_of_the_future_is_not_used_yet() -> None:
    example = with_reading("north-main", taken_at=whole().kit.readings[0].taken_at + timedelta(days=2))
    assert gaps(example)["reading-missing"].subject == "north-main"
