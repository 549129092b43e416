"""A companion's vehicle: what is shared of it, what joins and under which name, and what is never changed."""

from __future__ import annotations

import json
from datetime import date, datetime
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, BadFile, NotFound
from kitlist.base.terms import Condition
from kitlist.store import Store, changes, guests, tomlfile
from kitlist.store.entries import Entry
from new_store import demo_store, new_store

TRIP = "Dry lake survey"
GULL = """
[[vehicle]]
name = "Gull"
guest_of = "Bo"
[[battery]]
name = "main"
place = "start"
note = "mine"
[[battery]]
name = "spare"
place = "loose"
bag = "a box"
"""


@pytest.fixture
def demo(tmp_path: Path) -> Store:
    return demo_store(tmp_path / "kit.db")


@pytest.fixture
def gull(tmp_path: Path) -> Path:
    path = tmp_path / "gull.toml"
    path.write_text(GULL, encoding="utf-8")
    return path


def test_what_is_shared_is_a_vehicle_its_batteries_and_three_readings_of_each_and_nothing_of_home(demo: Store) -> None:
    changes.edit(demo, "battery", "heron-main", {"note": "behind the seat"})
    for hour in range(5):
        changes.add(demo, "reading", {"battery": "heron-main", "volts": 12.6, "taken_at": f"2027-05-05T0{hour}:30"})
    text = guests.share(demo, "heron", by=" Ada ")
    assert text.startswith("# A vehicle and its batteries, shared by Ada ")
    path = demo.path.with_name("heron.toml")
    path.write_text(text, encoding="utf-8")
    items = [item for item in tomlfile.read(path) if isinstance(item, Entry)]
    assert {item.kind for item in items} == {"vehicle", "battery", "reading"}
    (vehicle,) = [item.values for item in items if item.kind == "vehicle"]
    assert (vehicle["name"], vehicle["guest_of"]) == ("Heron", "Ada")
    assert len([i for i in items if i.kind == "reading" and i.values["battery"] == "heron-main"]) == 3
    for item in items:
        assert not {"note", "bag", "removed_at"} & set(item.values)
        assert "" not in item.values.values()
    (battery,) = [i.values for i in items if i.kind == "battery" and i.values["name"] == "heron-main"]
    whole = changes.one(demo, "battery", "heron-main")
    assert (battery["c20_ah"], battery["chemistry"]) == (whole.c20_ah, str(whole.chemistry))
    assert "joint_mohm" not in battery  # not known
    assert guests.is_shared(path)
    with pytest.raises(BadData, match="whose it is is not said"):
        guests.share(demo, "heron", by=" ")
    with pytest.raises(NotFound):
        guests.share(demo, "no such", by="Ada")


def test_a_guest_s_own_vehicle_shared_on_stays_whose_it_is(demo: Store, gull: Path) -> None:
    guests.join(demo, gull, TRIP)
    assert "shared by Bo " in guests.share(demo, "Gull (Bo)", by="Ada")


def test_a_file_of_one_guest_alone_is_shared_and_a_kit_or_two_of_them_are_not(tmp_path: Path, gull: Path) -> None:
    assert guests.is_shared(gull)
    for name, text in (
        ("kit.toml", GULL + '[[bag]]\nname = "box"\n'),
        ("two.toml", GULL + '[[vehicle]]\nname = "Tern"\nguest_of = "Bo"\n'),
        ("own.toml", '[[vehicle]]\nname = "Tern"\n'),
        ("none.toml", ""),
        ("gull.json", GULL),
    ):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        assert not guests.is_shared(path), name
    assert not guests.is_shared(tmp_path / "gone.toml")


def test_guests_join_under_whose_they_are_once_and_only_the_trip_s_vehicles_change(demo: Store, gull: Path) -> None:
    before = changes.one(demo, "trip", TRIP)
    done = guests.join(demo, gull, "dry", dry_run=True)
    assert (done.added, done.differs) == (("vehicle Gull (Bo)", "battery main (Bo)", "battery spare (Bo)"), ())
    assert changes.one(demo, "trip", TRIP) == before
    guests.join(demo, gull, TRIP)
    trip = changes.one(demo, "trip", TRIP)
    assert trip.vehicles == (*before.vehicles, "Gull (Bo)")
    spare = changes.one(demo, "battery", "spare (Bo)")
    assert (spare.vehicle, str(spare.place), spare.bag) == ("Gull (Bo)", "second", None)
    assert changes.one(demo, "battery", "main (Bo)").note == ""
    again = guests.join(demo, gull, TRIP)
    assert (again.added, again.differs) == ((), ())
    assert changes.one(demo, "trip", TRIP) == trip


def test_what_differs_is_told_and_stays_but_damage_and_welding_are_believed(demo: Store, gull: Path) -> None:
    guests.join(demo, gull, TRIP)
    changes.edit(demo, "battery", "main (Bo)", {"c20": "70"})

    def came(lines: str) -> guests.Joined:
        gull.write_text(GULL.replace('note = "mine"', lines), encoding="utf-8")
        return guests.join(demo, gull, TRIP)

    assert came('c20 = "80Ah"').differs == ("battery main (Bo): c20_ah",)
    assert changes.one(demo, "battery", "main (Bo)").c20_ah == 70
    assert came('condition = "cracked"').added == ("battery main (Bo)",)
    assert changes.one(demo, "battery", "main (Bo)").condition is Condition.CRACKED
    assert came('condition = "sound"').differs == ("battery main (Bo): condition, c20_ah",)
    assert changes.one(demo, "battery", "main (Bo)").condition is Condition.CRACKED
    for day, kept in (("2027-05-03", 3), ("2027-05-06", 6), ("2027-05-04", 6)):
        came(f'welded_on = "{day}"')
        assert changes.one(demo, "battery", "main (Bo)").welded_on == date(2027, 5, kept)
    assert changes.one(demo, "battery", "main (Bo)").c20_ah == 70


def test_every_line_that_cannot_be_taken_is_told_and_nothing_is(demo: Store, gull: Path) -> None:
    other = '[[reading]]\nbattery = "other"\nvolts = 12.5\ntaken_at = 2027-05-05T07:00:00\n'
    for text, why in (
        (GULL + '[[tool]]\nname = "x"\n', "a shared file holds vehicle, battery, reading, no tool"),
        (GULL.replace('"Bo"', '"?"'), "a shared file holds one vehicle, with its name and whose it is"),
        (GULL + '[[vehicle]]\nname = "Tern"\nguest_of = "Cy"\n', "a shared file holds one vehicle"),
        (GULL + other, "the reading is of other (Bo), which is not in the file"),
        (GULL.replace('"start"', '"roof"', 1), "place"),
    ):
        gull.write_text(text, encoding="utf-8")
        with pytest.raises(BadFile, match="1 line cannot be taken; nothing was") as caught:
            guests.join(demo, gull, TRIP)
        assert why in caught.value.lines[0]
    assert "Gull (Bo)" not in {vehicle.name for vehicle in changes.listed(demo, "vehicle")}


def test_the_form_joins_as_it_is_filled_in_and_what_was_left_empty_is_not_known(demo: Store, gull: Path) -> None:
    text = guests.blank().replace('name = "" ', 'name = "Gull" ', 1).replace('"?"', '"Bo"')
    text = text.replace('name = "" ', 'name = "main" ', 1)
    gull.write_text(text, encoding="utf-8")
    done = guests.join(demo, gull, TRIP)
    assert done.added == ("vehicle Gull (Bo)", "battery main (Bo)")
    assert changes.one(demo, "battery", "main (Bo)").c20_ah is None


def test_names_that_are_there_in_another_case_are_the_same(demo: Store, gull: Path, tmp_path: Path) -> None:
    guests.join(demo, gull, TRIP)
    gull.write_text(GULL.replace('"Gull"', '"GULL"').replace('"main"', '"Main"'), encoding="utf-8")
    assert guests.join(demo, gull, TRIP).added == ()
    assert [v.name for v in changes.listed(demo, "vehicle") if v.guest_of] == ["Gull (Bo)"]
    assert json.loads(json.dumps(changes.one(demo, "trip", TRIP).vehicles))[-1] == "Gull (Bo)"
    empty = new_store(tmp_path / "empty.db")
    with pytest.raises(NotFound):
        guests.join(empty, gull, TRIP)


def test_a_reading_of_before_the_clock_joins_and_one_of_after_it_keeps_all_out(demo: Store, gull: Path) -> None:
    now = datetime(2027, 5, 6, 12)  # noqa: DTZ001 - the store keeps local time
    reading = '[[reading]]\nbattery = "main"\nvolts = 12.5\ntaken_at = 2027-05-0{day}T07:00:00\n'
    gull.write_text(GULL + reading.format(day=7), encoding="utf-8")
    with pytest.raises(BadFile, match="1 line cannot be taken"):
        guests.join(demo, gull, TRIP, by_clock=now)
    gull.write_text(GULL + reading.format(day=5), encoding="utf-8")
    assert "reading main (Bo), 2027-05-05 07:00:00" in guests.join(demo, gull, TRIP, by_clock=now).added
