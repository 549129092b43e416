"""A companion's clock: a reading dated ahead does not join in silence, and never keeps the owner's own out."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, BadFile
from kitlist.store import Store, changes, clock, guests, importing

NOW = datetime.fromisoformat("2026-11-25T07:30")
GUEST = """
[[vehicle]]
name = "Gull"
guest_of = "Bo"
[[battery]]
name = "main"
place = "start"
[[reading]]
battery = "main"
volts = "12.7"
taken_at = "{at}"
"""


@pytest.fixture
def joined(store: Store, tmp_path: Path) -> Path:
    changes.add(store, "battery", {"name": "own", "place": "loose"})
    changes.add(store, "trip", {"name": "lake", "starts_on": "2026-12-08", "ends_on": "2026-12-16"})
    return tmp_path / "gull.toml"


def test_a_companion_s_reading_that_is_later_than_the_clock_does_not_join(store: Store, joined: Path) -> None:
    joined.write_text(GUEST.format(at="2031-05-01T07:00"), encoding="utf-8")
    with pytest.raises(BadFile, match=r"gull\.toml: 1 line cannot be taken") as caught:
        guests.join(store, joined, "lake", by_clock=NOW)
    assert "main (Bo) at 2031-05-01 07:00:00 is later than this machine's clock" in caught.value.lines[0]
    assert changes.listed(store, "vehicle") == ()


def test_a_companion_s_readings_never_count_for_the_clock(store: Store, joined: Path) -> None:
    joined.write_text(GUEST.format(at="2031-05-01T07:00"), encoding="utf-8")
    guests.join(store, joined, "lake")  # as a kitlist did that did not look
    changes.add(store, "reading", {"battery": "own", "volts": 12.5}, by_clock=NOW)


def test_the_refusal_names_battery_reading_and_the_command_that_takes_it_out(store: Store, joined: Path) -> None:
    changes.add(store, "battery", {"name": "left one", "place": "loose"})
    changes.add(store, "reading", {"battery": "left one", "volts": 12.5, "taken_at": "2031-05-01T07:00"})
    with pytest.raises(BadData, match="holds a reading of left one of 2031-05-01 07:00") as caught:
        changes.add(store, "reading", {"battery": "own", "volts": 12.5}, by_clock=NOW)
    assert 'kitlist reading remove "left one" 2031-05-01T07:00:00' in caught.value.hint


def test_behind_the_clock_a_reading_far_after_every_other_is_refused_and_one_soon_after_taken(store: Store) -> None:
    changes.add(store, "battery", {"name": "own", "place": "loose"})
    early = NOW.replace(year=2025)
    changes.add(store, "reading", {"battery": "own", "volts": 12.5, "taken_at": "2026-11-25T07:00"}, by_clock=NOW)
    with pytest.raises(BadData, match="more than a year after every other"):
        changes.add(store, "reading", {"battery": "own", "volts": 12.6, "taken_at": "2029-01-01T07:00"}, by_clock=early)
    changes.add(store, "reading", {"battery": "own", "volts": 12.6, "taken_at": "2027-06-01T07:00"}, by_clock=early)


@pytest.mark.parametrize("when", ["1949-12-31", "2200-01-01", "9999-12-31", "0001-01-01"])
def test_a_day_that_nobody_means_is_refused_with_the_years_that_are_taken(store: Store, when: str) -> None:
    with pytest.raises(BadData, match="write a year from 1950 to 2199"):
        changes.add(store, "battery", {"name": "own", "place": "loose", "in_service_since": when})
    changes.add(store, "battery", {"name": "own", "place": "loose", "in_service_since": "1950-01-01"})


def test_ten_minutes_are_nothing_between_two_clocks_and_no_reading_is_never_too_late() -> None:
    assert not clock.too_late(None, by_clock=NOW)
    assert not clock.too_late(NOW - timedelta(days=9), by_clock=NOW)
    assert not clock.too_late(NOW + clock.SLACK, by_clock=NOW)
    assert clock.too_late(NOW + clock.SLACK + timedelta(seconds=1), by_clock=NOW)


def test_an_import_says_which_of_its_readings_is_the_newest_wherever_it_stands(store: Store, tmp_path: Path) -> None:
    changes.add(store, "battery", {"name": "own", "place": "loose"})
    file = tmp_path / "reading.csv"
    lines = ("own,12.5,2026-11-20T07:00", "own,12.6,2031-01-01T07:00", "own,12.7,2026-11-21T07:00")
    file.write_text("\n".join(("battery,volts_v,taken_at", *lines)) + "\n", encoding="utf-8")
    assert importing.import_file(store, file).newest_reading == datetime(2031, 1, 1, 7)  # noqa: DTZ001
    file.write_text("battery,volts_v,taken_at\n", encoding="utf-8")
    assert importing.import_file(store, file).newest_reading is None
