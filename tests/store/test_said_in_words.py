"""What the store says of itself in words: imports, exports, the journal's lines, the starter kit, the usual place."""

from __future__ import annotations

import gc
import io
from collections import Counter
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from kitlist.base.errors import BadData
from kitlist.kit import Battery
from kitlist.kit.checked import Answer
from kitlist.store import (
    Store,
    changes,
    checked_off,
    csvfile,
    guide_answers,
    journalled,
    opening,
    rod_events,
    starting,
    trip_use,
    trouble,
    welds,
)
from kitlist.store.entries import is_moment
from kitlist.store.importing import Imported, import_file
from new_store import demo_store, new_store

TRIP = "Dry lake survey"
ON = date(2027, 5, 9)


def test_an_import_says_what_came_and_what_was_there_only_where_something_was(store: Store, tmp_path: Path) -> None:
    assert Imported(Counter(tool=1, battery=2), Counter()).words == "added 1 tool, 2 batteries"
    assert Imported(Counter(), Counter(bag=3)).words == "added nothing; 3 there already, unchanged"
    file = tmp_path / "bag.csv"
    file.write_text("name\nbox\n", encoding="utf-8")
    gc.disable()  # whoever has turned the search for cycles off keeps it off
    try:
        import_file(store, file)
        assert not gc.isenabled()
    finally:
        gc.enable()
    import_file(store, file)
    assert gc.isenabled()


def test_an_export_counts_its_rows_and_what_is_not_known_is_an_empty_cell() -> None:
    written = io.StringIO()
    battery = Battery(name="a")
    assert csvfile.write("battery", [(battery, None), (battery, "2026-01-01 07:00:00")], written) == 2
    assert csvfile.write("battery", [], io.StringIO()) == 0
    heads, first, second = (line.split(",") for line in written.getvalue().splitlines())
    assert first[heads.index("c20_ah")] == ""
    assert (first[-1], second[-1]) == ("", "2026-01-01 07:00:00")
    assert "None" not in written.getvalue()


def test_the_journal_says_in_words_what_came_went_was_removed_or_brought_back(store: Store) -> None:
    changes.add(store, "tool", {"name": "chocks", "what": "chocks", "count": 4})
    changes.edit(store, "tool", "chocks", {"count": "2", "name": "wedges"})
    changes.remove(store, "tool", "wedges")
    changes.restore(store, "tool", "wedges")
    said = [journalled.in_words(change) for _, (change, *_) in journalled.listed(store)]
    assert said[0] == "tool wedges: brought back"
    assert said[1] == "tool wedges: removed"
    assert said[2].startswith("tool chocks: ")
    assert "count 4 -> 2" in said[2]
    assert said[3] == "tool chocks: added"
    one = journalled.RowChange(1, "reading", ({"battery": "a", "taken_at": "x"},), None, None)
    two = journalled.RowChange(1, "reading", one.before * 2, None, None)
    assert [journalled.in_words(c).rsplit(" ", 1)[1] for c in (one, two)] == ["gone", "gone"]
    assert two.title == "2 readings"
    assert one.title != "1 readings"
    span = journalled.RowChange(1, "reading", (), None, (5, 5))
    assert (span.title, journalled.in_words(span)) == ("1 reading", "1 reading: added")


def test_damage_is_the_last_line_of_what_sqlite_says(store: Store) -> None:
    class Found:
        def execute(self, query: str) -> Any:
            return [("*** in database main ***\nTree 2 page 4: odd",)] if "integrity" in query else None

    assert trouble.damage(Found()) == "Tree 2 page 4: odd"  # type: ignore[arg-type]


def test_volts_read_battery_by_battery_are_added_up_and_what_is_no_number_stays() -> None:
    assert welds.added_up("12.6+12.5") == "25.100"
    assert welds.added_up("12.6+ten") == "12.6+ten"
    assert welds.added_up("ten") == "ten"
    assert [is_moment(value) for value in (5, None, "2026-13-01 07:00:00", "2026-01-01 07:00:00")] == [
        False,
        False,
        False,
        True,
    ]


def test_rods_of_a_weld_said_before_take_none_off_and_leave_no_line_in_the_packet_s_history(tmp_path: Path) -> None:
    demo = demo_store(tmp_path / "kit.db")
    bank = ["heron-main", "plover-main", "plover-second"]
    trip_use.record(demo, TRIP, ["general rods=4"], on=ON)
    left, events = changes.one(demo, "rod", "general rods").count, len(rod_events.history(demo, "general rods"))
    given = {"name": "w", "welded_on": ON, "bank": bank, "trip": TRIP}
    assert welds.add_weld(demo, given | {"rods": 3, "rod": "general rods"}).rods_off == 0
    assert changes.one(demo, "rod", "general rods").count == left
    assert len(rod_events.history(demo, "general rods")) == events
    assert welds.add_weld(demo, given | {"rods": 2}).rods_off == 0  # which rods is not said
    with pytest.raises(BadData, match="which batteries it was welded from is not said"):
        welds.add_weld(demo, {"name": "x", "welded_on": ON, "rods": 3, "rod": "general rods"})


def test_rods_that_were_missing_at_a_check_off_are_still_what_is_recorded(tmp_path: Path) -> None:
    demo = demo_store(tmp_path / "kit.db")
    left = changes.one(demo, "rod", "general rods").count
    at = datetime(2027, 5, 9, 18)  # noqa: DTZ001 - the store keeps local time
    checked_off.record(demo, TRIP, [("rod", "general rods", Answer.MISSING, 0)], by="Ada", at=at)
    assert trip_use.used_rods(demo, "general rods", 2, on=date(2031, 1, 1)).rod.count == left - 2


def test_the_starter_kit_goes_into_a_kit_that_holds_nothing_packed(store: Store, tmp_path: Path) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    assert sum(starting.take_starter(store, dry_run=True).added.values()) > 20
    assert changes.listed(store, "bag") == ()
    starting.take_starter(store)
    with pytest.raises(BadData, match="the kit has things in its bags already: "):
        starting.take_starter(store)
    assert len(changes.listed(store, "bag")) == len(changes.listed(starting_store(tmp_path), "bag"))


def starting_store(folder: Path) -> Store:
    other = new_store(folder / "other.db")
    starting.take_starter(other)
    return other


def test_the_usual_place_is_a_file_in_the_folder_for_data(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("KITLIST_STORE")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert opening.default_path() == tmp_path / "kitlist" / "kit.db"
    monkeypatch.setenv("KITLIST_STORE", "~/mine.db")
    assert opening.default_path() == Path("~/mine.db").expanduser()


def test_the_guided_start_keeps_its_answers_in_order_and_forgets_what_is_asked_again(store: Store) -> None:
    assert guide_answers.answers(store) == {}
    for before, now in (
        ({}, {"vehicle": "Heron", "battery": "main"}),
        ({"vehicle": "Heron", "battery": "main"}, {"vehicle": "Heron", "battery": "main", "c20": "70"}),
        ({"vehicle": "Heron", "battery": "main", "c20": "70"}, {"vehicle": "Heron", "c20": "70", "leads": "two"}),
    ):
        with store.writing() as change:
            guide_answers.keep_within(change, before, now)
        assert guide_answers.answers(store) == now
    assert list(guide_answers.answers(store)) == ["vehicle", "c20", "leads"]
