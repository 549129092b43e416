"""next, from the outside: an answer whatever there is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import running
from running import Done


def kitlist(*words: str, store: Path, columns: int = 60) -> Done:
    return running.kitlist(*words, store=store, env={"COLUMNS": str(columns)})


def test_alone_without_a_store_it_says_how_to_start(tmp_path: Path) -> None:
    done = kitlist(store=tmp_path / "none.db")
    assert (done.returncode, "> kitlist start" in done.stdout) == (0, True)
    assert not (tmp_path / "none.db").exists()


def test_alone_it_says_what_next_says(demo: Path) -> None:
    assert kitlist(store=demo).stdout == kitlist("next", store=demo).stdout


def test_an_empty_store_gets_its_first_step(tmp_path: Path) -> None:
    kitlist("start", store=tmp_path / "kit.db")
    assert "kitlist vehicle add" in kitlist(store=tmp_path / "kit.db").stdout


@pytest.mark.parametrize(
    ("on", "said"),
    [
        ("2027-04-15", "leaves in 23 days"),
        ("2027-05-07", "leaves in 1 day,"),
        ("2027-05-08", "day 1 of 9"),
        ("2027-05-16", "day 9 of 9"),
        ("2027-05-17", "ended 1 day ago"),
    ],
)
def test_every_day_of_a_trip_has_an_answer_in_ten_lines(demo: Path, on: str, said: str) -> None:
    done = kitlist("next", "--on", on, store=demo)
    assert done.returncode == 0
    assert said in done.stdout
    assert len(done.stdout.splitlines()) <= 10


def test_json_carries_what_the_screen_says(demo: Path) -> None:
    step = json.loads(kitlist("next", "--on", "2027-05-05", "--json", store=demo).stdout)
    assert (step["trip"], step["days_to_go"], step["verdict"]) == ("Dry lake survey", 3, "not ready")
    days = json.loads(kitlist("next", "--all", "--on", "2027-05-05", "--json", store=demo).stdout)
    assert [d["due_on"] for d in days] == sorted(d["due_on"] for d in days)


def test_a_command_that_it_names_exists(demo: Path) -> None:
    days = json.loads(kitlist("next", "--all", "--on", "2027-04-20", "--json", store=demo).stdout)
    words = {tuple(d["command"].split()[1:3]) if "print" in d["command"] else (d["command"].split()[1],)
             for d in days if d["command"]}  # fmt: skip
    for command in sorted(words):
        assert kitlist(*command, "--help", store=demo).returncode == 0, command


@pytest.fixture
def after(demo: Path, tmp_path: Path) -> Path:
    """The demo's store, of one's own, after four rods, some water and a torn glove."""
    path = tmp_path / "after.db"
    path.write_bytes(demo.read_bytes())
    words = ("general=4", "fire water=2L", "cutting=1", "welding gau=damaged")
    done = kitlist("used", *words, "--linked", "bank", "--by", "Ada", "--on", "2027-05-12", store=path)
    assert (done.returncode, "Recorded 4" in done.stderr) == (0, True)
    return path


def shown(kind: str, name: str, store: Path) -> dict[str, object]:
    found: dict[str, object] = json.loads(kitlist(kind, "show", name, "--json", store=store).stdout)
    return found


def test_what_was_used_goes_off_the_kit_and_comes_back_with_restock(demo: Path, after: Path) -> None:
    before = {"rods": shown("rod", "general", demo)["count"], "water": shown("tool", "fire water", demo)["volume_l"]}
    now = {"rods": shown("rod", "general", after)["count"], "water": shown("tool", "fire water", after)["volume_l"]}
    assert (before["rods"] - now["rods"], before["water"] - now["water"]) == (4, 2)  # type: ignore[operator]
    listed = json.loads(kitlist("restock", "--on", "2027-05-13", "--json", store=after).stdout)
    assert {(g["name"], g.get("pieces") or g.get("litres"), g["where"]) for g in listed["get"]} >= {
        ("general rods", 4, "welding supplier"),
        ("fire water", 2, "the tap"),
        ("cutting discs", 1, "hardware shop"),
    }
    assert [b["battery"] for b in listed["recharge"]] == ["heron-main", "plover-main", "plover-second"]
    kitlist("restock", "Dry", "--done", "--on", "2027-05-15", store=after)
    assert shown("rod", "general", after)["count"] == before["rods"]
    listed = json.loads(kitlist("restock", "--on", "2027-05-15", "--json", store=after).stdout)
    assert [g["name"] for g in listed["get"]] == ["welding gauntlets"]
    assert kitlist("restock", "Dry", "--done", "--on", "2027-05-15", store=after).returncode == 0
    assert shown("rod", "general", after)["count"] == before["rods"]


def test_use_before_the_trip_starts_is_recorded_and_asked_about(demo: Path, tmp_path: Path) -> None:
    path = tmp_path / "early.db"
    path.write_bytes(demo.read_bytes())
    done = kitlist("used", "Dry", "general=1", "--on", "2027-05-05", store=path)
    assert (done.returncode, "is it the right trip" in done.stderr) == (0, True)
    assert json.loads(kitlist("used", "Dry", "--json", store=path).stdout)["used"]


def test_damage_of_one_trip_is_a_gap_of_the_next(after: Path) -> None:
    kitlist("trip", "add", "Second", "starts-on=2027-07-01", "ends-on=2027-07-03", "vehicles=Heron", store=after)
    gaps = json.loads(kitlist("ready", "Second", "--on", "2027-06-20", "--json", store=after).stdout)["gaps"]
    assert "welding gauntlets" in {gap["subject"] for gap in gaps if gap["rule"] == "short-at-check-off"}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["general=4000"], "are recorded"),
        (["fire water=8"], "write 8L"),
        (["general=4", "cutting=x"], "a whole number from 1"),
        (["nothing=1"], "no stowed thing is called"),
        (["general=1", "--linked", "heron-main,none"], "no battery is called"),
    ],
)
def test_a_wrong_amount_records_nothing_at_all(demo: Path, words: list[str], said: str) -> None:
    before = shown("rod", "general", demo)["count"]
    done = kitlist("used", *words, "--on", "2027-05-12", store=demo)
    assert (done.returncode in (3, 4), said in done.stderr) == (True, True)
    assert shown("rod", "general", demo)["count"] == before
    assert json.loads(kitlist("used", "--json", "--on", "2027-05-12", store=demo).stdout)["used"] == []


def test_a_battery_shows_what_its_readings_say_over_time(demo: Path) -> None:
    shown_ = kitlist("battery", "show", "stilt", store=demo)
    assert "Rested volts: 12.58 on 2027-04-24, 12.21 on 2027-05-05." in " ".join(shown_.stdout.split())
    assert "what its kind should" in " ".join(shown_.stdout.split())
    assert json.loads(kitlist("battery", "show", "stilt", "--json", store=demo).stdout)["history"][0].startswith("Rest")


def test_a_battery_s_history_is_told_and_drawn(demo: Path, tmp_path: Path) -> None:
    chart = tmp_path / "stilt.svg"
    done = kitlist("battery", "history", "stilt", "--chart", str(chart), store=demo)
    assert (done.returncode, "Losing 29 % a week" in " ".join(done.stdout.split())) == (0, True)
    assert "<title>stilt-main: rested volts over time" in chart.read_text(encoding="utf-8")
    told = json.loads(kitlist("battery", "history", "stilt", "--json", store=demo).stdout)
    assert told["volts_v"] == [["2027-04-24", 12.58], ["2027-05-05", 12.21]]
    assert kitlist("battery", "history", "stilt", "--chart", str(tmp_path / "x.png"), store=demo).returncode == 2
    assert kitlist("battery", "history", "nobody", store=demo).returncode == 4
    kitlist("battery", "add", "loose", "place=loose", store=demo)
    assert "Too few" in kitlist("battery", "history", "loose", store=demo).stdout
