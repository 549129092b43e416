from __future__ import annotations

from datetime import datetime

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


NOW = datetime.fromisoformat("2026-06-01T12:00")


def correct(store: Store, at: str, **values: str) -> float:
    return float(readings.correct(store, "heron", at, values, by_clock=NOW).volts_v)


def test_a_corrected_reading_keeps_its_moment_or_gets_one_that_is_free_and_not_to_come(store: Store) -> None:
    with_readings(store, "2026-01-01T07:00", "2026-01-02T07:00")
    changes.add(store, "battery", {"name": "spare", "place": "loose"})
    changes.add(store, "reading", {"battery": "spare", "volts": 12.9, "taken_at": "2026-01-03T07:00"})
    assert correct(store, "last", volts="12.7") == 12.7
    for taken, why in (
        ("2026-01-01T07:00", "heron-main already has a reading at 2026-01-01 07:00:00"),
        ("2026-06-01T13:00", "would be in the future"),
    ):
        with pytest.raises(BadData, match=why):
            correct(store, "2026-01-02", volts="12.1", taken_at=taken)
    with pytest.raises(BadData, match="spare already has a reading at"):
        correct(store, "2026-01-02", battery="spare", taken_at="2026-01-03T07:00")
    assert correct(store, "2026-01-02", taken_at="2026-01-02T08:00") == 12.7
    assert correct(store, "2026-01-02", taken_at="2026-01-02T08:00", volts="12.65") == 12.65
    assert [(f"{r.taken_at:%d %H}", r.volts_v) for r in readings.listed(store, "heron", count=9)] == [
        ("02 08", 12.65),
        ("01 07", 12.0),
    ]


def test_a_reading_to_come_that_is_there_already_may_still_be_corrected_where_it_stands(store: Store) -> None:
    with_readings(store, "2031-01-01T07:00")
    assert correct(store, "last", volts="12.4") == 12.4


def test_a_moment_is_written_as_short_as_it_means_one_reading(store: Store) -> None:
    with_readings(store, "2026-01-01T07:00:10", "2026-01-02T07:00:05", "2026-01-02T07:00:45")
    found = {readings.shortest(store, reading) for reading in readings.listed(store, "heron", count=9)}
    assert found == {"2026-01-01T07:00", "2026-01-02T07:00:05", "2026-01-02T07:00:45"}
