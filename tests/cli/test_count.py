"""Counting and finding: one key a thing at a terminal, NAME=COUNT without one, and where a thing lies."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from terminal import Terminal

import running
from kitlist.kit import Kit
from kitlist.store import Store
from kitlist.store.snapshot import snapshot
from running import Done


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("made") / "kit.db"
    running.kitlist("start", "--starter", store=path)
    return path


@pytest.fixture
def own(made: Path, tmp_path: Path) -> Path:
    path = tmp_path / "kit.db"
    path.write_bytes(made.read_bytes())
    return path


def kitlist(*words: str, store: Path, keys: str | None = None) -> Done:
    """A command; with `keys`, at a terminal where somebody presses them."""
    return running.kitlist(*words, store=store, typed=keys or "", terminal=keys is not None, env={"COLUMNS": "60"})


def kit(store: Path) -> Kit:
    return snapshot(Store(store))


def tools(store: Path) -> dict[str, int]:
    return {tool.name: tool.count for tool in kit(store).tools}


def test_the_walk_asks_bag_by_bag_for_what_stands_at_nothing_and_keeps_each_answer(own: Path) -> None:
    done = kitlist("count", "Tool roll", store=own, keys="t4\nnsq")
    assert done.stdout == "3 of 7 things counted.\n"
    assert "\nTool roll\n" in done.stderr
    counts = tools(own)
    assert (counts["chipping hammer"], counts["chocks"], counts["file"]) == (1, 4, 0)
    assert all(len(line) <= 60 for line in done.stderr.splitlines())


def test_there_means_the_usual_number_which_stands_beside_the_question(own: Path) -> None:
    done = kitlist("count", "gear", store=own, keys="tttt\ntt\n")
    assert "fume masks, t = 4:" in done.stderr
    assert {gear.name: gear.count for gear in kit(own).gear} == {
        "fume masks": 4,
        "jacket": 1,
        "safety glasses": 2,
        "spare filter": 2,
        "welding gauntlets": 1,
        "welding helmet": 1,
    }


def test_what_stands_on_a_thing_is_asked_for_and_never_filled_in(own: Path) -> None:
    done = kitlist("count", "gear", store=own, keys="ttttwet\n11\ntt\n")
    assert "shade number on it" in done.stderr
    assert "shade number on it: 'wet'" in " ".join(done.stderr.split())
    shades = {gear.name: gear.shade for gear in kit(own).gear}
    assert (shades["spare filter"], shades["welding helmet"]) == (11, None)
    assert all(gear.sound is None and gear.expires_on is None and gear.protection == "" for gear in kit(own).gear)


def test_with_two_people_a_helmet_is_counted_by_its_number_and_glasses_by_the_people(own: Path) -> None:
    running.kitlist("vehicle", "add", "Heron", store=own)
    days = ("starts-on=2099-05-08", "ends-on=2099-05-09")
    running.kitlist("trip", "add", "Dry lake", *days, "vehicles=Heron", "people=3", store=own)
    done = kitlist("count", "gear", store=own, keys="tttt\ntt2\n\n")
    said = " ".join(done.stderr.split())
    assert "3 people go: one each 3 of 6: safety glasses, t = 3:" in said
    assert "3 people go: one each for who sees the arc 6 of 6: welding helmet, a number:" in said
    counts = {gear.name: gear.count for gear in kit(own).gear}
    assert (counts["safety glasses"], counts["welding helmet"]) == (3, 2)


def test_a_rod_or_a_lead_has_no_usual_number(own: Path) -> None:
    done = kitlist("count", "rods", store=own, keys="t28\n")
    assert "general rods, a number:" in done.stderr
    assert [rod.count for rod in kit(own).rods] == [28]


def test_back_takes_the_last_count_back_and_asks_again(own: Path) -> None:
    kitlist("count", "Tool roll", store=own, keys="9\nutq")
    assert tools(own)["chipping hammer"] == 1


def test_without_a_terminal_it_lists_and_takes_counts_by_name_all_or_none(own: Path) -> None:
    assert "Tool roll: chocks = 0" in kitlist("count", store=own).stdout
    assert {row["count"] for row in json.loads(kitlist("count", "--json", store=own).stdout)} == {0}
    done = kitlist("count", "chocks=4", "shovel=x", store=own)
    assert (done.returncode, tools(own)["chocks"]) == (3, 0)
    assert kitlist("count", "chocks=4", "shov=1", store=own).returncode == 0
    assert (tools(own)["chocks"], tools(own)["shovel"]) == (4, 1)
    assert "chocks" not in kitlist("count", store=own).stdout
    assert "chocks = 4" in kitlist("count", "--all", store=own).stdout
    assert kitlist("count", "nothing", store=own).returncode == 4


def test_a_count_is_kept_before_the_next_is_asked_at_a_real_terminal(own: Path) -> None:
    with Terminal("count", "Tool roll", store=own) as person:
        person.until("chipping hammer")
        person.press("t")
        person.until("chocks")
        person.kill()
    assert tools(own)["chipping hammer"] == 1


def test_a_thing_is_found_by_a_word_of_it_with_where_it_lies(own: Path) -> None:
    kitlist("bag", "edit", "Fire", "place=rear door", store=own)
    kitlist("tool", "edit", "shovel", "note=folding, blue", store=own)
    done = kitlist("find", "SHOV", store=own)
    assert done.stdout.splitlines()[1].split() == ["tool", "shovel", "Fire", "shelf,", "rear", "door"]
    assert "note: folding, blue" in running.kitlist("find", "blue", store=own).stdout
    assert json.loads(kitlist("find", "door", "--json", store=own).stdout)[0]["name"] == "Fire shelf"
    assert kitlist("find", "elephant", store=own).returncode == 4
