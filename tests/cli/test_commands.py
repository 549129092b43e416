"""The commands as a person types them, in real processes where the process matters."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from kitlist.base import resources
from running import kitlist

DEMO = resources.folder("seed_data") / "demo" / "kit.toml"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("made") / "kit.db"
    kitlist("start", store=path)
    kitlist("vehicle", "add", "Heron", store=path)
    kitlist("battery", "add", "heron-main", "vehicle=Heron", "chemistry=calcium", "c20=70Ah", store=path)
    return path


@pytest.fixture
def own(made: Path, tmp_path: Path) -> Path:
    """A store of one's own with a vehicle and a battery."""
    path = tmp_path / "kit.db"
    path.write_bytes(made.read_bytes())
    return path


def ready(store: Path, *more: str) -> tuple[int, dict[str, Any]]:
    done = kitlist("ready", "--json", "--on", "2027-05-05", *more, store=store)
    return done.returncode, json.loads(done.stdout)


def test_the_demo_is_not_ready_and_json_terminal_and_sheet_agree(demo: Path, tmp_path: Path) -> None:
    code, judged = ready(demo)
    assert (code, judged["verdict"], judged["exit_code"]) == (10, "not ready", 10)
    terminal = kitlist("ready", "--on", "2027-05-05", store=demo)
    assert terminal.returncode == 10
    out = tmp_path / "sheet.pdf"
    assert kitlist("print", "sheet", "--on", "2027-05-05", "--out", str(out), store=demo).returncode == 0
    plain = tmp_path / "sheet.txt"
    assert kitlist("print", "sheet", "--on", "2027-05-05", "--out", str(plain), store=demo).returncode == 0
    with pdfplumber.open(out) as pdf:
        sheet = " ".join(word for page in pdf.pages for word in page.extract_text().split())
    screen = " ".join(terminal.stdout.split())
    paper = " ".join(plain.read_text(encoding="utf-8").split())
    assert "NOT READY" in sheet
    assert "NOT READY" in screen
    for gap in judged["gaps"]:
        start = " ".join(gap["what"].split()[:6])
        assert start in screen, gap["rule"]
        assert start.replace(" -", " −") in paper.replace("\u00a0", " "), gap["rule"]
        words = re.findall(r"\w+", start)
        if gap["severity"] == "stop":  # its two columns interleave, and what does not fit of the rest is on the annex
            assert all(word in sheet for word in words), gap["rule"]
    assert screen.count("(kitlist why ") == len(judged["gaps"])
    for severity, count in judged["counts"].items():
        assert count == 0 or f"{count} {severity}" in screen
        assert f"{count} {severity}" in plain.read_text(encoding="utf-8")


def test_a_mended_kit_is_ready_with_gaps_and_then_ready(own: Path) -> None:
    from kitlist.rules.example import whole

    example = whole()
    path = own.with_name("whole.db")
    kitlist("start", store=path)
    toml = own.with_name("whole.toml")
    toml.write_text(as_toml(example.kit, example.trip), encoding="utf-8")
    assert kitlist("import", str(toml), store=path).returncode == 0
    done = kitlist("ready", "--on", example.on.isoformat(), store=path)
    assert (done.returncode, done.stdout.splitlines()[1]) == (0, "READY")
    kitlist("lead", "edit", "link", "count=2", store=path)
    assert kitlist("ready", "--on", example.on.isoformat(), store=path).returncode == 11


def as_toml(kit: Any, trip: Any) -> str:
    from dataclasses import fields

    from kitlist.kit import KINDS, PLURALS

    def value(v: Any) -> str:
        if isinstance(v, bool):
            return str(v).lower()
        if isinstance(v, int | float):
            return str(v)
        if isinstance(v, tuple):
            return "[" + ", ".join(value(x) for x in v) + "]"
        return f'"{v}"' if isinstance(v, str) else str(v)

    lines = []
    for kind in KINDS:
        for thing in (trip,) if kind == "trip" else getattr(kit, PLURALS[kind]):
            lines.append(f"[[{kind}]]")
            lines += [f"{f.name} = {value(v)}" for f in fields(thing) if (v := getattr(thing, f.name)) is not None]
    return "\n".join(lines)


def test_start_edit_volts_and_list_keep_what_was_typed(own: Path) -> None:
    done = kitlist("volts", "heron", "12.71", "--rested", "12h", "--temp", "40F", store=own)
    assert "Recorded heron-main: 12.71 V" in done.stderr
    assert kitlist("battery", "edit", "heron", "cranking-a=680", "cranking-standard=SAE", store=own).returncode == 0
    shown = json.loads(kitlist("battery", "show", "heron", "--json", store=own).stdout)
    assert (shown["c20_ah"], shown["cranking_a"], shown["cranking_standard"]) == (70, 680, "sae")
    listed = json.loads(kitlist("battery", "list", "--json", store=own).stdout)
    assert [b["name"] for b in listed] == ["heron-main"]


def test_the_walk_round_needs_a_terminal_and_says_what_to_type_instead(own: Path) -> None:
    done = kitlist("volts", store=own, typed="12.7\n")
    assert done.returncode == 2
    assert "kitlist volts BATTERY VOLTS" in done.stderr


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["battery", "show", "hreon-main"], 4, "Did you mean heron-main?"),
        (["battery", "add", "x", "vehicle=Heron", "c20=9000"], 3, "a number from 5 to 400 Ah"),
        (["battery", "add", "x", "vehicle=Heron", "colour=red"], 3, "a battery has no such field"),
        (["battery", "add", "x", "red"], 2, "is not FIELD=VALUE"),
        (["battery", "add", "heron-main", "vehicle=Heron"], 3, "already a battery"),
        (["battery", "edit", "heron-main"], 2, "nothing to change"),
        (["vehicle", "remove", "Heron"], 3, "still used by battery heron-main"),
        (["volts", "heron-main", "twelve"], 3, "a number from 0 to 20 V"),
        (["volts", "heron-main"], 2, "no volts given"),
        (["ready"], 4, "there is no trip yet"),
        (["ready", "--on", "soon"], 2, "'soon' is not a day"),
        (["why", "link"], 4, "link-without-spare, links-too-few"),
        (["import", "nowhere.toml"], 3, "cannot read nowhere.toml"),
        (["start"], 1, "already a file"),
        (["print", "card"], 4, "there is no trip yet"),
    ],
)
def test_wrong_input_gets_a_sentence_a_code_and_no_traceback(own: Path, words: list[str], code: int, said: str) -> None:
    done = kitlist(*words, store=own)
    assert done.returncode == code
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""


def test_without_a_store_it_says_how_to_make_one(tmp_path: Path) -> None:
    done = kitlist("battery", "list", store=tmp_path / "none.db")
    assert (done.returncode, "kitlist start" in done.stderr) == (1, True)


def test_an_empty_list_says_how_to_fill_it(own: Path) -> None:
    done = kitlist("rod", "list", store=own)
    assert (done.returncode, done.stdout) == (0, "")
    assert "kitlist rod add" in done.stderr


def test_the_demo_writes_both_papers_and_leaves_no_store(tmp_path: Path) -> None:
    done = kitlist("demo", str(tmp_path / "out"))
    assert (done.returncode, "invented" in done.stderr) == (0, True)
    assert {p.name for p in (tmp_path / "out").iterdir()} == {"sheet.pdf", "card.pdf"}
    assert not (tmp_path / "own").exists()


def test_the_card_stays_the_same_when_only_readings_change_and_is_numbered_anew_when_the_kit_does(
    own: Path, tmp_path: Path
) -> None:
    store = tmp_path / "demo.db"
    kitlist("start", store=store)
    kitlist("import", str(DEMO), store=store)

    def card() -> str:
        out = tmp_path / "card.txt"
        assert kitlist("print", "card", "--on", "2027-05-05", "--out", str(out), store=store).returncode == 0
        return out.read_text().splitlines()[-1]

    first = card()
    kitlist("volts", "heron-main", "12.55", "--rested", "12h", "--at", "2027-05-05T12:00", store=store)
    assert card() == first
    kitlist("trip", "edit", "Dry", "bank=plover-main,plover-second", store=store)
    second = card()
    assert second.split(" · ")[0] != first.split(" · ")[0]
    assert (first.split(" · ")[1], second.split(" · ")[1]) == ("rev 1", "rev 2")


def test_what_was_understood_is_shown_and_what_was_kept_as_typed_is_not(own: Path) -> None:
    done = kitlist(
        "battery", "edit", "heron", "cca=680", "c20=75Ah", "chemistry=lead calcium", "weight=40 lb", store=own
    )
    assert done.stderr.splitlines() == [
        "Changed battery heron-main.",
        "  cca=680: cranking 680 A by the SAE test",
        "  chemistry=lead calcium: calcium",
        "  weight=40 lb: mass 18.14 kg",
    ]


def test_a_rating_edited_with_the_test_in_its_words_takes_the_test_too(own: Path) -> None:
    kitlist("battery", "edit", "heron", "cca=680", store=own)
    assert "640 A by the EN test" in kitlist("battery", "edit", "heron", "cranking=640A (EN)", store=own).stderr
    shown = json.loads(kitlist("battery", "show", "heron", "--json", store=own).stdout)
    assert (shown["cranking_a"], shown["cranking_standard"]) == (640, "en")


def test_today_and_yesterday_are_days_of_this_machine_s_clock(own: Path) -> None:
    kitlist("trip", "add", "Dry", "starts-on=today", "ends-on=tomorrow", "vehicles=Heron", store=own)
    shown = json.loads(kitlist("trip", "show", "Dry", "--json", store=own).stdout)
    assert (date.fromisoformat(shown["ends_on"]) - date.fromisoformat(shown["starts_on"])).days == 1
    assert (
        "driven-at=yesterday 18:30: "
        in kitlist("vehicle", "edit", "Heron", "driven-at=yesterday 18:30", store=own).stderr
    )
    assert "write day and hour like" in kitlist("vehicle", "edit", "Heron", "driven-at=yesterday", store=own).stderr


def test_a_list_shows_whole_columns_and_says_which_it_leaves_out(own: Path) -> None:
    kitlist("battery", "edit", "heron", "cca=680", "terminals=post", "mass=18", "condition=sound", store=own)
    done = kitlist("battery", "list", store=own, env={"COLUMNS": "50"})
    assert all(len(line) <= 50 for line in done.stdout.splitlines())
    assert "…" not in done.stdout
    said = " ".join(done.stderr.split())
    assert "Left out at this width: place, cranking, cranking-standard, terminals, mass." in said
    assert "kitlist battery show NAME" in said
    assert all(len(line) <= 50 for line in done.stderr.splitlines())
    assert all(word in done.stdout for word in ("chemistry", "condition", "c20"))
    assert "Left out" not in kitlist("battery", "list", store=own, env={"COLUMNS": "200"}).stderr
