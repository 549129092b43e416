"""What only a real process shows: its exit code, its streams, what it loads, a pipe that closes."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path


def kitlist(*words: str, store: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "kitlist", "--store", str(store), *words]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_a_process_ends_with_the_code_and_the_words_of_the_command(demo: Path) -> None:
    done = kitlist("ready", "--on", "2027-05-05", store=demo)
    assert (done.returncode, "NOT READY" in done.stdout, done.stderr) == (10, True, "")
    done = kitlist("battery", "show", "nothing", store=demo)
    assert (done.returncode, done.stdout, "no battery is called" in done.stderr) == (4, "", True)
    assert kitlist("no-such-word", store=demo).returncode == 2


def test_traceback_shows_where_an_error_came_from(demo: Path) -> None:
    done = kitlist("--traceback", "battery", "show", "nothing", store=demo)
    assert "Traceback" in done.stderr


def test_a_reader_that_goes_away_ends_the_command_without_a_word(demo: Path) -> None:
    command = [sys.executable, "-m", "kitlist", "--store", str(demo), "rules"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stdout is not None
    process.stdout.close()
    assert process.stderr is not None
    assert process.stderr.read() == ""
    process.stderr.close()
    assert process.wait() == 1


def completed(store: Path, *words: str) -> list[str]:
    """What a shell is offered for the last of some words."""
    environment = {"_KITLIST_COMPLETE": "complete_bash", "COMP_CWORD": str(len(words)), "KITLIST_STORE": str(store)}
    environment["COMP_WORDS"] = " ".join(("kitlist", *words))
    command = [sys.executable, "-m", "kitlist"]
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=os.environ | environment)
    return done.stdout.split()


def test_a_shell_completes_commands_names_and_fields(demo: Path, tmp_path: Path) -> None:
    assert completed(demo, "rec") == ["recover"]
    assert completed(demo, "battery", "show", "plover") == ["plover-main", "plover-second"]
    assert completed(demo, "battery", "edit", "heron-main", "cra") == ["cranking=", "cranking-standard="]
    assert completed(tmp_path / "none.db", "battery", "show", "plover") == []


def test_a_judgement_on_a_screen_loads_nothing_that_draws_writes_or_asks(demo: Path) -> None:
    code = (
        "import sys; from kitlist.faces.cli import run; "
        f"run(['--store', {str(demo)!r}, 'ready', '--on', '2027-05-05']); "
        "print('LOADED', *sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stderr.split("LOADED")[1].split())
    assert "kitlist.readiness" in loaded
    idle = {
        "weasyprint", "jinja2", "sqlmodel", "pydantic", "hashlib", "kitlist.faces.paper.figure",
        "kitlist.faces.paper.card_document", "kitlist.faces.paper.typeface", "kitlist.store.changes",
        "kitlist.kit.entry", "kitlist.base.quantities", "kitlist.outlook.options.planner",
        "kitlist.outlook.field_charge",
    }  # fmt: skip
    assert loaded & idle == set()
