"""export, import, backup and recover as a person types them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

import running
from running import Done


def kitlist(store: Path, *words: str) -> Done:
    return running.kitlist(*words, store=store, cwd=store.parent)


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A store of one's own with a vehicle and a battery."""
    toml = tmp_path / "kit.toml"
    toml.write_text(
        "[[vehicle]]\nname = 'Heron'\n[[battery]]\nname = 'main'\nvehicle = 'Heron'\nchemistry = 'agm'\n"
        "[[reading]]\nbattery = 'main'\nvolts_v = 12.7\ntaken_at = 2025-05-01T07:00:00\n"
    )
    store = tmp_path / "kit.db"
    assert kitlist(store, "start").returncode == 0
    assert kitlist(store, "import", str(toml)).returncode == 0
    return store


def test_a_kit_goes_out_and_comes_in_again_as_json_and_as_csv(own: Path, tmp_path: Path) -> None:
    done = kitlist(own, "export", "out.json")
    assert (done.returncode, done.stdout) == (0, "")
    assert done.stderr == "Wrote out.json: 1 vehicle, 1 battery, 1 reading.\n"
    assert json.loads((tmp_path / "out.json").read_text())["battery"][0]["chemistry"] == "agm"
    assert kitlist(own, "export", "sheets").returncode == 0
    sheet = (tmp_path / "sheets" / "vehicle.csv").read_text(encoding="utf-8-sig")
    assert sheet.startswith("name,crank_a,driven_at,")
    new = tmp_path / "new.db"
    kitlist(new, "start")
    assert "Would have added 1 vehicle, 1 battery, 1 reading." in kitlist(new, "import", "sheets", "--dry-run").stderr
    assert "Added 1 vehicle, 1 battery, 1 reading." in kitlist(new, "import", "out.json").stderr
    assert "Added nothing; 3 there already, unchanged." in kitlist(new, "import", "sheets").stderr


def test_one_kind_as_csv_says_its_kind_by_name_or_by_option(own: Path, tmp_path: Path) -> None:
    assert kitlist(own, "export", "batteries.csv").returncode == 0
    assert kitlist(own, "export", "mine.csv", "--kind", "battery").returncode == 0
    assert (tmp_path / "batteries.csv").read_bytes() == (tmp_path / "mine.csv").read_bytes()
    done = kitlist(own, "import", "mine.csv")
    assert (done.returncode, "--kind: bag, vehicle" in done.stderr) == (3, True)
    assert "1 there already" in kitlist(own, "import", "mine.csv", "--kind", "battery").stderr


def test_bad_rows_are_told_with_file_and_line_and_nothing_is_imported(own: Path, tmp_path: Path) -> None:
    (tmp_path / "bag.csv").write_text("name,walk_order\nblue,1\nred,500\ngreen,x\n")
    done = kitlist(own, "import", "bag.csv")
    assert (done.returncode, done.stdout) == (3, "")
    assert done.stderr.splitlines() == [
        "Error: bag.csv: 2 lines cannot be taken; nothing was imported",
        "  bag.csv:3: bag 'red': walk_order = '500': must be a whole number from 0 to 99",
        "  bag.csv:4: bag 'green': walk_order = 'x': must be a whole number from 0 to 99",
    ]
    assert "No bags yet" in kitlist(own, "bag", "list").stderr


def test_a_backup_is_made_and_brought_back(own: Path, tmp_path: Path) -> None:
    assert "read back and sound" in kitlist(own, "backup", "copy.db").stderr
    assert kitlist(own, "backup", "copy.db").returncode == 1
    assert "copy it to a stick" in kitlist(own, "backup").stderr
    kitlist(own, "vehicle", "add", "Plover")
    done = kitlist(own, "recover", "copy.db")
    assert (done.returncode, "is kept: kitlist recover" in done.stderr) == (0, True)
    assert [v["name"] for v in json.loads(kitlist(own, "vehicle", "list", "--json").stdout)] == ["Heron"]
    kept = done.stderr.split("kitlist recover ")[1].split(" brings")[0].strip('"')
    assert kitlist(own, "recover", kept).returncode == 0
    assert len(json.loads(kitlist(own, "vehicle", "list", "--json").stdout)) == 2


def test_recover_mends_a_damaged_store_with_the_command_that_the_error_names(own: Path) -> None:
    text = own.with_name("two.toml")
    text.write_text("[[vehicle]]\nname = 'Plover'\n")
    assert kitlist(own, "import", str(text)).returncode == 0
    with own.open("r+b") as file:
        file.seek(8192)
        file.write(b"\x99" * (own.stat().st_size - 8192))
    done = kitlist(own, "vehicle", "list")
    assert (done.returncode, "is damaged" in done.stderr) == (1, True)
    copy = done.stderr.split("kitlist recover ")[1].split()[0]
    assert kitlist(own, "recover", copy).returncode == 0
    assert [v["name"] for v in json.loads(kitlist(own, "vehicle", "list", "--json").stdout)] == ["Heron"]


def test_a_clock_that_is_behind_is_told(own: Path, tmp_path: Path) -> None:
    (tmp_path / "reading.csv").write_text("battery,volts_v,taken_at\nmain,12.6,2198-01-01T07:00\n")
    assert "later than this machine's clock" in kitlist(own, "import", "reading.csv").stderr
    done = kitlist(own, "volts", "main", "12.5")
    assert (done.returncode, "clock is behind" in done.stderr, "--at" in done.stderr) == (3, True, True)
    assert kitlist(own, "volts", "main", "12.5", "--at", "2198-01-02T07:00").returncode == 0


def test_what_is_removed_is_in_the_export_and_the_help_says_so(own: Path, tmp_path: Path) -> None:
    assert "No battery was removed" in kitlist(own, "battery", "restore").stderr
    kitlist(own, "battery", "remove", "main")
    assert kitlist(own, "battery", "restore").stdout.splitlines()[1].startswith("main  20")
    kitlist(own, "export", "out.json")
    (battery,) = json.loads((tmp_path / "out.json").read_text())["battery"]
    assert battery["removed_at"]
    assert "removed_at" in kitlist(own, "export", "--help").stdout


def test_a_mistyped_reading_is_taken_out_and_brought_back(own: Path) -> None:
    done = kitlist(own, "reading", "remove", "main", "2025-05-01")
    assert done.stderr.startswith("Removed 12.7 V of main, 2025-05-01 07:00.")
    assert "No readings yet" in kitlist(own, "reading", "list").stderr
    assert kitlist(own, "reading", "restore", "main", "2025-05-01").returncode == 0
    assert json.loads(kitlist(own, "reading", "list", "--json").stdout)[0]["volts_v"] == 12.7
    assert "12.70 V" in kitlist(own, "reading", "list", "main").stdout


READING = ("volts", "main", "12.6", "--at", "2025-05-02T07:00")


@pytest.mark.parametrize(
    ("words", "code", "slow"),
    [
        (("ready", "--on", "2025-05-02"), 10, ("sqlmodel", "sqlalchemy", "sqlite_utils", "pydantic")),
        (READING, 0, ("sqlmodel", "sqlalchemy", "sqlite_utils")),
    ],
)
def test_a_judgement_and_a_reading_need_no_slow_library(
    own: Path, words: tuple[str, ...], code: int, slow: tuple[str, ...]
) -> None:
    script = (
        "import sys\n"
        f"sys.argv = ['kitlist', '--store', {str(own)!r}, *{words!r}]\n"
        "from kitlist.faces.cli import main\n"
        "try:\n    main()\nexcept SystemExit as end:\n    print(end.code, file=sys.stderr)\n"
        f"print(sorted(set({slow!r}) & set(sys.modules)), file=sys.stderr)\n"
    )
    kitlist(own, "trip", "add", "lake", "starts-on=2025-05-03", "ends-on=2025-05-04", "vehicles=Heron")
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stderr.splitlines()[-2:] == [str(code), "[]"]
