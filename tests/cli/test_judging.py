from __future__ import annotations

import json
from pathlib import Path

import pytest

import running
from running import Done

ON = ("--on", "2027-05-05")


def kitlist(store: Path, *words: str) -> Done:
    return running.kitlist(*words, store=store)


def ready(store: Path) -> dict[str, object]:
    return json.loads(kitlist(store, "ready", *ON, "--json").stdout)


def accept(store: Path, rule: str, *more: str) -> Done:
    given = ("--by", "Ada", "--reason", "the second party brings it", "--until", "2027-05-16")
    return kitlist(store, "accept", rule, "--for", "Dry", *given, *ON, *more)


def test_a_gap_is_accepted_shown_on_screen_and_paper_and_taken_back(demo: Path, tmp_path: Path) -> None:
    before = ready(demo)
    assert "Ada accepts link-without-spare (links)" in accept(demo, "link-without").stderr
    now = ready(demo)
    assert [gap["rule"] for gap in now["accepted"]] == ["link-without-spare"]
    assert now["counts"]["fix"] == before["counts"]["fix"] - 1
    words = "Accepted by Ada until 2027-05-16: the second party brings it"
    assert words in " ".join(kitlist(demo, "ready", *ON).stdout.split())
    paper = tmp_path / "sheet.txt"
    assert kitlist(demo, "print", "sheet", *ON, "--out", str(paper)).returncode == 0
    assert words in " ".join(paper.read_text(encoding="utf-8").split())
    assert "accepted" in kitlist(demo, "rules", *ON).stdout
    assert kitlist(demo, "accept", "link-without", "--take-back", *ON).returncode == 0
    assert ready(demo)["counts"] == before["counts"]


def test_what_can_never_be_accepted_what_fires_nothing_and_an_end_that_is_missing_are_refused(demo: Path) -> None:
    assert accept(demo, "repair-never").returncode == 3
    assert accept(demo, "fuse-missing").returncode == 4
    done = kitlist(demo, "accept", "link-without-spare", "--by", "Ada", "--reason", "x", *ON)
    assert (done.returncode, "--until 2027-05-16" in done.stderr) == (2, True)


def test_rules_say_their_state_of_the_next_trip(demo: Path) -> None:
    listed = json.loads(kitlist(demo, "rules", *ON, "--json").stdout)
    states = {rule["name"]: rule["state"] for rule in listed}
    assert (states["repair-never"], states["fire-ban"]) == ("fires", "quiet")
    assert {gap["rule"] for gap in ready(demo)["gaps"]} == {name for name, state in states.items() if state == "fires"}


def test_rules_and_why_work_without_a_store(tmp_path: Path) -> None:
    none = tmp_path / "none.db"
    assert "fire-ban" in kitlist(none, "rules").stdout
    assert "In force: water_least_l = 9 L" in kitlist(none, "why", "fire-water").stdout


def test_an_owner_s_rulebook_is_named_on_the_command_line_shown_and_checked(demo: Path, tmp_path: Path) -> None:
    own = tmp_path / "mine.toml"
    own.write_text("spare_links = 0\n", encoding="utf-8")
    done = kitlist(demo, "--rulebook", str(own), "ready", *ON)
    assert "link-without-spare" not in done.stdout
    assert "Rulebook: spare_links: 1 links -> 0 links" in done.stdout
    paper = tmp_path / "sheet.txt"
    kitlist(demo, "--rulebook", str(own), "print", "sheet", *ON, "--out", str(paper))
    assert "spare_links: 1 links -> 0 links" in " ".join(paper.read_text(encoding="utf-8").split())
    own.write_text("spare_links = -1\n", encoding="utf-8")
    done = kitlist(demo, "--rulebook", str(own), "ready", *ON)
    assert done.returncode == 3
    assert "mine.toml:1: spare_links = -1: must be a number from 0 to 5 links" in done.stderr


def test_the_demo_shows_a_dozen_interesting_gaps_and_a_circuit_that_joins(demo: Path) -> None:
    judged = ready(demo)
    assert judged["verdict"] == "not ready"
    assert 12 <= len(judged["gaps"]) <= 18
    assert "circuit-does-not-join" not in {gap["rule"] for gap in judged["gaps"]}


def test_an_own_item_is_kept_and_missed(demo: Path) -> None:
    assert kitlist(demo, "item", "add", "fan belt", "must-carry=2", "count=1", "bag=Tool roll").returncode == 0
    (gap,) = [gap for gap in ready(demo)["gaps"] if gap["rule"] == "own-item-missing"]
    assert (gap["measured"], gap["required"], gap["what"]) == (1, 2, "1 of 2 fan belt packed in Tool roll")


@pytest.fixture
def new(tmp_path: Path) -> Path:
    """A new kit: two vehicles, two batteries, the starter kit uncounted, a trip."""
    store = tmp_path / "new.db"
    for words in (
        ("start", "--starter"),
        ("vehicle", "add", "Heron"),
        ("battery", "add", "heron-main", "vehicle=Heron"),
        ("trip", "add", "Dry", "starts-on=2027-05-08", "ends-on=2027-05-16", "vehicles=Heron"),
    ):
        assert kitlist(store, *words).returncode == 0
    return store


def test_the_first_judgement_of_a_new_kit_is_a_page_by_what_to_do_with_every_stop_named(new: Path) -> None:
    done = running.kitlist("ready", *ON, store=new, env={"COLUMNS": "80"})
    judged = ready(new)
    assert done.returncode == 10
    assert len(done.stdout.splitlines()) <= 66
    assert all(len(line) <= 80 for line in done.stdout.splitlines())
    shown = " ".join(done.stdout.split())
    stops = [gap for gap in judged["gaps"] if gap["severity"] == "stop"]
    assert all(gap["what"].replace("-", "") in shown.replace("-", "") for gap in stops)
    assert all(gap["subject"] in shown for gap in judged["gaps"])
    assert "> kitlist count" in shown
    titles = ("Read, with the meter:", "Ask:", "Pack it, or get it:")
    assert all(title in shown for title in titles)


def test_all_shows_every_gap_by_itself_with_what_to_type(new: Path) -> None:
    shown = kitlist(new, "ready", *ON, "--all").stdout
    assert shown.count("(kitlist why ") == len(ready(new)["gaps"])


def test_a_judgement_of_few_gaps_is_shown_whole(demo: Path) -> None:
    assert kitlist(demo, "ready", *ON).stdout == kitlist(demo, "ready", *ON, "--all").stdout


def test_one_subject_of_a_rule_is_accepted_and_taken_back_alone(demo: Path) -> None:
    def subjects() -> list[str]:
        gaps = json.loads(kitlist(demo, "ready", *ON, "--json").stdout)["gaps"]
        return [gap["subject"] for gap in gaps if gap["rule"] == "repair-without-rod"]

    before = subjects()
    assert len(before) > 1
    assert accept(demo, "repair-without-rod", "--subject", before[0]).returncode == 0
    assert subjects() == before[1:]
    assert accept(demo, "repair-without-rod", "--subject", "no such").returncode == 4
    how = ("repair-without-rod", "--for", "Dry", *ON, "--subject", before[0])
    assert kitlist(demo, "accept", *how, "--take-back").returncode == 0
    assert subjects() == before
