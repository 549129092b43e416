"""Recording readings: what was typed is said back with what it says of the charge; the walk round keeps what it has."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from terminal import Terminal

import running
from running import Done


def kitlist(*words: str, store: Path) -> Done:
    return running.kitlist(*words, store=store, env={"COLUMNS": "60"})


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("made") / "kit.db"
    kitlist("start", store=path)
    kitlist("vehicle", "add", "Heron", store=path)
    for name, place in (("heron-main", "start"), ("heron-second", "second")):
        kitlist("battery", "add", name, "vehicle=Heron", f"place={place}", "chemistry=flooded", store=path)
    return path


@pytest.fixture
def own(made: Path, tmp_path: Path) -> Path:
    path = tmp_path / "kit.db"
    path.write_bytes(made.read_bytes())
    return path


def readings(store: Path) -> list[tuple[str, float]]:
    told = json.loads(kitlist("reading", "list", "--json", store=store).stdout)
    return sorted((reading["battery"], reading["volts_v"]) for reading in told)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("12.71", "--rested", "12h", "--temp", "-4"), ("rested 12 h, at −4 °C", "Charged 100 %.")),
        (("1.27", "--rested", "12h"), ("1.27 V", "It is flat, or a cell is gone.")),
        (("14.4", "--rested", "12h"), ("14.4 V", "cannot be told", "half a volt above a full")),
        (("12.6",), ("12.6 V", "cannot be told: hours of rest not written down")),
        (("12.6", "--charging"), ("on charge", "the meter reads the charger")),
        (("12.4", "--quick-load"), ("after a short load", "Charged ")),
    ],
)
def test_a_reading_is_said_back_with_what_it_says_of_the_charge(
    own: Path, words: tuple[str, ...], said: tuple[str, ...]
) -> None:
    done = kitlist("volts", "heron-main", *words, store=own)
    assert done.returncode == 0
    for part in said:
        assert part in done.stderr


def test_a_reading_on_load_claims_nothing_about_the_charge(own: Path) -> None:
    done = kitlist("volts", "heron-main", "10.1", "--load", "180", store=own)
    assert "on load at 180 A" in done.stderr
    assert "harge" not in done.stderr


def test_the_walk_round_asks_again_for_what_it_cannot_take_and_keeps_what_it_has_when_it_is_stopped(own: Path) -> None:
    with Terminal("volts", store=own) as person:
        person.until("Rested how long")
        person.press("12h\n")
        person.until("Battery temperature")
        person.press("4\n")
        person.until("heron-main")
        person.press("twelve\n")
        person.until("must be a number")
        person.press("12.62\n")
        person.until("heron-second")
        person.press("\x03")
        person.until("1 of 2 batteries recorded")
        assert person.ended() == 0
    assert readings(own) == [("heron-main", 12.62)]


def test_a_message_names_the_word_that_was_typed(own: Path) -> None:
    assert "rested = 'long'" in kitlist("volts", "heron-main", "12.6", "--rested", "long", store=own).stderr
    told = kitlist("rod", "add", "tube", "designation=E6013", "diameter=3.2mm", "count=2", "opened-on=May", store=own)
    assert "opened-on = 'May'" in told.stderr


def test_an_area_without_a_unit_is_asked_for_since_4_may_be_a_gauge(own: Path) -> None:
    lead = ("use=link", "end-a=lug-m8", "end-b=lug-m8")
    told = kitlist("lead", "add", "link", *lead, "area=4", store=own)
    assert (told.returncode, "say the unit: 4 mm2 or 4 AWG" in told.stderr) == (3, True)
    assert kitlist("lead", "add", "link", *lead, "area=4 AWG", store=own).returncode == 0
    assert json.loads(kitlist("lead", "show", "link", "--json", store=own).stdout)["area_mm2"] == pytest.approx(
        21.15, abs=0.01
    )
    told = kitlist("lead", "edit", "link", "area=6", store=own)
    assert (told.returncode, "say the unit" in told.stderr) == (3, True)


def test_when_it_was_driven_needs_an_hour_and_a_day_to_come_is_asked_about(own: Path) -> None:
    bare = kitlist("vehicle", "edit", "Heron", "driven-at=2026-05-01", store=own)
    assert (bare.returncode, "must be a time like 2026-11-25T07:30" in bare.stderr) == (3, True)
    past = kitlist("vehicle", "edit", "Heron", "driven-at=2026-05-01T17:30", store=own)
    assert (past.returncode, "right?" in past.stderr) == (0, False)
    later = kitlist("vehicle", "edit", "Heron", "driven-at=2199-05-01T17:30", store=own)
    assert (later.returncode, "2199-05-01 17:30, after today: is the day right?" in later.stderr) == (0, True)


def test_a_typed_rest_that_the_drive_contradicts_counts_only_from_the_drive_and_is_asked_about(own: Path) -> None:
    kitlist("vehicle", "edit", "Heron", "driven-at=2026-05-01T01:00", store=own)
    soon = kitlist("volts", "heron-main", "12.7", "--rested", "12h", "--at", "2026-05-01T02:48", store=own).stderr
    assert "cannot be told: rested 1.8 h: under 2 h" in soon
    assert "Heron was driven until 2026-05-01 01:00: is the rest right, or that time?" in soon
    true = kitlist("volts", "heron-main", "12.7", "--rested", "12h", "--at", "2026-05-01T13:01", store=own).stderr
    assert ("Charged" in true, "driven" in true) == (True, False)
    before = kitlist("volts", "heron-main", "12.7", "--rested", "12h", "--at", "2026-04-30T20:00", store=own).stderr
    assert "It counts no more: Heron was driven since, until 2026-05-01 01:00." in before


def test_none_empties_a_list_too(own: Path) -> None:
    words = ("trip", "add", "Dry", "starts-on=2199-05-08", "ends-on=2199-05-09", "vehicles=Heron", "bank=heron-main")
    assert kitlist(*words, store=own).returncode == 0
    for field in ("bank", "repairs"):
        done = kitlist("trip", "edit", "Dry", f"{field}=none", store=own)
        assert done.returncode == 0, done.stderr
    shown = json.loads(kitlist("trip", "show", "Dry", "--json", store=own).stdout)
    assert (shown["bank"], shown["repairs"]) == ([], [])
