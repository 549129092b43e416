"""import --update as a person and a script type it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from running import Done, kitlist


@pytest.fixture
def file(demo: Path, tmp_path: Path) -> Path:
    path = tmp_path / "kit.json"
    kitlist("export", str(path), store=demo)
    text = path.read_text(encoding="utf-8").replace(
        '"name": "chocks", "what": "chocks", "count": 4', '"name": "chocks", "what": "chocks", "count": 6'
    )
    path.write_text(text, encoding="utf-8")
    return path


def update(demo: Path, file: Path, *words: str, typed: str | None = None) -> Done:
    return kitlist("import", str(file), "--update", *words, store=demo, typed=typed or "", terminal=typed is not None)


def count(demo: Path) -> int:
    return int(json.loads(kitlist("tool", "show", "chocks", "--json", store=demo).stdout)["count"])


def test_without_somebody_to_ask_and_without_yes_the_table_is_shown_and_the_code_says_that_nothing_was_written(
    demo: Path, file: Path
) -> None:
    done = update(demo, file)
    assert (done.returncode, count(demo)) == (1, 4)
    assert "changed: tool chocks: count 4 -> 6" in done.stdout
    assert "Nothing was written. Write it with --yes." in done.stderr
    assert update(demo, file, "--dry-run").returncode == 0
    assert count(demo) == 4


def test_with_yes_it_is_written_as_one_command_that_undo_takes_back(demo: Path, file: Path) -> None:
    done = update(demo, file, "--yes")
    assert (done.returncode, count(demo)) == (0, 6)
    assert "Written: 1 changed. kitlist undo takes all of it back." in done.stderr
    (newest, *_) = json.loads(kitlist("journal", "--json", store=demo).stdout)
    assert newest["words"].startswith("import")
    assert newest["changes"] == ["tool chocks: count 4 -> 6"]
    kitlist("undo", store=demo)
    assert count(demo) == 4
    kitlist("undo", str(newest["number"] + 1), store=demo)
    assert "Nothing to change." in update(demo, file, "--yes").stderr


def test_at_a_terminal_it_is_asked_for(demo: Path, file: Path) -> None:
    assert update(demo, file, typed="n\n").returncode == 1
    assert count(demo) == 4
    assert update(demo, file, typed="y\n").returncode == 0
    assert count(demo) == 6


def test_what_the_file_leaves_out_is_said_and_removed_only_where_that_is_asked(demo: Path, file: Path) -> None:
    kit = json.loads(file.read_text(encoding="utf-8"))
    kit["tool"] = [tool for tool in kit["tool"] if tool["name"] != "chocks"]
    file.write_text(json.dumps(kit), encoding="utf-8")
    assert "stays (--remove takes it out): tool chocks" in update(demo, file).stdout
    assert "removed: tool chocks" in update(demo, file, "--remove", "--yes").stdout
    assert kitlist("tool", "show", "chocks", store=demo).returncode == 4


def test_what_was_changed_in_both_is_refused_with_code_3(demo: Path, file: Path) -> None:
    kitlist("tool", "edit", "chocks", "count=5", store=demo)
    done = update(demo, file, "--yes")
    assert (done.returncode, count(demo)) == (3, 5)
    assert "count was 4 at the export, is 5 now by tool edit chocks count=5" in done.stderr


def test_the_options_hold_together(demo: Path, file: Path) -> None:
    assert kitlist("import", str(file), "--yes", store=demo).returncode == 2
    assert kitlist("import", "--starter", "--update", store=demo).returncode == 2
    assert update(demo, file, "--trip", "Dry lake survey").returncode == 2
