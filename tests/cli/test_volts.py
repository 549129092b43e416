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


def person(*answers: str, store: Path) -> Done:
    """Somebody who walks round with a meter and gives these answers."""
    typed = "".join(f"{answer}\n" for answer in answers)
    return running.kitlist("volts", store=store, typed=typed, terminal=True, env={"COLUMNS": "60"})


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
        (("12.62", "--rested", "12h", "--temp", "-4"), ("rested 12 h, at −4 °C", "100 %.")),
        (("12.71", "--rested", "12h", "--temp", "-4"), ("cannot be told", "surface charge")),
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


def test_the_walk_checks_rest_and_temperature_when_they_are_given(own: Path) -> None:
    done = person("12 parsecs", "12h", "72", "72F", "12.74", "12.70", store=own)
    assert "'12 parsecs' is not a number" in " ".join(done.stderr.split())
    assert "72 °C is hotter than a battery stands" in " ".join(done.stderr.split())
    kept = json.loads(kitlist("reading", "list", "--json", store=own).stdout)
    assert {(r["volts_v"], r["rested_h"], r["battery_temp_c"]) for r in kept} == {(12.74, 12, 22.2), (12.7, 12, 22.2)}
    assert "2 of 2 batteries recorded." in done.stdout


def test_one_battery_may_have_a_rest_and_a_temperature_of_its_own(own: Path) -> None:
    person("12h", "4", "12,74", "12.70 3h 20C", store=own)
    kept = {r["battery"]: r for r in json.loads(kitlist("reading", "list", "--json", store=own).stdout)}
    assert (kept["heron-main"]["volts_v"], kept["heron-main"]["rested_h"]) == (12.74, 12)
    assert (kept["heron-second"]["rested_h"], kept["heron-second"]["battery_temp_c"]) == (3, 20)


def test_a_slip_of_a_tenth_is_asked_about_and_the_right_volts_are_kept(own: Path) -> None:
    done = person("12h", "4", "1.274", "n", "12.74", "stop", store=own)
    assert "1.274 V: is it 12.74 V?" in " ".join(done.stderr.split())
    assert readings(own) == [("heron-main", 12.74)]


def test_what_is_asked_about_and_is_so_is_kept_as_it_is(own: Path) -> None:
    person("12h", "4", "1.274", "y", "stop", store=own)
    assert readings(own) == [("heron-main", 1.274)]


def test_a_battery_that_reads_like_the_other_one_is_asked_about(own: Path) -> None:
    for battery, volts in (("heron-main", "12.74"), ("heron-second", "12.21")):
        kitlist("volts", battery, volts, "--at", "yesterday 07:00", store=own)
    done = person("12h", "4", "12.22", "n", "12.73", "12.20", store=own)
    assert "heron-second read 12.21 V: is it the right battery?" in " ".join(done.stderr.split())
    assert sorted(v for _, v in readings(own)) == [12.2, 12.21, 12.73, 12.74]


def test_back_asks_again_and_corrects_what_was_kept(own: Path) -> None:
    done = person("12h", "4", "12.60", "<", "12.66", "12.70", store=own)
    assert "volts (12.6):" in done.stderr
    assert readings(own) == [("heron-main", 12.66), ("heron-second", 12.7)]


def test_a_slip_on_the_command_line_is_kept_and_asked_about(own: Path) -> None:
    done = kitlist("volts", "heron-main", "1.274", "--rested", "12h", store=own)
    assert (done.returncode, "is it 12.74 V?" in done.stderr) == (0, True)
    assert "kitlist reading edit heron-main last" in " ".join(done.stderr.split())


def test_the_last_reading_is_corrected_or_removed_without_its_seconds(own: Path) -> None:
    kitlist("volts", "heron-main", "1.274", "--at", "2026-05-01T07:30:27", store=own)
    done = kitlist("reading", "edit", "heron-main", "last", "volts=12.74", store=own)
    assert (done.returncode, "12.74 V" in done.stderr, readings(own)) == (0, True, [("heron-main", 12.74)])
    assert kitlist("reading", "edit", "heron-main", "last", "volts=300", store=own).returncode == 3
    assert kitlist("reading", "edit", "heron-main", "last", store=own).returncode == 2
    done = kitlist("reading", "remove", "heron-main", "last", store=own)
    assert "kitlist reading restore heron-main 2026-05-01T07:30 brings it back" in done.stderr
    assert readings(own) == []
    assert kitlist("reading", "restore", "heron-main", "2026-05-01T07:30", store=own).returncode == 0
    assert kitlist("reading", "edit", "heron-main", "last", "taken-at=2026-05-01 08:00", store=own).returncode == 0
    assert kitlist("reading", "edit", "heron-main", "last", "taken-at=2199-05-01 08:00", store=own).returncode == 3


def test_when_it_was_read_may_be_said_as_people_say_it(own: Path) -> None:
    assert kitlist("volts", "heron-main", "12.7", "--at", "yesterday 18:00", store=own).returncode == 0
    (kept,) = json.loads(kitlist("reading", "list", "--json", store=own).stdout)
    assert kept["taken_at"].endswith("18:00:00")


def test_millivolts_are_answered_with_how_to_write_volts_and_a_dead_reading_is_asked_about(demo: Path) -> None:
    done = running.kitlist("volts", "heron-main", "12.7 mV", store=demo)
    assert (done.returncode, "write 12.7V for volts" in done.stderr) == (3, True)
    assert running.kitlist("volts", "heron-main", "12700 mV", "--rested", "12h", store=demo).returncode in (0, 3)
    asked = running.kitlist("volts", store=demo, typed="12h\n9\n3.2\nn\n12.3\nstop\n", terminal=True)
    assert "was the meter on both posts, and is a digit missing?" in " ".join(asked.stderr.split())
