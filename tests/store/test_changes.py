from __future__ import annotations

import sqlite3
from datetime import date

import pytest

from kitlist.base.errors import Ambiguous, BadData, NotFound
from kitlist.base.terms import Chemistry
from kitlist.store import Store, changes
from kitlist.store.snapshot import snapshot


def with_heron(store: Store) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    changes.add(store, "battery", {"name": "heron-main", "vehicle": "Heron", "chemistry": "agm", "c20": "70Ah"})


def test_what_is_added_comes_back_in_the_snapshot(store: Store) -> None:
    with_heron(store)
    (battery,) = snapshot(store).batteries
    assert (battery.name, battery.chemistry, battery.c20_ah) == ("heron-main", Chemistry.AGM, 70.0)


def test_names_answer_to_any_unambiguous_start_whatever_the_case(store: Store) -> None:
    with_heron(store)
    assert changes.shown(store, "battery", "HER")["name"] == "heron-main"
    changes.add(store, "battery", {"name": "heron-second", "vehicle": "her", "place": "second"})
    with pytest.raises(Ambiguous, match="heron-main, heron-second"):
        changes.shown(store, "battery", "heron")


def test_an_unknown_name_suggests_the_near_ones(store: Store) -> None:
    with_heron(store)
    with pytest.raises(NotFound) as caught:
        changes.shown(store, "battery", "hreon-main")
    assert caught.value.hint == "Did you mean heron-main?"


def test_editing_changes_only_what_was_named_and_none_empties_a_field(store: Store) -> None:
    with_heron(store)
    battery = changes.edit(store, "battery", "heron-main", {"c20": "none", "mass": "18 kg"})
    assert (battery.c20_ah, battery.mass_kg, battery.chemistry) == (None, 18.0, Chemistry.AGM)


def test_a_rename_is_followed_by_everything_that_refers_to_it(store: Store) -> None:
    with_heron(store)
    dates = {"starts_on": "2027-05-08", "ends_on": "2027-05-16"}
    changes.add(store, "trip", {"name": "lake", "vehicles": "heron", "bank": "heron-main"} | dates)
    changes.edit(store, "vehicle", "Heron", {"name": "Egret"})
    changes.edit(store, "battery", "heron-main", {"name": "egret-main"})
    kit = snapshot(store)
    assert kit.batteries[0].vehicle == "Egret"
    assert (kit.trips[0].vehicles, kit.trips[0].bank) == (("Egret",), ("egret-main",))


def test_what_is_removed_is_out_of_the_kit_keeps_its_history_and_can_be_restored(store: Store) -> None:
    with_heron(store)
    changes.add(store, "reading", {"battery": "heron", "volts": 12.7, "taken_at": "2027-05-01T08:00"})
    changes.remove(store, "battery", "heron-main")
    assert snapshot(store).batteries == ()
    with pytest.raises(BadData, match="was removed and keeps its name"):
        changes.add(store, "battery", {"name": "Heron-Main", "vehicle": "Heron"})
    assert changes.restore(store, "battery", "heron") == "heron-main"
    assert snapshot(store).readings[0].volts_v == 12.7


def test_a_thing_in_use_is_not_removed_and_the_users_are_named(store: Store) -> None:
    with_heron(store)
    with pytest.raises(BadData, match="battery heron-main"):
        changes.remove(store, "vehicle", "Heron")


def test_a_trip_keeps_its_bank_in_linking_order(store: Store) -> None:
    with_heron(store)
    for name in ("b", "a", "c"):
        changes.add(store, "battery", {"name": name, "place": "loose"})
    dates = {"starts_on": date(2027, 5, 8), "ends_on": date(2027, 5, 16)}
    changes.add(store, "trip", {"name": "lake", "bank": "c,a,b"} | dates)
    assert snapshot(store).trips[0].bank == ("c", "a", "b")
    changes.edit(store, "trip", "lake", {"bank": "b,c"})
    assert snapshot(store).trips[0].bank == ("b", "c")


def test_two_readings_of_one_battery_at_one_moment_are_refused(store: Store) -> None:
    with_heron(store)
    values = {"battery": "heron", "volts": 12.7, "taken_at": "2027-05-01T08:00"}
    changes.add(store, "reading", values)
    with pytest.raises(BadData, match="already has a reading"):
        changes.add(store, "reading", values | {"volts": 12.5})
    assert len(snapshot(store).readings) == 1


def test_readings_come_newest_first_and_all_are_kept(store: Store) -> None:
    with_heron(store)
    for day in range(1, 21):
        values = {"battery": "heron", "volts": 12 + day / 100, "taken_at": f"2027-05-{day:02d}T08:00"}
        changes.add(store, "reading", values)
    newest = [round(r.volts_v, 2) for r in snapshot(store).readings]
    assert newest == [round(12 + day / 100, 2) for day in range(20, 8, -1)]
    with sqlite3.connect(store.path) as db:
        assert db.execute("SELECT count(*) FROM reading").fetchone() == (20,)


def test_a_trip_s_snapshot_leaves_out_batteries_that_stay_at_home(store: Store) -> None:
    with_heron(store)
    changes.add(store, "vehicle", {"name": "Plover"})
    changes.add(store, "battery", {"name": "plover-main", "vehicle": "Plover"})
    changes.add(store, "battery", {"name": "spare", "place": "loose"})
    dates = {"starts_on": "2027-05-08", "ends_on": "2027-05-16"}
    changes.add(store, "trip", {"name": "lake", "vehicles": "Heron"} | dates)
    assert [b.name for b in snapshot(store, trip="lake").batteries] == ["heron-main", "spare"]


def test_the_database_itself_refuses_what_the_entry_would_refuse(store: Store) -> None:
    with_heron(store)
    with sqlite3.connect(store.path) as db:
        db.execute("PRAGMA foreign_keys = ON")
        for statement in (
            "UPDATE battery SET chemistry = 'flodded'",
            "UPDATE battery SET c20_ah = 9000",
            "UPDATE battery SET c20_ah = 'big'",
            "UPDATE battery SET vehicle = 'Nowhere'",
            "UPDATE battery SET name = ''",
            "UPDATE battery SET in_service_since = '2027-13-01'",
            "INSERT INTO reading (battery, volts_v, taken_at) VALUES ('heron-main', 12.7, 'noon')",
        ):
            with pytest.raises(sqlite3.IntegrityError):
                db.execute(statement)


def test_what_refers_to_something_removed_is_not_brought_back_before_it(store: Store) -> None:
    with_heron(store)
    changes.remove(store, "battery", "heron-main")
    changes.remove(store, "vehicle", "Heron")
    with pytest.raises(BadData, match="refers to vehicle 'Heron', which was removed too") as caught:
        changes.restore(store, "battery", "heron-main")
    assert caught.value.hint == "First: kitlist vehicle restore Heron"
    changes.restore(store, "vehicle", "Heron")
    changes.restore(store, "battery", "heron-main")
    assert [b.name for b in snapshot(store).batteries] == ["heron-main"]


def test_a_change_of_case_alone_is_followed_too(store: Store) -> None:
    with_heron(store)
    changes.edit(store, "vehicle", "Heron", {"name": "HERON"})
    assert snapshot(store).batteries[0].vehicle == "HERON"


def test_a_name_is_taken_whatever_its_case_beyond_ascii_too(store: Store) -> None:
    changes.add(store, "bag", {"name": "Étui"})
    with pytest.raises(BadData, match="already a bag called 'Étui'"):
        changes.add(store, "bag", {"name": "étui"})


def test_a_list_holds_each_thing_once(store: Store) -> None:
    with_heron(store)
    dates = {"starts_on": "2027-05-08", "ends_on": "2027-05-16"}
    with pytest.raises(BadData, match="a vehicle stands in it twice"):
        changes.add(store, "trip", {"name": "lake", "vehicles": "Heron, heron"} | dates)


def test_a_moment_with_a_zone_is_refused_for_the_store_keeps_local_time(store: Store) -> None:
    with_heron(store)
    with pytest.raises(BadData, match="a time like 2026-11-25T07:30"):
        changes.add(store, "reading", {"battery": "heron", "volts": 12.7, "taken_at": "2027-05-01T08:00+02:00"})
