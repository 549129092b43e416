"""What must be known before a bank can be chosen draws its gap then, and a remedy offers only what there is."""

from __future__ import annotations

from dataclasses import replace

from kitlist.base.terms import Chemistry
from kitlist.readiness import assess
from kitlist.rules import Example, Gap, Severity
from kitlist.rules.example import whole, with_battery, with_trip


def gaps(example: Example, rule: str) -> list[Gap]:
    return [gap for gap in assess(example.kit, example.trip, on=example.on).gaps if gap.rule == rule]


def test_an_unknown_kind_is_asked_for_before_a_bank_is_chosen_and_stops_once_it_is_in_one() -> None:
    chosen = with_battery("north-main", chemistry=Chemistry.UNKNOWN)
    before = replace(chosen, trip=replace(chosen.trip, bank=(), bank_strings=1))
    (gap,) = gaps(before, "battery-not-looked-at")
    assert (gap.subject, gap.weight, gap.known) == ("north-main", Severity.FIX, False)
    assert "chemistry=KIND" in gap.command
    bank = ("north-main", "north-second", "south-second")
    in_it = replace(chosen, trip=replace(chosen.trip, bank=bank))
    assert [gap.weight for gap in gaps(in_it, "battery-not-looked-at") if gap.subject == "north-main"] == [
        Severity.STOP
    ]


def test_whether_it_may_be_wet_is_asked_for_before_a_bank_is_chosen() -> None:
    asked = gaps(with_trip(bank=(), wet=None), "no-bank-chosen")
    assert [gap.command.rpartition(" ")[2] for gap in asked] == ["bank=FIRST,SECOND,THIRD", "wet=ANSWER"]
    assert len(gaps(with_trip(bank=(), wet=False), "no-bank-chosen")) == 1


def test_a_bank_of_every_starting_battery_names_another_that_serves_or_says_what_else_to_do() -> None:
    bank = ("north-main", "north-second", "south-main")
    (gap,) = gaps(with_trip(bank=bank), "no-battery-left-to-start")
    assert "serves" in gap.remedy
    assert "No other bank" not in gap.remedy
    only = whole()
    few = tuple(battery for battery in only.kit.batteries if battery.name in bank)
    alone = replace(only, kit=replace(only.kit, batteries=few), trip=replace(only.trip, bank=bank))
    (gap,) = gaps(alone, "no-battery-left-to-start")
    assert gap.remedy.startswith("No other bank of these batteries serves")
    assert "starter pack" in gap.remedy
