"""A companion's clock: a reading dated ahead does not join in silence, and never keeps the owner's own out."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, BadFile
from kitlist.store import Store, changes, guests

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
