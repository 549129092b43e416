"""Terminals without our signs, full devices, names of hundreds of characters: a sentence and a code, never a fright."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from kitlist.store.importing import import_file
from new_store import new_store
from running import kitlist

LONG = "x" * 300


def process(store: Path, *words: str, **more: object) -> subprocess.CompletedProcess[bytes]:
    environment = os.environ | {"PYTHONIOENCODING": str(more.pop("encoding", "utf-8"))}
    command = [sys.executable, "-m", "kitlist", "--store", str(store), *words]
    options = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE} | more
    return subprocess.run(command, env=environment, cwd=store.parent, check=False, timeout=60, **options)  # type: ignore[call-overload,no-any-return]


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "cp437"])
def test_an_encoding_without_our_signs_shows_the_nearest_and_keeps_the_code(demo: Path, encoding: str) -> None:
    plain = process(demo, "ready", "--on", "2027-05-05")
    done = process(demo, "ready", "--on", "2027-05-05", encoding=encoding)
    assert (done.returncode, done.stderr) == (plain.returncode, plain.stderr)
    shown = done.stdout.decode(encoding)
    assert "?" not in shown.replace("?", "", plain.stdout.decode().count("?"))
    assert "NOT READY" in shown


def test_what_cannot_be_written_out_is_an_error_and_a_sentence(demo: Path) -> None:
    with open("/dev/full", "wb") as full:
        done = process(demo, "battery", "list", stdout=full)
    assert done.returncode == 1
    assert "No space left on device" in done.stderr.decode()
    assert "should not have happened" not in done.stderr.decode()


@pytest.mark.parametrize(
    "words",
    [
        ("vehicle", "add", LONG), ("vehicle", "show", LONG), ("import", f"{LONG}.toml"), ("export", f"{LONG}.json"),
        ("backup", f"{LONG}.db"), ("recover", f"{LONG}.db"), ("print", "sheet", "--out", f"{LONG}.txt"), (LONG,),
        ("import", "pipe.toml"), ("import", "pipe.json"), ("--rulebook", "pipe.toml", "ready"),
        ("export", "pipe.json", "--replace"), ("print", "form", "--out", "pipe.txt"),
        ("print", "sheet", "--all-trips", "--out", "/proc/nowhere"), ("demo", "/proc/nowhere"),
        ("export", "/proc/nowhere"), ("export", "/dev/full"), ("backup", "/dev/full"), ("recover", "/dev/full"),
        ("bank", "--chart", "/proc/nowhere.svg"), ("--store", "/dev/full", "ready"), ("--store", f"/{LONG}", "start"),
        ("--store", "/proc/nowhere/kit.db", "start"), ("volts", "heron-main", "1e400"), ("journal", LONG),
        ("undo", "99999999999999999999"), ("ready", "--on", "9999-12-31"), ("ready", "--on", "0001-01-01"),
    ],
    ids=lambda words: " ".join(words)[:40],
)  # fmt: skip
def test_hardship_is_a_sentence_and_a_code_from_one_to_four(demo: Path, words: tuple[str, ...]) -> None:
    os.mkfifo(demo.parent / "pipe.toml")
    os.mkfifo(demo.parent / "pipe.json")
    os.mkfifo(demo.parent / "pipe.txt")
    done = kitlist(*words, store=demo, cwd=demo.parent)
    assert done.returncode in (1, 2, 3, 4, 10, 11), done.stderr
    assert "should not have happened" not in done.stderr
    assert "x" * 100 not in done.stderr


def test_an_error_shows_eighty_characters_of_what_was_typed_and_what_cannot_be_seen(demo: Path) -> None:
    done = kitlist("battery", "show", "a\u202eb\x1b[31m" + "y" * 500, store=demo)
    assert "\u202e" not in done.stderr
    assert "\x1b" not in done.stderr
    assert 0 < done.stderr.count("y") < 100


def test_bytes_that_are_no_text_are_answered_in_a_sentence(demo: Path) -> None:
    for words in (("battery", "show"), ("vehicle", "add"), ("import",), ()):
        done = process(demo, *words, os.fsdecode(b"a\xffb.toml"))
        assert done.returncode in (2, 3, 4)
        assert b"should not have happened" not in done.stderr


def test_one_bad_file_shows_twenty_problems_and_how_many_more(demo: Path) -> None:
    bad = demo.parent / "bad.toml"
    bad.write_text("\n".join(f"[[bag]]\nname = {n}" for n in range(90)), encoding="utf-8")
    said = kitlist("import", str(bad), store=demo).stderr.splitlines()
    assert sum("bad.toml:" in line for line in said) == 21  # the heading too
    assert "  and 70 more" in said


def test_a_guest_in_a_kit_written_by_hand_comes_in_with_its_trip(tmp_path: Path) -> None:
    store = new_store(tmp_path / "kit.db")
    file = tmp_path / "kit.toml"
    file.write_text(
        "[[vehicle]]\nname = 'Heron'\n[[vehicle]]\nname = 'Gull (Bo)'\nguest_of = 'Bo'\n"
        "[[trip]]\nname = 'lake'\nstarts_on = 2027-05-08\nends_on = 2027-05-16\nvehicles = ['Heron', 'Gull (Bo)']\n",
        encoding="utf-8",
    )
    assert kitlist("import", str(file), store=store.path).returncode == 0
    assert "Gull (Bo)" in kitlist("trip", "show", "lake", store=store.path).stdout


def test_an_import_of_named_things_takes_time_in_proportion(tmp_path: Path) -> None:
    """20,000 bags against 1,000: some 20 times the processor time, not the 400 times of a search for each."""
    spent = []
    for count in (10, 1000, 20_000):  # the first loads what is loaded once
        file = tmp_path / f"{count}.toml"
        file.write_text("\n".join(f"[[bag]]\nname = 'bag {n}'" for n in range(count)), encoding="utf-8")
        store = new_store(tmp_path / f"{count}.db")
        begun = time.process_time()
        import_file(store, file)
        spent.append(time.process_time() - begun)
    assert spent[2] < spent[1] * 80


def test_a_string_of_sixty_megabytes_is_refused_early(demo: Path) -> None:
    file = demo.parent / "long.json"
    file.write_text('{"bag": [{"name": "' + "x" * 60_000_000 + '"}]}', encoding="utf-8")
    begun = time.process_time()
    done = kitlist("import", str(file), store=demo)
    assert (done.returncode, "longer than 4 million characters" in done.stderr) == (3, True)
    assert time.process_time() - begun < 3


@pytest.mark.parametrize("clock", [7_258_118_400.0, 9_300_000_000.0, OverflowError("timestamp too large")])
def test_a_clock_past_all_days_is_said_and_nothing_is_written(
    demo: Path, monkeypatch: pytest.MonkeyPatch, clock: float | OverflowError
) -> None:
    def stands() -> float:
        if isinstance(clock, OverflowError):
            raise clock
        return clock

    monkeypatch.setattr("kitlist.faces.cli.time.time", stands)
    before = demo.read_bytes()
    done = kitlist("undo", store=demo)
    assert (done.returncode, demo.read_bytes()) == (2, before)
    assert "this machine's clock stands in the year 2200 or later" in done.stderr
