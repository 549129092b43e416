"""A weld is kept with all that follows from it, and a rod burned is taken off once, whoever says it first."""

from __future__ import annotations

from datetime import date

import pytest

from kitlist.base import resources
from kitlist.base.errors import BadData, NotFound
from kitlist.store import Store, changes, trip_use
from kitlist.store.importing import import_toml
from kitlist.store.welds import add_weld

TRIP, RODS = "Dry lake survey", "general rods"
DAY = date(2027, 5, 10)
BANK = ["heron-main", "plover-main", "plover-second"]


@pytest.fixture
def kit(store: Store) -> Store:
    import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
    return store


def left(store: Store) -> int:
    return int(changes.one(store, "rod", RODS).count)


def weld(store: Store, rods: int, name: str = "hanger", **more: object):
    values = {"name": name, "welded_on": DAY.isoformat(), "rods": rods, "bank": BANK, "trip": TRIP, "rod": RODS}
    return add_weld(store, values | more)


def used(store: Store, rods: int) -> None:
    trip_use.record(store, TRIP, [f"{RODS}={rods}"], on=DAY)


def test_a_weld_leaves_a_field_repair_links_its_batteries_and_takes_its_rods(kit: Store) -> None:
    before = left(kit)
    done = weld(kit, 5, repair="stilt spring hanger")
    assert (done.rods_off, left(kit)) == (5, before - 5)
    mend = changes.one(kit, "mend", "hanger")
    assert (mend.part, mend.vehicle, mend.trip, mend.bank) == ("spring hanger", "Stilt", TRIP, tuple(BANK))
    assert {link.battery for link in trip_use.of_trip(kit, TRIP).linked} == set(BANK)
    assert [(use.name, use.used, use.put_back) for use in trip_use.of_trip(kit, TRIP).uses] == [(RODS, 5, 5)]


@pytest.mark.parametrize(
    ("said", "burned"),
    [
        ((("weld", 5), ("used", 5)), 5),
        ((("used", 5), ("weld", 5)), 5),
        ((("used", 5), ("weld", 2), ("weld", 3)), 5),
        ((("weld", 3), ("used", 5), ("weld", 2)), 5),
        ((("weld", 3), ("weld", 4), ("used", 5)), 7),
        ((("weld", 3), ("used", 2), ("used", 2)), 4),
        ((("used", 2), ("used", 3)), 5),
        ((("weld", 5), ("used", 3), ("used", 2), ("used", 1)), 6),
    ],
)
def test_the_larger_of_what_welds_and_used_say_is_what_was_burned(kit: Store, said: tuple, burned: int) -> None:
    before = left(kit)
    for who, rods in said:
        weld(kit, rods) if who == "weld" else used(kit, rods)
    assert before - left(kit) == burned
    assert sum(use.used for use in trip_use.of_trip(kit, TRIP).uses) == burned


def test_a_second_weld_of_one_name_gets_a_number(kit: Store) -> None:
    assert [weld(kit, 1).weld.name for _ in range(3)] == ["hanger", "hanger 2", "hanger 3"]


@pytest.mark.parametrize(
    ("more", "error"),
    [
        ({"rods": 29}, BadData),
        ({"rods": 3, "bank": []}, BadData),
        ({"rods": 3, "before_v": 37.2, "after_v": 37.9}, BadData),
        ({"rods": 3, "before_v": 12.6}, BadData),
        ({"rods": 3, "bank": ["nobody"]}, NotFound),
        ({"rods": 3, "rod": "nothing"}, NotFound),
    ],
)
def test_a_weld_that_cannot_be_is_refused_and_nothing_is_kept(kit: Store, more: dict, error: type[Exception]) -> None:
    before = left(kit)
    with pytest.raises(error):
        weld(kit, **more)
    assert left(kit) == before
    assert changes.listed(kit, "weld") == ()
    assert changes.listed(kit, "mend") == ()
    assert not trip_use.of_trip(kit, TRIP).any


def test_a_weld_on_no_trip_takes_its_rods_all_the_same(kit: Store) -> None:
    before = left(kit)
    assert weld(kit, 4, trip=None).rods_off == 4
    assert left(kit) == before - 4


def test_rods_that_rod_used_says_of_the_trip_under_way_are_counted_once_with_its_welds(kit: Store) -> None:
    before = left(kit)
    weld(kit, 5)
    done = trip_use.used_rods(kit, RODS, 4, on=DAY)
    assert (done.trip, done.off, left(kit)) == (TRIP, 0, before - 5)
    done = trip_use.used_rods(kit, RODS, 3, on=DAY)
    assert (done.off, left(kit)) == (2, before - 7)
    assert weld(kit, 1, "other").rods_off == 0


def test_rods_used_on_no_trip_come_off_whatever_a_trip_said_and_a_named_trip_counts_on_any_day(kit: Store) -> None:
    before = left(kit)
    weld(kit, 5)
    at_home = trip_use.used_rods(kit, RODS, 2, on=date(2027, 1, 1))
    assert (at_home.trip, at_home.off, left(kit)) == (None, 2, before - 7)
    later = trip_use.used_rods(kit, RODS, 5, on=date(2027, 6, 1), trip=TRIP)
    assert (later.trip, later.off, left(kit)) == (TRIP, 0, before - 7)
    with pytest.raises(BadData, match="it holds"):
        trip_use.used_rods(kit, RODS, before, on=DAY)
    with pytest.raises(BadData, match="it holds"):
        trip_use.used_rods(kit, RODS, 0, on=DAY)
