"""Going through the bags at a real terminal: keys, undo, killed at any key, and answers from the paper."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from terminal import Terminal

import running
from running import Done

THINGS = (
    ("bag", "add", "Red bag", "place=left locker", "walk-order=1"),
    ("bag", "add", "Blue bag", "walk-order=2"),
    ("gear", "add", "helmet", "what=helmet", "shade=11", "bag=Red bag"),
    ("gear", "add", "masks", "what=mask", "count=4", "bag=Blue bag"),
    ("tool", "add", "shovel", "what=shovel", "bag=Blue bag"),
    ("tool", "add", "extinguisher", "what=extinguisher", "agent=powder", "amount=2kg", "bag=Red bag"),
    ("item", "add", "fan belt", "count=1"),
    ("vehicle", "add", "Heron"),
    ("trip", "add", "Dry lake", "starts-on=2030-05-08", "ends-on=2030-05-16", "vehicles=Heron"),
)
ORDER = ["helmet", "extinguisher", "masks", "shovel", "fan belt"]  # by bag in walking order, what has no bag last


def kitlist(*words: str, store: Path) -> Done:
    return running.kitlist(*words, store=store, env={"COLUMNS": "60"})


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("made") / "kit.db"
    kitlist("start", store=path)
    for words in THINGS:
        assert kitlist(*words, store=path).returncode == 0, words
    return path


@pytest.fixture
def own(made: Path, tmp_path: Path) -> Path:
    path = tmp_path / "kit.db"
    path.write_bytes(made.read_bytes())
    return path


def asked(number: int) -> str:
    return rf"{number} of 5: {ORDER[number - 1]}[^\n]*\n"


def answers(store: Path) -> dict[str, tuple[str, int] | None]:
    told = json.loads(kitlist("check-off", "--json", store=store).stdout)
    return {line["name"]: (line["answer"], line["count"]) if line["answer"] else None for line in told["lines"]}


def test_every_thing_is_asked_in_walking_order_and_every_answer_is_kept(own: Path) -> None:
    with Terminal("check-off", "Dry", "--by", "Ada", store=own) as person:
        read = person.until(asked(1))
        assert "Bag: Red bag, left locker. 2 of 2 left in it." in read
        for number, keys in enumerate(("t", "t", "3\r", "m"), start=1):
            person.press(keys)
            person.until(asked(number + 1))
        person.press("d")
        read = person.until("Everything was looked at")
        assert person.ended() == 0
    assert answers(own) == {
        "helmet": ("there", 1),
        "extinguisher": ("there", 1),
        "masks": ("counted", 3),
        "shovel": ("missing", 0),
        "fan belt": ("damaged", 0),
    }
    assert all(len(line) <= 60 for line in read.splitlines() if "kitlist" not in line)


def test_the_gap_of_an_answer_is_told_before_the_next_thing_is_asked(own: Path) -> None:
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(1))
        person.press("t")
        person.until(asked(2))
        person.press("m")
        read = person.until(asked(3))
    assert "No extinguisher" in " ".join(read.split())
    assert "FIX: extinguisher: missing, noted by Ada on" in " ".join(read.split())


@pytest.mark.parametrize("after", range(5))
def test_killed_after_any_answer_it_goes_on_at_the_next_thing(own: Path, after: int) -> None:
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(1))
        for number in range(1, after + 1):
            person.press("t")
            person.until(asked(number + 1) if number < 5 else "Everything")
        person.kill()
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(after + 1))
        assert person.seen == ""
    assert [name for name, answer in answers(own).items() if answer] == ORDER[:after]


def test_killed_in_the_moment_of_a_key_the_answer_is_there_whole_or_not_at_all(own: Path) -> None:
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(1))
        person.press("tt1")  # the third is a count that is not ended yet
        person.kill()
    kept = [name for name, answer in answers(own).items() if answer]
    assert kept == ORDER[: len(kept)]
    assert len(kept) <= 2
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(len(kept) + 1))


def test_undo_asks_again_and_a_number_can_be_rubbed_out(own: Path) -> None:
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(1))
        person.press("m")
        person.until(asked(2))
        person.press("u")
        person.until("Taken back: helmet, missing")
        person.until(asked(1))
        person.press("7\x7ft")
        person.until(asked(2))
        person.press("q")
        person.until("goes on")
    assert answers(own)["helmet"] == ("there", 1)


def test_what_is_skipped_is_left_and_l_says_so(own: Path) -> None:
    with Terminal("check-off", "--by", "Ada", store=own) as person:
        person.until(asked(1))
        person.press("s")
        person.until(asked(2))
        person.press("l")
        assert "Left in Red bag: helmet, extinguisher." in person.until("goes on")
        person.press("\x03")
        assert "stop" in person.until("0 of 5 looked at")


def test_without_by_it_asks_who_and_offers_the_last_one(own: Path) -> None:
    kitlist("check-off", "--by", "Ada Ay", "helmet=there", store=own)
    with Terminal("check-off", store=own) as person:
        person.until(re.escape("Who checks [Ada Ay]: "))
        person.press("\r")
        person.until(asked(2))
        person.press("t")
        person.until(asked(3))
    told = json.loads(kitlist("check-off", "--json", store=own).stdout)
    assert [line["checked_by"] for line in told["lines"][:2]] == ["Ada Ay", "Ada Ay"]


def test_answers_from_the_paper_go_by_the_sheet_they_stand_on(own: Path, tmp_path: Path) -> None:
    paper = tmp_path / "sheet.txt"
    assert kitlist("print", "sheet", "--out", str(paper), store=own).returncode == 0
    marks = re.findall(r"\b[0-9a-f]{8}\b", paper.read_text(encoding="utf-8").splitlines()[-1])
    kitlist(
        "gear", "add", "apron", "what=apron", "bag=Red bag", store=own
    )  # every number after it moves, not the paper's
    done = kitlist("check-off", "--sheet", marks[0], "--by", "Ada", "1-2=there", "3=2", "4=m", store=own)
    assert (done.returncode, "Kept 4 answers" in done.stderr) == (0, True)
    found = answers(own)
    assert (found["extinguisher"], found["masks"], found["shovel"]) == (("there", 1), ("counted", 2), ("missing", 0))
    assert found["apron"] is None


def test_numbers_without_a_sheet_are_told_which_sheet_to_name_or_to_answer_by_name(own: Path, tmp_path: Path) -> None:
    none = kitlist("check-off", "--by", "Ada", "1-2=there", store=own).stderr
    assert 'No sheet of this trip was printed yet: answer by name: "helmet=there"' in none
    paper = tmp_path / "sheet.txt"
    kitlist("print", "sheet", "--out", str(paper), store=own)
    (mark,) = re.findall(r"\b[0-9a-f]{8}\b", paper.read_text(encoding="utf-8").splitlines()[-1])[:1]
    told = kitlist("check-off", "--by", "Ada", "1-2=there", store=own).stderr
    assert f"1-2=there: a number needs the sheet it stands on: --sheet {mark}" in told


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["--sheet", "00000000", "--by", "Ada", "1=there"], 4, "no sheet printed here has the hash"),
        (["--by", "Ada", "1=there"], 3, "a number needs the sheet"),
        (["--by", "Ada", "helmet=perhaps"], 3, "the answer is there, missing, damaged, home (left there) or a number"),
        (["--by", "Ada", "hlmet=there"], 4, "Did you mean helmet?"),
        (["helmet=there"], 2, "who checked is not said"),
        ([], 2, "no terminal to ask at"),
    ],
)
def test_wrong_answers_are_refused_whole_with_a_sentence(own: Path, words: list[str], code: int, said: str) -> None:
    done = kitlist("check-off", *words, store=own)
    assert (done.returncode, said in done.stderr) == (code, True)
    assert not any(answers(own).values())


def test_a_wrong_word_among_right_ones_keeps_none_of_them(own: Path, tmp_path: Path) -> None:
    paper = tmp_path / "sheet.txt"
    kitlist("print", "sheet", "--out", str(paper), store=own)
    (mark,) = re.findall(r"\b[0-9a-f]{8}\b", paper.read_text(encoding="utf-8").splitlines()[-1])[:1]
    done = kitlist("check-off", "--sheet", mark, "--by", "Ada", "1=there", "9=there", "2=x", "1=missing", store=own)
    assert done.returncode == 3
    assert "numbers 1 to 5" in done.stderr
    assert "answered twice" in done.stderr
    assert not any(answers(own).values())


def test_what_was_short_stays_short_on_the_next_trip_until_it_is_put_right(own: Path) -> None:
    kitlist("check-off", "Dry", "--by", "Ada", "shovel=missing", "masks=2", store=own)
    kitlist("trip", "add", "Second", "starts-on=2030-07-01", "ends-on=2030-07-03", "vehicles=Heron", store=own)

    def short(*words: str) -> set[str]:
        if words:
            assert kitlist(*words, store=own).returncode == 0
        gaps = json.loads(kitlist("ready", "Second", "--json", store=own).stdout)["gaps"]
        return {gap["subject"] for gap in gaps if gap["rule"] == "short-at-check-off"}

    assert short() == {"shovel", "masks"}
    assert short("check-off", "Second", "--again", "--list") == {"shovel", "masks"}
    assert short("check-off", "Second", "--by", "Ada", "shovel=there") == {"masks"}
    assert short("gear", "edit", "masks", "count=2") == set()


def test_a_renamed_thing_and_a_renamed_trip_keep_their_answers(own: Path) -> None:
    kitlist("check-off", "Dry", "--by", "Ada", "shovel=missing", store=own)
    kitlist("tool", "edit", "shovel", "name=long shovel", store=own)
    kitlist("trip", "edit", "Dry", "name=Wet lake", store=own)
    assert answers(own)["long shovel"] == ("missing", 0)


def test_again_asks_everything_anew(own: Path) -> None:
    kitlist("check-off", "--by", "Ada", "helmet=there", store=own)
    with Terminal("check-off", "--again", "--by", "Ada", store=own) as person:
        person.until(asked(1))
    assert not any(answers(own).values())
