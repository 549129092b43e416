"""A companion's vehicle joins a trip as a guest: kept apart, judged alike, never overwriting."""

from __future__ import annotations

import json
import sqlite3
import tomllib
from contextlib import closing
from pathlib import Path

import pdfplumber
import pytest

from kitlist.base.fields import fields_of
from kitlist.faces.paper import build_companion_form
from kitlist.kit import Battery, Reading
from running import kitlist

READ = ("volts", "main", "12.71", "--rested", "12h", "--temp", "10", "--at", "2024-05-01T08:00")


def made(path: Path, *, note: str) -> Path:
    """A crew's store with a vehicle, its battery with a reading, and a trip."""
    for words in (
        ("start",),
        ("bag", "add", "Red bag"),
        ("vehicle", "add", "Heron", f"note={note}"),
        ("battery", "add", "main", "vehicle=Heron", "chemistry=agm", "c20=80Ah", "condition=sound", f"note={note}"),
        READ,
        ("trip", "add", "Dry lake", "starts-on=2030-05-08", "ends-on=2030-05-16", "vehicles=Heron"),
    ):
        assert kitlist(*words, store=path).returncode == 0, words
    return path


@pytest.fixture(scope="module")
def ours_made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("ours") / "kit.db", note="ours")


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> str:
    theirs = made(tmp_path_factory.mktemp("theirs") / "kit.db", note="call 555-0100")
    return kitlist("share", "Heron", "--by", "Bea", store=theirs).stdout


@pytest.fixture
def ours(ours_made: Path, tmp_path: Path) -> Path:
    path = tmp_path / "ours.db"
    path.write_bytes(ours_made.read_bytes())
    return path


@pytest.fixture
def file(shared: str, tmp_path: Path) -> Path:
    path = tmp_path / "heron.toml"
    path.write_text(shared, encoding="utf-8")
    return path


def rows(store: Path) -> dict[str, list[tuple[object, ...]]]:
    tables = ("vehicle", "battery", "reading", "trip_vehicle", "trip", "bag")
    with closing(sqlite3.connect(store)) as db:
        return {table: db.execute(f"SELECT * FROM {table} ORDER BY 1, 2").fetchall() for table in tables}


def test_the_file_is_small_plain_toml_without_notes_and_bags(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert set(tomllib.loads(text)) == {"vehicle", "battery", "reading"}
    assert "555-0100" not in text
    assert "Red bag" not in text
    assert len(text) < 2000


def test_a_guest_of_the_same_names_stands_beside_ours_and_changes_nothing_of_it(ours: Path, file: Path) -> None:
    before = rows(ours)
    done = kitlist("import", str(file), "--trip", "Dry", store=ours)
    assert (done.returncode, "Joined to Dry lake: vehicle Heron (Bea), battery main (Bea)" in done.stderr) == (0, True)
    after = rows(ours)
    for table, kept in before.items():
        assert set(kept) <= set(after[table]), table
    assert [v for _, _, v in after["trip_vehicle"]] == ["Heron", "Heron (Bea)"]


def test_a_shared_file_without_a_trip_to_join_says_to_make_the_trip_first(file: Path, tmp_path: Path) -> None:
    empty = tmp_path / "empty.db"
    kitlist("start", store=empty)
    done = kitlist("import", str(file), store=empty)
    assert (done.returncode, "make the trip first" in done.stderr, "kitlist trip add" in done.stderr) == (4, True, True)


def test_the_same_file_twice_changes_nothing(ours: Path, file: Path) -> None:
    kitlist("import", str(file), "--trip", "Dry", store=ours)
    before = rows(ours)
    done = kitlist("import", str(file), "--trip", "Dry", store=ours)
    assert (done.returncode, "nothing new" in done.stderr) == (0, True)
    assert rows(ours) == before


def test_what_differs_is_kept_as_it_is_and_told(ours: Path, file: Path) -> None:
    kitlist("import", str(file), "--trip", "Dry", store=ours)
    before = rows(ours)
    file.write_text(file.read_text(encoding="utf-8").replace("c20_ah = 80.0", "c20_ah = 90.0"), encoding="utf-8")
    done = kitlist("import", str(file), "--trip", "Dry", store=ours)
    assert "Kept as it is, the file differs: battery main (Bea): c20_ah." in done.stderr
    assert rows(ours) == before


def test_a_companion_s_battery_that_leaks_since_is_believed_and_one_called_sound_again_is_not(
    ours: Path, file: Path
) -> None:
    def condition() -> str:
        return json.loads(kitlist("battery", "show", "main (Bea)", "--json", store=ours).stdout)["condition"]

    sound = file.read_text(encoding="utf-8")
    kitlist("import", str(file), "--trip", "Dry", store=ours)
    file.write_text(sound.replace('condition = "sound"', 'condition = "leaking"'), encoding="utf-8")
    done = kitlist("import", str(file), "--trip", "Dry", store=ours)
    assert ("battery main (Bea)" in done.stderr, condition()) == (True, "leaking")
    file.write_text(sound, encoding="utf-8")
    done = kitlist("import", str(file), "--trip", "Dry", store=ours)
    assert ("differs: battery main (Bea): condition" in done.stderr, condition()) == (True, "leaking")


def test_a_guest_is_judged_with_the_same_rules_on_this_trip_and_travels_on_no_other(ours: Path, file: Path) -> None:
    kitlist("import", str(file), "--trip", "Dry", store=ours)
    kitlist("trip", "add", "Later", "starts-on=2030-07-08", "ends-on=2030-07-16", "vehicles=Heron", store=ours)

    def batteries(trip: str) -> set[str]:
        judged = json.loads(kitlist("ready", trip, "--json", "--on", "2029-05-02", store=ours).stdout)
        return {battery["name"] for battery in judged["batteries"]}

    assert batteries("Dry") == {"main", "main (Bea)"}
    assert batteries("Later") == {"main"}


def test_a_dry_run_changes_nothing(ours: Path, file: Path) -> None:
    before = rows(ours)
    done = kitlist("import", str(file), "--trip", "Dry", "--dry-run", store=ours)
    assert (done.returncode, "Would join" in done.stderr) == (0, True)
    assert rows(ours) == before


def test_a_form_filled_in_by_hand_joins_and_what_was_left_empty_is_not_known(ours: Path, tmp_path: Path) -> None:
    form = tmp_path / "form.toml"
    text = kitlist("share", "--blank", store=ours).stdout
    filled = text.replace('name = ""  ', 'name = "Old Bess"  ', 1).replace('guest_of = "?"', 'guest_of = "Cy"')
    filled = filled.replace('name = ""  ', 'name = "start"  ', 1).replace('c20 = ""', 'c20 = "70Ah"')
    form.write_text(filled, encoding="utf-8")
    done = kitlist("import", str(form), store=ours)
    assert done.returncode == 0, done.stderr
    shown = json.loads(kitlist("battery", "show", "start (Cy)", "--json", store=ours).stdout)
    assert (shown["vehicle"], shown["c20_ah"], shown["chemistry"]) == ("Old Bess (Cy)", 70, "unknown")


def test_the_printed_form_asks_what_the_plain_one_takes_and_fits_a_page(ours: Path, tmp_path: Path) -> None:
    paper = tmp_path / "companion.pdf"
    assert kitlist("print", "form", "--companion", "--out", str(paper), store=ours).returncode == 0
    with pdfplumber.open(paper) as pdf:
        (page,) = pdf.pages
        text = page.extract_text()
    assert "A companion's vehicle" in text
    for asked in ("Whose it is", "Cranking rating, A", "Volts, V", "Rested, h", "kitlist share --blank"):
        assert asked in text
    plain = tomllib.loads(kitlist("share", "--blank", store=ours).stdout)
    for kind, asked_for, fields in (
        ("battery", build_companion_form.ASKED, fields_of(Battery)),
        ("reading", build_companion_form.READ, fields_of(Reading)),
    ):
        words = {field.name for field in fields if {field.name, field.short_name} & set(plain[kind][0])}
        assert words - {"battery"} == set(asked_for)


def test_a_reading_on_the_form_joins_with_its_battery(ours: Path, tmp_path: Path) -> None:
    form = tmp_path / "form.toml"
    text = kitlist("share", "--blank", store=ours).stdout
    for empty, filled in (
        ('name = ""  ', 'name = "Old Bess"  '),
        ('guest_of = "?"', 'guest_of = "Cy"'),
        ('name = ""  ', 'name = "start"  '),
        ('chemistry = ""', 'chemistry = "AGM"'),
        ('terminals = ""', 'terminals = "post"'),
        ('battery = ""', 'battery = "start"'),
        ('volts = ""', 'volts = "12.71"'),
        ('taken_at = ""', 'taken_at = "2025-05-05T07:00"'),
        ('rested = ""', 'rested = "12h"'),
    ):
        assert empty in text
        text = text.replace(empty, filled, 1)
    form.write_text(text, encoding="utf-8")
    done = kitlist("import", str(form), store=ours)
    assert done.returncode == 0, done.stderr
    (reading,) = json.loads(kitlist("reading", "list", "start (Cy)", "--json", store=ours).stdout)
    assert (reading["volts_v"], reading["rested_h"], reading["battery_temp_c"]) == (12.71, 12, None)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("c20_ah = 80.0", "c20_ah = 8000"), "a number from 5 to 400 Ah"),
        (('guest_of = "Bea"', 'guest_of = ""'), "whose it is"),
        (('battery = "main"', 'battery = "other"'), "which is not in the file"),
        (("[[reading]]", "[[trip]]"), "no trip"),
        (("[[battery]]", "[[battery"), "heron.toml:"),
    ],
)
def test_a_wrong_file_is_refused_whole_with_its_lines(
    ours: Path, file: Path, change: tuple[str, str], said: str
) -> None:
    before = rows(ours)
    file.write_text(file.read_text(encoding="utf-8").replace(*change), encoding="utf-8")
    done = kitlist("import", str(file), "--trip", "Dry", store=ours)
    assert (done.returncode, said in done.stderr, "Traceback" in done.stderr) == (3, True, False)
    assert rows(ours) == before


def test_a_form_that_does_not_say_whose_it_is_is_refused_and_never_taken_for_ones_own(
    ours: Path, tmp_path: Path
) -> None:
    form = tmp_path / "form.toml"
    before = rows(ours)
    form.write_text(kitlist("share", "--blank", store=ours).stdout, encoding="utf-8")
    done = kitlist("import", str(form), store=ours)
    assert (done.returncode, "whose it is" in done.stderr) == (3, True)
    assert rows(ours) == before


def test_a_file_of_ones_own_is_not_joined_to_a_trip(ours: Path, tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text('[[bag]]\nname = "Blue bag"\n', encoding="utf-8")
    assert kitlist("import", str(own), "--trip", "Dry", store=ours).returncode == 3
    assert kitlist("import", str(own), store=ours).returncode == 0


def test_sharing_needs_to_be_told_whose_it_is(ours: Path) -> None:
    assert kitlist("share", "Heron", store=ours).returncode == 3
    assert kitlist("share", store=ours).returncode == 2


def test_a_shared_battery_says_when_it_welded_and_a_later_weld_is_believed(ours: Path, tmp_path: Path) -> None:
    theirs, file = made(tmp_path / "theirs.db", note=""), tmp_path / "again.toml"
    file.write_text(kitlist("share", "Heron", "--by", "Bea", store=theirs).stdout, encoding="utf-8")
    assert "welded_on" not in file.read_text(encoding="utf-8")
    words = ("import", str(file), "--trip", "Dry lake")
    assert kitlist(*words, store=ours).returncode == 0
    kitlist("used", "Dry lake", "--linked", "main", "--on", "2024-05-09", store=theirs)
    file.write_text(kitlist("share", "Heron", "--by", "Bea", store=theirs).stdout, encoding="utf-8")
    assert "welded_on = 2024-05-09" in file.read_text(encoding="utf-8").replace('"', "")
    kitlist(*words, store=ours)
    shown = json.loads(kitlist("battery", "show", "main (Bea)", "--json", store=ours).stdout)
    assert shown["welded_on"] == "2024-05-09"
    ready = kitlist("ready", "Dry lake", "--all", "--on", "2024-05-19", store=ours).stdout
    assert "the reading of 1 May, 08:00 counts no more: it welded since" in " ".join(ready.split())


def test_a_share_without_a_name_is_answered_with_the_readers_own(demo: Path) -> None:
    done = kitlist("share", store=demo)
    assert (done.returncode, "kitlist share Heron --by WHOSE" in done.stderr) == (2, True)
