"""journal and undo as a person types them."""

from __future__ import annotations

import json
from pathlib import Path

from running import kitlist


def test_the_last_command_is_taken_back_as_a_whole_again_and_again(demo: Path) -> None:
    words = ("used", "Dry lake survey", "general rods=2", "chocks=1", "--on", "2027-05-09")
    assert kitlist("--by", "Ada", *words, store=demo).returncode == 0
    assert kitlist("volts", "heron-main", "12.6", "--at", "2027-05-09T07:00", store=demo, env=BY).returncode in (0, 3)
    entries = json.loads(kitlist("journal", "--json", store=demo).stdout)
    used = next(e for e in entries if "used" in e["words"])
    assert used["who"] == "Ada"
    assert any(line.startswith("rod general rods: count") for line in used["changes"])
    for _ in range(entries[0]["number"] - used["number"] + 1):
        done = kitlist("undo", store=demo)
    assert done.stderr.splitlines() == [
        f"Took back used 'Dry lake survey' 'general rods=2' chocks=1 --on 2027-05-09 "
        f"({used['number']}, {used['at'][:16]}).",
        f"To have it again: kitlist undo {entries[0]['number'] * 2 - used['number'] + 1}",
    ]
    shown = kitlist("journal", "general rods", store=demo).stdout
    assert "takes back" in shown
    assert "[taken back by" in " ".join(shown.split())


BY = {"KITLIST_BY": "Bo"}


def test_who_gave_a_command_comes_from_the_environment_too(demo: Path) -> None:
    kitlist("battery", "edit", "heron-main", "condition=cracked", store=demo, env=BY)
    (entry, *_) = json.loads(kitlist("journal", "heron-main", "--json", store=demo).stdout)
    assert (entry["who"], entry["words"]) == ("Bo", "battery edit heron-main condition=cracked")
    assert entry["changes"] == ["battery heron-main: condition sound -> cracked"]


def test_a_command_that_something_stands_on_is_refused_with_what_to_take_back_first(demo: Path) -> None:
    kitlist("battery", "edit", "heron-main", "condition=cracked", store=demo)
    kitlist("battery", "edit", "heron-main", "condition=swollen", store=demo)
    first, second = (e["number"] for e in reversed(json.loads(kitlist("journal", "--json", store=demo).stdout)[:2]))
    done = kitlist("undo", str(first), store=demo)
    assert done.returncode == 3
    assert f"Take that back first: kitlist undo {second}" in done.stderr
    assert kitlist("undo", "999", store=demo).returncode == 4
