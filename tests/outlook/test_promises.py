"""One owner says whether a bank serves, and what is promised of one change is what the next look shows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

from kitlist.faces.cli.demo import demo_store
from kitlist.faces.judging import judged
from kitlist.faces.words import bank_text
from kitlist.kit import Kit, Trip
from kitlist.outlook import batteries_out, expect, look_out
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.offerable import Lost, lost_by
from kitlist.outlook.options.advice import Effort
from kitlist.outlook.options.plan import BankPlan, plan_for
from kitlist.outlook.options.supposed import supposed
from kitlist.outlook.shaping import ways_in_range
from kitlist.rules.example import reading, whole, with_kit, with_reading, with_repair, with_trip
from kitlist.store.importing import import_toml
from kitlist.store.snapshot import snapshot
from new_store import new_store

KITS = Path(__file__).parents[1] / "rules" / "kits"


def kits(folder: Path) -> Iterator[tuple[Kit, Trip, date]]:
    """The kits that come with the checks: the demo, a careful crew's and a club's, and those of the examples."""
    with demo_store() as (demo, on):
        found = judged(demo, None, on=on)
        yield found.kit, found.trip, found.on
    for name, on in (("careful", date(2027, 6, 11)), ("club", date(2027, 9, 3))):
        store = new_store(folder / f"{name}.db")
        import_toml(store, KITS / f"{name}.toml")
        trip = snapshot(store).trips[-1]
        yield snapshot(store, trip=trip.name), trip, on
    for example in (whole(), with_repair(), with_reading("north-second", volts_v=12.3), with_trip(bank=())):
        yield example.kit, example.trip, example.on


def shown(plan: BankPlan) -> tuple[object, ...]:
    first = plan.offers[0]
    return first.strings, first.fit, first.best.words, first.rods, first.band


def test_what_one_change_promises_is_what_the_next_bank_shows_first(tmp_path: Path) -> None:
    followed = set()
    for kit, trip, on in kits(tmp_path):
        plan = plan_for(kit, trip, on=on)
        for found in plan.changes:
            after = supposed(kit, trip, found.change, on=on)
            assert after is not None
            offer = found.offer
            promised = offer.strings, offer.fit, offer.best.words, offer.rods, offer.band
            assert promised == shown(plan_for(after, trip, on=on)), found.change.words
            followed.add(found.change.effort)
    assert followed >= {Effort.CHARGE, Effort.ROD, Effort.BATTERY}


def test_each_promise_names_its_bank_and_no_two_are_the_same(tmp_path: Path) -> None:
    lines = 0
    for kit, trip, on in kits(tmp_path):
        plan = plan_for(kit, trip, on=on)
        said = list(bank_text.plan_lines(plan, outlook=look_out(kit, trip, on=on), columns=10_000))
        for found in plan.changes:
            (line,) = (text for text in said if text.startswith(f"  - {found.change.words};"))
            assert found.offer.words in line
            lines += 1
        assert len({found.change.words for found in plan.changes}) == len(plan.changes)
    assert lines > 5


def test_one_more_of_three_alike_batteries_is_said_once() -> None:
    example = whole()
    first = example.kit.batteries[0]
    alike = tuple(replace(first, name=b.name, vehicle=b.vehicle, place=b.place) for b in example.kit.batteries)
    low = tuple(replace(reading, volts_v=12.50) for reading in example.kit.readings)
    plan = plan_for(replace(example.kit, batteries=alike, readings=low), example.trip, on=example.on)
    more = [found for found in plan.changes if found.change.effort is Effort.BATTERY]
    assert len(more) <= 1


def test_no_bank_that_is_a_way_to_a_rod_is_said_to_be_out_and_the_other_way_round(tmp_path: Path) -> None:
    compared = 0
    for kit, trip, on in kits(tmp_path):
        plan = plan_for(kit, trip, on=on, few=20)
        offered = {frozenset(offer.trip.bank) for offer in plan.offers}
        nearest = [frozenset(string) for missed in plan.missed for string in missed.nearest]
        for ways in ways_in_range(kit, trip, on=on, bought=False).values():
            for way in ways:
                if way.other_bank and not way.added:
                    assert frozenset(way.bank) in offered, way.words
                    assert frozenset(way.bank) not in nearest
                    compared += 1
        batteries = batteries_out(kit, trip, on=on)
        for missed in plan.missed:
            if len(missed.nearest) == 1:
                tried = replace(trip, bank=missed.nearest[0], bank_strings=1)
                found = expect(kit, tried, batteries, on=on)
                assert lost_by(kit, tried, found, polarity=said_polarity(found.rods)) is not None, missed
    assert compared >= 2


def test_the_pair_of_the_demo_that_has_a_rod_in_range_is_a_bank_on_offer_and_says_how_it_is_held() -> None:
    with demo_store() as (store, on):
        found = judged(store, None, on=on)
    plan = plan_for(found.kit, found.trip, on=found.on)
    (pair,) = (offer for offer in plan.offers if set(offer.trip.bank) == {"plover-main", "plover-second"})
    lines = "\n".join(bank_text.plan_lines(plan, outlook=found.outlook, columns=10_000))
    assert pair.short_mm is not None
    assert f"in range with 3.2 mm E6013, short arc only, up to {pair.short_mm:g} mm" in lines
    assert "behind 1: short arc only" in lines
    assert not any(set(map(frozenset, missed.nearest)) == {frozenset(pair.trip.bank)} for missed in plan.missed)


def test_a_way_by_another_bank_gives_at_least_one_rod() -> None:
    example = with_repair()
    flat = tuple(replace(reading, volts_v=12.15) for reading in example.kit.readings)
    kit = replace(example.kit, readings=flat)
    assert plan_for(kit, example.trip, on=example.on).offers == ()
    ways = ways_in_range(kit, example.trip, on=example.on)
    assert [way for few in ways.values() for way in few if way.other_bank] == []


def test_where_nobody_has_said_whether_it_may_be_wet_the_answer_is_asked_for_by_name() -> None:
    example = with_trip(bank=(), wet=None)
    thick = replace(example.kit.rods[0], designation="E6013", diameter_mm=4.0, length_mm=350.0)
    kit = replace(example.kit, rods=(thick,))
    plan = plan_for(kit, example.trip, on=example.on)
    assert Lost.WET_NOT_SAID in {missed.why for missed in plan.missed}
    outlook = look_out(kit, example.trip, on=example.on)
    assert "wet=ANSWER" in "\n".join(bank_text.plan_lines(plan, outlook=outlook, columns=200))
    dry = plan_for(kit, replace(example.trip, wet=False), on=example.on)
    assert {missed.why for missed in dry.missed}.isdisjoint({Lost.WET, Lost.WET_NOT_SAID})


def test_a_bank_with_a_battery_that_was_flat_says_that_it_is_load_tested_first() -> None:
    known, at = whole().kit.readings, datetime(2027, 2, 20, 8, 0)  # noqa: DTZ001
    low = reading("north-main", volts_v=11.5, taken_at=at)
    tested = reading("north-main", volts_v=11.9, taken_at=at.replace(hour=9), rested_h=None, load_a=300)
    for readings, warned in (((*known, low), True), ((*known, tested, low), False), (known, False)):
        case = with_kit(readings=readings)
        plan = plan_for(case.kit, case.trip, on=case.on)
        lines = list(bank_text.plan_lines(plan, outlook=look_out(case.kit, case.trip, on=case.on), columns=10_000))
        said = "    warning: north-main was flat, and stays out of the bank until it is load-tested"
        assert lines.count(said) == sum("north-main" in offer.trip.bank for offer in plan.offers) * warned
        assert any("north-main" in offer.trip.bank for offer in plan.offers)
