"""The register of repairs made in the field: a gap on every later trip until somebody put it right."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from running import kitlist


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("made") / "kit.db"
    kitlist("start", store=path)
    for words in (
        ("vehicle", "add", "Heron"),
        ("vehicle", "add", "Plover"),
        ("battery", "add", "heron-main", "vehicle=Heron", "chemistry=calcium", "c20=70Ah"),
        ("rod", "add", "general rods", "designation=E6013", "diameter=3.2mm", "count=20"),
        ("trip", "add", "First", "starts-on=2027-05-08", "ends-on=2027-05-16", "vehicles=Heron"),
        ("trip", "add", "Second", "starts-on=2027-07-08", "ends-on=2027-07-16", "vehicles=Heron"),
        ("trip", "add", "Other", "starts-on=2027-08-08", "ends-on=2027-08-16", "vehicles=Plover"),
        (
            "mend", "add", "left hanger", "part=spring hanger", "welded-on=2027-05-12", "vehicle=Heron", "trip=First",
            "rod=general", "bank=heron-main", "current=95", "photo=IMG_0042.jpg", "spot=left rear",
        ),
    ):  # fmt: skip
        assert kitlist(*words, store=path).returncode == 0, words
    return path


@pytest.fixture
def own(made: Path, tmp_path: Path) -> Path:
    path = tmp_path / "kit.db"
    path.write_bytes(made.read_bytes())
    return path


def gap(trip: str, store: Path) -> str | None:
    gaps = json.loads(kitlist("ready", trip, "--on", "2027-06-20", "--json", store=store).stdout)["gaps"]
    return next((g["what"] for g in gaps if g["rule"] == "mend-not-settled"), None)


def test_it_stays_a_gap_on_every_later_trip_of_that_vehicle_until_it_is_put_right(own: Path) -> None:
    assert "spring hanger (Heron, left rear) welded in the field on 2027-05-12" in (gap("Second", own) or "")
    assert gap("Other", own) is None
    kitlist("mend", "edit", "left", "sound-at-5-km=yes", store=own)
    assert "looks left: at 50 km, after 24 to 48 h" in (gap("Second", own) or "")
    kitlist("mend", "edit", "left", "sound-at-50-km=no", store=own)
    assert "no longer sound" in (gap("Second", own) or "")
    words = ("settled=replaced", "settled-on=2027-06-01", "settled-by=Track Garage")
    assert kitlist("mend", "edit", "left", *words, store=own).returncode == 0
    assert gap("Second", own) is None


@pytest.mark.parametrize("words", [["settled=replaced"], ["settled-by=Ada"], ["settled-on=2027-06-01"]])
def test_put_right_needs_how_when_and_by_whom(own: Path, words: list[str]) -> None:
    done = kitlist("mend", "edit", "left", *words, store=own)
    assert (done.returncode, "say how, on which day and by whom" in done.stderr) == (3, True)


def test_it_is_not_put_right_before_it_was_welded(own: Path) -> None:
    words = ("settled=repaired", "settled-on=2027-05-01", "settled-by=Ada")
    done = kitlist("mend", "edit", "left", *words, store=own)
    assert (done.returncode, "before it was welded" in done.stderr) == (3, True)


def test_the_register_travels_with_an_export_and_outlives_what_it_refers_to(own: Path, tmp_path: Path) -> None:
    out, other = tmp_path / "kit.json", tmp_path / "other.db"
    assert kitlist("export", str(out), store=own).returncode == 0
    kitlist("start", store=other)
    assert kitlist("import", str(out), store=other).returncode == 0
    shown = json.loads(kitlist("mend", "show", "left", "--json", store=other).stdout)
    assert (shown["bank"], shown["current_a"], shown["photo"]) == (["heron-main"], 95, "IMG_0042.jpg")
    assert kitlist("rod", "remove", "general", store=other).returncode == 0
    assert "general rods" in kitlist("mend", "show", "left", store=other).stdout


def test_a_day_that_is_likely_a_slip_is_taken_and_asked_about(own: Path) -> None:
    done = kitlist("mend", "add", "right hanger", "part=spring hanger", "welded-on=2199-05-12", store=own)
    assert (done.returncode, "after today: is the year right?" in done.stderr) == (0, True)
    assert 'kitlist mend edit "right hanger"' in done.stderr
    past = kitlist("trip", "add", "Past", "starts-on=2020-05-08", "ends-on=2020-05-16", "vehicles=Heron", store=own)
    assert (past.returncode, "The trip ended on 2020-05-16, before today" in past.stderr) == (0, True)
    assert "before today" not in kitlist("trip", "edit", "Past", "crew=Ada", store=own).stderr
    assert "before today" in kitlist("trip", "edit", "Past", "ends-on=2020-05-17", store=own).stderr
    assert (
        "today" not in kitlist("trip", "edit", "Past", "starts-on=2199-05-16", "ends-on=2199-05-17", store=own).stderr
    )
