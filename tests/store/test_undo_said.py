"""Why a command cannot be taken back, in words that name what stands in the way; and what trouble looks like."""

from __future__ import annotations

import errno
import sqlite3
from contextlib import closing
from datetime import date, datetime
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, StoreError
from kitlist.kit.checked import Answer
from kitlist.store import Store, changes, checked_off, journalled, noting, readings, trouble, undoing, welds
from kitlist.store.noting import Noting, Signature
from new_store import demo_store

AT = datetime(2027, 5, 9, 18)  # noqa: DTZ001 - the store keeps local time


def test_what_stands_on_a_thing_is_named_be_it_a_reference_or_an_answer_about_it(store: Store) -> None:
    changes.add(store, "bag", {"name": "box"})
    changes.add(store, "tool", {"name": "chocks", "what": "chocks", "bag": "box"})
    with pytest.raises(BadData, match="tool chocks stands on bag box"):
        undoing.undo(store, 1)
    changes.add(store, "trip", {"name": "lake", "starts_on": "2027-05-08", "ends_on": "2027-05-16"})
    checked_off.record(store, "lake", [("tool", "chocks", Answer.THERE, 1)], by="Ada", at=AT)
    with pytest.raises(BadData, match="stands on tool chocks") as caught:
        undoing.undo(store, 2)
    assert "kitlist" in caught.value.hint
    undoing.undo(store, 4)
    changes.remove(store, "tool", "chocks")
    with pytest.raises(BadData, match=r"tool chocks was changed since by .*\(6\)") as caught:
        undoing.undo(store, 2)
    assert caught.value.hint == "Take that back first: kitlist undo 6"


def test_a_removal_is_taken_back_only_where_nothing_else_has_come_in_its_place(store: Store) -> None:
    changes.add(store, "battery", {"name": "a", "place": "loose"})
    changes.add(store, "reading", {"battery": "a", "volts": 12.5, "taken_at": "2026-01-01T07:00"})
    undoing.undo(store)
    changes.add(store, "reading", {"battery": "a", "volts": 12.6, "taken_at": "2026-01-01T07:00"})
    with pytest.raises(BadData, match="cannot be taken back"):
        undoing.undo(store, 3)  # to have the first again: another stands at its moment
    assert [r.volts_v for r in readings.listed(store, "a", count=9)] == [12.6]


def test_the_journal_says_the_words_and_who_as_far_as_they_are_kept(store: Store) -> None:
    with store.writing() as change:
        made = Noting(change.connection, Signature("w" * 999, "n" * 300))
        made.inserted("bag", {"name": "x"})
        row = change.connection.execute("SELECT words, who FROM journal WHERE id = ?", (made.number,)).fetchone()
        change.roll_back()
    assert (len(row[0]), len(row[1])) == (noting.LONGEST, 120)
    came = journalled.Came.of({"at": "2026-01-01 07:00:00", "words": "w", "who": "n" * 300, "changes": ["c"]})
    assert 100 <= len(came.who) <= 120
    for wrong, why in (({"at": "today"}, "at = "), ({"words": 3}, "words and who"), ({"changes": "c"}, "changes must")):
        with pytest.raises(ValueError, match=why):
            journalled.Came.of({"at": "2026-01-01 07:00:00", "words": "", "who": "", "changes": []} | wrong)


def test_readings_that_came_together_stand_in_the_journal_of_their_battery_alone(store: Store, tmp_path: Path) -> None:
    from kitlist.store.importing import import_file

    for name in ("a", "b"):
        changes.add(store, "battery", {"name": name, "place": "loose"})
    file = tmp_path / "reading.csv"
    file.write_text(
        "battery,volts_v,taken_at\n" + "a,12.5,2026-01-01T07:00\na,12.5,2026-01-02T07:00\n", encoding="utf-8"
    )
    import_file(store, file)
    found = {name: [entry.number for entry, _ in journalled.listed(store, name)] for name in ("a", "b")}
    assert found == {"a": [3, 1], "b": [2]}


def test_damage_is_said_by_sqlite_s_last_line_or_by_the_reference_that_leads_nowhere(store: Store) -> None:
    with closing(sqlite3.connect(store.path, isolation_level=None)) as connection:
        assert trouble.damage(connection) == ""
        connection.execute("PRAGMA foreign_keys = OFF")
        changes.add(store, "vehicle", {"name": "Heron"})
        changes.add(store, "battery", {"name": "main", "vehicle": "Heron"})
        connection.execute("DELETE FROM vehicle")
        assert trouble.damage(connection) == "a battery refers to a vehicle that is not there"


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (OSError(errno.ENOSPC, "x"), "the disk has no room for"),
        (OSError(errno.EACCES, "x"), "Permission denied"),
        (OSError("of its own"), "of its own"),
    ],
)
def test_what_the_system_says_of_a_file_that_cannot_be_written_is_passed_on(
    tmp_path: Path, error: OSError, said: str
) -> None:
    with pytest.raises(StoreError, match=said), trouble.written(tmp_path / "a.db"):
        raise error
    with pytest.raises(StoreError, match="there is no folder"), trouble.written(tmp_path / "none" / "a.db"):
        raise OSError(errno.ENOENT, "x")


def test_a_read_that_fails_in_its_own_way_on_a_damaged_store_says_the_damage(store: Store) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    changes.add(store, "battery", {"name": "main", "vehicle": "Heron"})
    with closing(sqlite3.connect(store.path, isolation_level=None)) as connection:
        connection.execute("DELETE FROM vehicle")
    said = "is damaged: a battery refers to a vehicle that is not there"
    with pytest.raises(StoreError, match=said), trouble.explained(store.path):
        raise ValueError("x")


def test_a_name_that_was_given_anew_meanwhile_is_not_taken_from_what_has_it_now(store: Store) -> None:
    changes.add(store, "bag", {"name": "box"})
    changes.edit(store, "bag", "box", {"name": "crate"})
    changes.add(store, "bag", {"name": "box", "place": "roof"})
    with pytest.raises(BadData, match="bag crate: something later stands on it"):
        undoing.undo(store, 2)
    with closing(sqlite3.connect(store.path, isolation_level=None)) as connection:
        connection.execute("UPDATE bag SET place = 'bed' WHERE name = 'box'")
    with pytest.raises(BadData, match=r"bag box was changed since$") as caught:  # by no command that is known
        undoing.undo(store, 3)
    assert caught.value.hint == undoing.HINT
    assert changes.one(store, "bag", "box").place == "bed"


def test_text_that_is_none_is_damage_and_a_fault_of_the_program_s_own_is_not(store: Store) -> None:
    with pytest.raises(StoreError, match="is damaged: it holds text that is none"), trouble.explained(store.path):
        b"\xff".decode("utf-8")
    with pytest.raises(KeyError), trouble.explained(store.path):
        raise KeyError("x")
    with pytest.raises(StoreError, match="could not do that: odd") as caught, trouble.explained(store.path):
        raise sqlite3.OperationalError("odd")
    assert "--traceback" in caught.value.hint


def test_what_a_weld_lacks_to_teach_is_said(tmp_path: Path) -> None:
    demo = demo_store(tmp_path / "kit.db")
    bank = ["heron-main", "plover-main", "plover-second"]
    given = {"welded_on": date(2027, 5, 9), "rods": 1, "bank": bank, "rod": "general rods", "before": "38.1"}
    lacking = welds.add_weld(demo, given | {"name": "one", "after": "37.9"})
    whole = welds.add_weld(demo, given | {"name": "two", "after": "37.9", "after_rested": "2h"})
    neither = welds.add_weld(demo, given | {"name": "three"})
    assert [len(welds.what_follows(done)) for done in (lacking, whole, neither)] == [2, 1, 1]
    assert "they teach nothing" in welds.what_follows(lacking)[1]
    assert welds.add_weld(demo, given | {"name": "one"}).weld.name == "one 2"


def test_readings_that_came_together_and_of_which_one_changed_name_the_command_that_changed_it(
    store: Store, tmp_path: Path
) -> None:
    from kitlist.store.importing import import_file

    changes.add(store, "battery", {"name": "a", "place": "loose"})
    file = tmp_path / "reading.csv"
    file.write_text("battery,volts_v,taken_at\na,12.5,2026-01-01T07:00\na,12.5,2026-01-02T07:00\n", encoding="utf-8")
    import_file(store, file)
    readings.correct(store, "a", "2026-01-01", {"volts": "12.4"}, by_clock=AT)
    with pytest.raises(BadData, match=r"2 readings were changed since by .*\(3\)") as caught:
        undoing.undo(store, 2)
    assert caught.value.hint == "Take that back first: kitlist undo 3"


def test_a_way_out_is_named_where_there_is_one_and_passing_trouble_is_no_damage(store: Store) -> None:
    assert "enter it anew" not in trouble.damaged(store.path, "x").hint
    assert (
        "enter it anew: kitlist reading remove"
        in trouble.damaged(store.path, "x", way_out="kitlist reading remove").hint
    )
    assert trouble.passing(StoreError("it is in use"))
    assert not trouble.passing(StoreError("the store is damaged: x"))
    assert not trouble.passing(StoreError("the copy does not read back the same"))
    assert not trouble.passing(ValueError("x"))
