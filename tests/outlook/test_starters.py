"""Starting batteries: what a bank takes of each vehicle, and which vehicles still start."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import Condition, StartBatteries
from kitlist.kit import Vehicle
from kitlist.outlook.starters import Parted, halves, lent, parted_badly, still_start, takes_every_start
from kitlist.physics.bank.pairs import Rejoin
from kitlist.rules.halves_not_level import apart
from kitlist.rules.starting_pair_parted import BOTH, ONE_STARTER, with_two

PAIR, TWIN = StartBatteries.PAIR, StartBatteries.TWIN
MAINS = ("north-main", "south-main", "west-main")


def parted(example):
    return {one.vehicle.name: one.parted for one in lent(example.kit, example.trip)}


def test_what_a_bank_takes_of_two_starting_batteries():
    assert parted(with_two(PAIR, bank=BOTH)) == {"West": None}
    assert parted(with_two(PAIR, bank=ONE_STARTER)) == {"West": Parted.HALF_OF_24_V}
    assert parted(with_two(TWIN, bank=ONE_STARTER, seen=True)) == {"West": Parted.TWIN_SEEN}
    assert parted(with_two(TWIN, bank=ONE_STARTER)) == {"West": Parted.TWIN_NOT_SEEN}
    assert parted(with_two(TWIN, bank=ONE_STARTER, seen=True, coldest_c=-5)) == {"West": Parted.TWIN_IN_FROST}
    assert parted(with_two(PAIR, bank=("north-second", "south-second"))) == {}


@pytest.mark.parametrize(
    ("how", "bank", "seen", "left"),
    [
        (PAIR, ONE_STARTER, None, ("North", "South")),
        (PAIR, MAINS, None, ()),
        (TWIN, MAINS, None, ()),
        (TWIN, MAINS, True, ("West",)),
        (TWIN, ("north-main", "west-main", "west-other"), True, ("South",)),
    ],
)
def test_vehicles_that_still_start(how, bank, seen, left):
    made = with_two(how, bank=bank, seen=seen)
    assert still_start(made.kit, made.trip) == left
    assert takes_every_start(made.kit, made.trip) is not bool(left)


def test_a_cracked_battery_starts_nothing_and_a_vehicle_with_none_is_not_counted():
    made = with_two(PAIR)
    cracked = tuple(
        replace(b, condition=Condition.CRACKED) if b.name == "west-other" else b for b in made.kit.batteries
    )
    bare = (*made.kit.vehicles, Vehicle(name="Bare"))
    trip = replace(made.trip, vehicles=(*made.trip.vehicles, "Bare"))
    assert still_start(replace(made.kit, batteries=cracked, vehicles=bare), trip) == ("South",)  # the bank has North's


def test_a_guest_s_pair_counts_like_one_s_own():
    made = with_two(PAIR, bank=ONE_STARTER)
    guests = tuple(replace(v, guest_of="Jan") if v.name == "West" else v for v in made.kit.vehicles)
    assert parted(replace(made, kit=replace(made.kit, vehicles=guests))) == {"West": Parted.HALF_OF_24_V}


def test_halves_are_set_side_by_side_only_rested_and_both_read():
    made = apart(12.95)
    newest = {r.battery: r for r in made.kit.readings}
    (west,) = (v for v in made.kit.vehicles if v.name == "West")
    found = halves(made.kit, west, newest)
    assert (found.apart_v, found.may) == (0.13, Rejoin.CHARGE_FIRST)
    assert found.lower.battery == "west-main"
    assert halves(made.kit, west, {**newest, "west-other": None}) is None
    assert halves(made.kit, west, {**newest, "west-other": replace(newest["west-other"], rested_h=1)}) is None
    assert halves(made.kit, replace(west, start_batteries=StartBatteries.SINGLE, system_v=12), newest) is None
    twins = halves(made.kit, replace(west, start_batteries=TWIN, system_v=12), newest)
    assert (twins.apart_v, twins.may) == (0.13, Rejoin.BACK)


@pytest.mark.parametrize(
    ("volts", "how", "ok"),
    [(24, PAIR, True), (24, TWIN, False), (12, PAIR, False), (12, TWIN, True), (18, PAIR, False)],
)
def test_24_v_and_a_pair_go_together(volts, how, ok):
    assert (Vehicle(name="A", system_v=volts, start_batteries=how).problems() == ()) is ok


def test_what_is_taken_and_what_stays_of_each_vehicle_is_named():
    made = with_two(PAIR, bank=ONE_STARTER)
    (west,) = lent(made.kit, made.trip)
    assert (west.taken, west.stays, west.starts) == (("west-main",), ("west-other",), False)
    assert str(west) == "west-main of West: one half of 24 V alone"
    both = with_two(PAIR, bank=BOTH)
    (west,) = lent(both.kit, both.trip)
    assert (set(west.taken), west.stays, west.parted) == ({"west-main", "west-other"}, (), None)
    assert str(west).endswith(" of West: all that it starts on")
    seen = with_two(TWIN, bank=ONE_STARTER, seen=True)
    assert next(iter(lent(seen.kit, seen.trip))).starts
    for how, seen_too, cold, badly in (
        (PAIR, None, 5, 1),
        (TWIN, True, 5, 0),
        (TWIN, True, -5, 1),
        (TWIN, False, 5, 1),
    ):
        made = with_two(how, bank=ONE_STARTER, seen=seen_too, coldest_c=cold)
        assert len(parted_badly(made.kit, made.trip)) == badly
    assert parted_badly(both.kit, both.trip) == ()


def test_a_trip_without_a_vehicle_that_starts_loses_none_to_its_bank():
    made = with_two(PAIR)
    cracked = replace(made.kit, batteries=tuple(replace(b, condition=Condition.CRACKED) for b in made.kit.batteries))
    assert not takes_every_start(cracked, made.trip)
    assert still_start(made.kit, replace(made.trip, bank=(), vehicles=("South",))) == ("South",)


@pytest.mark.parametrize(
    "spoiled", [{"charging": True, "rested_h": None}, {"load_a": 80.0}, {"rested_h": None}, {"rested_h": 1.9}]
)
def test_halves_are_not_set_side_by_side_by_a_reading_that_did_not_rest(spoiled):
    made = apart(12.95)
    newest = {r.battery: r for r in made.kit.readings}
    (west,) = (v for v in made.kit.vehicles if v.name == "West")
    assert halves(made.kit, west, {**newest, "west-main": replace(newest["west-main"], **spoiled)}) is None
    rested = replace(newest["west-main"], rested_h=2.0, load_a=None)
    assert halves(made.kit, west, {**newest, "west-main": rested}) is not None
    assert halves(made.kit, west, {"west-main": newest["west-main"]}) is None
