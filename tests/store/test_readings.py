from __future__ import annotations

import pytest

from kitlist.base.errors import Ambiguous, BadData, NotFound
from kitlist.store import Store, changes, readings
from kitlist.store.snapshot import snapshot


def with_readings(store: Store, *moments: str) -> None:
    changes.add(store, "battery", {"name": "heron-main", "place": "loose"})
    for number, moment in enumerate(moments):
        changes.add(store, "reading", {"battery": "heron", "volts": 12 + number / 10, "taken_at": moment})


def test_a_mistyped_reading_is_taken_out_stays_in_the_history_and_comes_back(store: Store) -> None:
    with_readings(store, "2026-01-01T07:00", "2026-01-02T07:00")
    assert readings.remove(store, "heron", "2026-01-02T07:00").volts_v == 12.1
    assert [r.volts_v for r in snapshot(store).readings] == [12.0]
    with pytest.raises(BadData) as caught:
        changes.add(store, "reading", {"battery": "heron", "volts": 12.5, "taken_at": "2026-01-02T07:00"})
    assert "kitlist reading restore heron-main 2026-01-02T07:00:00" in caught.value.hint
    assert readings.restore(store, "heron", "2026-01-02").volts_v == 12.1
    assert [r.volts_v for r in snapshot(store).readings] == [12.1, 12.0]


def test_a_reading_is_named_by_any_unambiguous_start_of_its_moment(store: Store) -> None:
    with_readings(store, "2026-01-01T07:00", "2026-01-01T08:00")
    with pytest.raises(Ambiguous):
        readings.remove(store, "heron", "2026-01-01")
    with pytest.raises(NotFound):
        readings.remove(store, "heron", "2026-02")
    with pytest.raises(NotFound, match="no battery is called"):
        readings.remove(store, "plover", "2026-01-01T07")
    assert readings.remove(store, "heron", "2026-01-01T07").volts_v == 12.0


def test_readings_are_listed_newest_first_of_one_battery_or_of_all(store: Store) -> None:
    with_readings(store, "2026-01-01T07:00", "2026-01-02T07:00")
    changes.add(store, "battery", {"name": "spare", "place": "loose"})
    changes.add(store, "reading", {"battery": "spare", "volts": 12.9, "taken_at": "2026-01-01T12:00"})
    assert [r.volts_v for r in readings.listed(store, None, count=9)] == [12.1, 12.9, 12.0]
    assert [r.volts_v for r in readings.listed(store, "heron", count=1)] == [12.1]
