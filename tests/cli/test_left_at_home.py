"""A thing left at home on purpose: not there for that trip, there for the next one, and nobody buys it."""

from __future__ import annotations

import json
from pathlib import Path

from running import Done, kitlist

TRIP = "Dry lake survey"
ON = ("--on", "2027-05-05")


def gaps(store: Path, trip: str = TRIP) -> set[tuple[str, str]]:
    found = json.loads(kitlist("ready", trip, "--json", *ON, store=store).stdout)
    return {(gap["rule"], gap["subject"]) for gap in found["gaps"]}


def answer(store: Path, word: str) -> Done:
    return kitlist("check-off", TRIP, "--by", "Ada", word, store=store)


def test_what_is_left_at_home_is_not_there_on_that_trip_and_there_on_the_next(demo: Path) -> None:
    days = ("starts-on=2027-06-08", "ends-on=2027-06-09", "vehicles=Heron")
    kitlist("trip", "add", "Next one", *days, store=demo)
    before, next_before = gaps(demo), gaps(demo, "Next one")
    assert answer(demo, "powder extinguisher=home").returncode == 0
    assert ("extinguisher-missing", "extinguisher") in gaps(demo) - before
    assert not any(rule == "short-at-check-off" for rule, _ in gaps(demo) - before)
    assert gaps(demo, "Next one") == next_before


def test_it_stands_in_the_list_and_at_what_is_left_and_is_nothing_to_get(demo: Path) -> None:
    answer(demo, "chocks=h")
    shown = kitlist("tool", "list", store=demo).stdout
    assert any("chocks" in line and "left at home 20" in line for line in shown.splitlines())
    assert "chocks: left at home" in kitlist("check-off", TRIP, "--list", store=demo).stdout
    assert "chocks" not in kitlist("restock", TRIP, store=demo).stdout


def test_the_walk_has_a_key_for_it_and_undo_takes_it_back(demo: Path) -> None:
    done = kitlist("check-off", TRIP, "--by", "Ada", store=demo, typed="hq", terminal=True)
    assert "h left at home" in " ".join(done.stderr.split())
    assert "left at home." in done.stderr
    kitlist("undo", store=demo)
    assert "left at home" not in kitlist("check-off", TRIP, "--list", store=demo).stdout
