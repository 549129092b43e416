"""next, from the outside: an answer whatever there is."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from kitlist import resources

DEMO = resources.folder("seed_data") / "demo" / "kit.toml"


def kitlist(*words: str, store: Path, columns: int = 60) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "kitlist", "--store", str(store), *words],
        capture_output=True,
        text=True,
        check=False,
        env=os.environ | {"COLUMNS": str(columns), "NO_COLOR": "1"},
    )


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("demo") / "kit.db"
    assert kitlist("start", store=path).returncode == 0
    assert kitlist("import", str(DEMO), store=path).returncode == 0
    return path


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
