"""charge --field, ballast and weld at the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import running
from running import Done

ON = ("--on", "2027-05-07")


def kitlist(store: Path, *words: str) -> Done:
    return running.kitlist(*words, store=store)


@pytest.mark.parametrize("told", ["200", "-60", "nan"])
def test_a_temperature_that_no_battery_has_is_refused_by_name(demo: Path, told: str) -> None:
    done = kitlist(demo, "charge", "--field", f"--battery-temp={told}", *ON)
    assert done.returncode in (2, 3)  # out of range, or no number at all
    assert told in done.stderr
    assert done.stdout == ""


def test_charging_between_repairs_shows_each_battery_by_its_ways_and_what_must_be_true_first(demo: Path) -> None:
    kitlist(demo, "vehicle", "edit", "Plover", "alternator=none")
    kitlist(demo, "vehicle", "edit", "Heron", "alternator=none")
    assert "No way to charge is recorded" in kitlist(demo, "charge", "--field", *ON).stdout
    kitlist(demo, "vehicle", "edit", "Heron", "alternator=100A")
    kitlist(demo, "tool", "add", "charger", "what=charger", "rating-a=10")
    done = kitlist(demo, "charge", "--field", "--rods", "2", "--battery-temp", "50 F", *ON)
    assert done.returncode == 0
    said = " ".join(done.stdout.split())
    assert "batteries at 10 °C" in said
    assert "Heron, engine at fast idle: " in said
    assert said.index("First:") < said.index("Unlinked") < said.index("Then:") < said.index("before anything is linked")
    answer = json.loads(kitlist(demo, "charge", "--field", "--json", *ON).stdout)
    assert {line["battery"] for line in answer["batteries"]} == {"heron-main", "plover-main", "plover-second"}
    assert {way["of"] for way in answer["batteries"][0]["ways"]} == {"Heron", "charger"}


def test_words_for_the_field_without_it_are_refused(demo: Path) -> None:
    done = kitlist(demo, "charge", "--rods", "2", *ON)
    assert done.returncode == 2
    assert "Add --field" in done.stderr


def test_a_strip_is_recorded_named_for_the_trip_and_changes_the_current(demo: Path) -> None:
    before = json.loads(kitlist(demo, "ready", "--json", *ON).stdout)
    assert (
        kitlist(
            demo,
            "ballast",
            "add",
            "strip",
            "metal=stainless",
            "width=40mm",
            "thickness=1mm",
            "length=3.5m",
            "bag=Power",
        ).returncode
        == 0
    )
    assert kitlist(demo, "trip", "edit", "Dry", "ballast=strip").returncode == 0
    after = json.loads(kitlist(demo, "ready", "--json", *ON).stdout)
    assert after["bank"]["stuck_rod_a"] < before["bank"]["stuck_rod_a"]
    assert kitlist(demo, "ballast", "remove", "strip").returncode == 3
    assert "strip" in kitlist(demo, "ballast", "list").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("ballast", "add", "x"), "or what was measured"),
        (("ballast", "add", "x", "measured=70mohm", "width=20mm"), "all three, or none"),
        (("ballast", "add", "x", "metal=gold", "width=20mm", "thickness=1mm", "length=2m"), "one of stainless, mild"),
        (("vehicle", "edit", "Heron", "system=24V"), "start-batteries=pair"),
        (("vehicle", "edit", "Heron", "start-batteries=pair"), "system=24V"),
    ],
)
def test_what_does_not_hold_together_is_refused_with_how_to_write_it(
    demo: Path, words: tuple[str, ...], said: str
) -> None:
    done = kitlist(demo, *words)
    assert done.returncode == 3
    assert said in " ".join(done.stderr.split())


def test_a_24_v_vehicle_is_recorded_in_one_go(demo: Path) -> None:
    assert kitlist(demo, "vehicle", "edit", "Heron", "system=24V", "start-batteries=pair").returncode == 0
    said = kitlist(demo, "ready", *ON).stdout
    assert "1 starting battery is recorded, 2 by how they are joined" in " ".join(said.split())


def test_a_weld_is_kept_with_its_field_repair_and_volts_read_one_by_one_add_up(demo: Path) -> None:
    done = kitlist(
        demo, "weld", "add", "stilt spring hanger", "trip=Dry", "rods=5", "rod=general", "before=12.70+12.72+12.78",
        "after=37.6V", "after-rested=2h", "bank=heron-main,plover-main,plover-second", "welded-on=2027-05-10",
    )  # fmt: skip
    assert done.returncode == 0
    assert "5 taken off general rods." in done.stderr
    kept = json.loads(kitlist(demo, "weld", "show", "stilt", "--json").stdout)
    assert (kept["before_v"], kept["repair"], kept["trip"]) == (38.2, "stilt spring hanger", "Dry lake survey")
    assert json.loads(kitlist(demo, "mend", "show", "stilt", "--json").stdout)["part"] == "spring hanger"
    assert kitlist(demo, "undo").returncode == 0
    assert json.loads(kitlist(demo, "weld", "list", "--json").stdout or "[]") == []
