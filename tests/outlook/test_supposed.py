"""The kit after one change: what it then has, and that nothing else of it changed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any, cast

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, Chemistry
from kitlist.kit import Kit
from kitlist.outlook import look_out
from kitlist.outlook.options.advice import Change, Effort
from kitlist.outlook.options.demand import PackedRod
from kitlist.outlook.options.planner import Option
from kitlist.outlook.options.supposed import supposed, with_ballast
from kitlist.physics.bank.band import Band
from kitlist.rules.example import Example, whole, with_battery, with_kit, with_reading

LOW = with_reading("north-second", volts_v=12.3)

THIN = PackedRod(
    name="2.5 mm E6013",
    designation="E6013",
    diameter_mm=2.5,
    length_mm=300,
    range_low_a=50,
    range_high_a=90,
    charge_ah=Span.exactly(1.0),
)


def after(example: Example, effort: Effort, **about: Any) -> Kit | None:
    change = Change("", cast(Option, None), effort, **about)  # the option is what the planner made of it; not looked at
    return supposed(example.kit, example.trip, change, on=example.on)


def charged(example: Example, *names: str) -> Kit:
    kit = after(example, Effort.CHARGE, batteries=names)
    assert kit is not None
    return kit


def charge_ratio(kit: Kit, example: Example, name: str) -> float:
    soc = look_out(kit, example.trip, on=example.on).batteries[name].charge.soc_ratio
    assert soc is not None
    return soc.best


def test_a_charged_battery_is_full_and_its_neighbours_stay_as_they_were() -> None:
    kit = charged(LOW, "north-second")
    assert charge_ratio(LOW.kit, LOW, "north-second") < 0.6
    assert charge_ratio(kit, LOW, "north-second") == pytest.approx(1.0, abs=0.01)
    for name in ("north-main", "south-second"):
        assert charge_ratio(kit, LOW, name) == charge_ratio(LOW.kit, LOW, name)


def test_every_named_battery_is_charged_and_one_that_is_not_in_the_kit_is_passed_over() -> None:
    kit = charged(LOW, "north-second", "sold", "south-main")
    added = [reading for reading in kit.readings if reading not in LOW.kit.readings]
    assert [reading.battery for reading in added] == ["north-second", "south-main"]


def test_charging_counts_after_a_weld_of_the_same_day_but_only_for_the_charged() -> None:
    welded = with_kit(welded=tuple((name, whole().on) for name in ("north-main", "north-second")))
    kit = charged(welded, "north-second")
    assert kit.welded == (("north-main", welded.on),)
    batteries = look_out(kit, welded.trip, on=welded.on).batteries
    assert batteries["north-second"].charge.known
    assert not batteries["north-main"].charge.known


def test_a_battery_of_unknown_kind_is_charged_to_the_lowest_of_full_volts() -> None:
    unknown = with_battery("north-second", chemistry=Chemistry.UNKNOWN)
    full_v = {
        kind: charged(with_battery("north-second", chemistry=kind), "north-second").readings[0].volts_v
        for kind in Chemistry
        if kind not in (Chemistry.UNKNOWN, Chemistry.LITHIUM)
    }
    assert charged(unknown, "north-second").readings[0].volts_v == min(full_v.values())
    assert min(full_v.values()) < max(full_v.values())


def test_one_more_battery_is_full_belongs_to_no_vehicle_and_starts_no_engine() -> None:
    kit = after(LOW, Effort.BATTERY, batteries=("north-main",))
    assert kit is not None
    more = kit.battery["one more like north-main"]
    like = LOW.kit.battery["north-main"]
    assert (more.vehicle, more.place) == (None, BatteryPlace.LOOSE)
    assert (more.c20_ah, more.chemistry) == (like.c20_ah, like.chemistry)
    assert kit.batteries[:-1] == LOW.kit.batteries
    assert charge_ratio(kit, LOW, more.name) == pytest.approx(1.0, abs=0.01)
    assert more.name in {battery.name for battery in kit.travelling(LOW.trip)}


def test_a_packet_to_pack_is_dry_and_joins_the_packets_that_are_there() -> None:
    kit = after(LOW, Effort.ROD, rod=THIN)
    assert kit is not None
    (*old, new) = kit.rods
    assert tuple(old) == LOW.kit.rods
    assert (new.name, new.designation, new.diameter_mm, new.length_mm) == ("2.5 mm E6013", "E6013", 2.5, 300)
    assert all(seen.usable for seen in look_out(kit, LOW.trip, on=LOW.on).rods)


@pytest.mark.parametrize(
    ("effort", "about"),
    [
        (Effort.ROD, {"batteries": ("north-main",)}),
        (Effort.ROD, {}),
        (Effort.BATTERY, {"rod": THIN}),
        (Effort.BATTERY, {}),
        (Effort.BATTERY, {"batteries": ("sold",)}),
    ],
)
def test_a_change_that_no_thing_of_the_kit_stands_for_gives_no_kit(effort: Effort, about: dict[str, Any]) -> None:
    assert after(LOW, effort, **about) is None


def test_a_supposed_strip_lowers_the_current_and_a_longer_look_does_not_pile_strips_up() -> None:
    example = whole()

    def band(kit: Kit, trip: Any, on: date) -> Band:
        bank = look_out(kit, trip, on=on).bank
        seen = None if bank is None else bank.band(None)
        assert seen is not None
        return seen

    small = with_ballast(example.kit, example.trip, mohm=20)
    large = with_ballast(*small, mohm=40)
    assert [strip.measured_mohm for strip in large[0].ballasts] == [40]
    assert large[1].ballast == large[0].ballasts[0].name
    bands = [band(*pair, example.on) for pair in ((example.kit, example.trip), small, large)]
    assert bands[0].middle_a > bands[1].middle_a > bands[2].middle_a


def test_the_crews_own_strips_stay_packed_beside_a_supposed_one() -> None:
    own = replace(with_ballast(whole().kit, whole().trip, mohm=20)[0].ballasts[0], name="own")
    kit, trip = with_ballast(with_kit(ballasts=(own,)).kit, whole().trip, mohm=30)
    assert [strip.name for strip in kit.ballasts] == ["own", trip.ballast]
