"""Files of every kind at their edges: the right line is named, the right place is used, nothing is read by halves."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, BadFile, StoreError
from kitlist.store import Store, changes, csvfile, importing, jsonfile, opening, readings, ring, tomlfile
from kitlist.store.entries import Entry, WrongEntry
from kitlist.store.exporting import export
from kitlist.store.own_rulebook import own_rulebook
from new_store import demo_store


def wrong_of(path: Path) -> list[tuple[int, str]]:
    return [(item.line, item.sentence) for item in tomlfile.read(path) if isinstance(item, WrongEntry)]


def test_a_toml_file_s_things_are_on_the_lines_they_stand_on_and_what_is_no_thing_is_told(tmp_path: Path) -> None:
    path = tmp_path / "kit.toml"
    path.write_text(
        'title = "x"\n[vehicle]\nname = "Heron"\n[[battery]]\nname = "a"\nnote = """\n[[battery]]\nname = "no"\n"""\n'
        'place = "loose"\n[[battery]]\nplace = "loose"\nname = "b"\n[[tool]]\nname = "t"\n',
        encoding="utf-8",
    )
    found = list(tomlfile.read(path))
    assert [(i.line, i.sentence[:9]) for i in found if isinstance(i, WrongEntry)] == [
        (1, "'title' m"),
        (2, "[vehicle]"),
    ]
    things = [(i.kind, i.values["name"], i.line, i.field_lines) for i in found if isinstance(i, Entry)]
    assert things == [
        ("battery", "a", 4, {"name": 5, "note": 6, "place": 10}),
        ("battery", "b", 11, {"place": 12, "name": 13}),
        ("tool", "t", 14, {"name": 15}),
    ]
    path.write_text('battery = [{name = "a"}, 3]\n', encoding="utf-8")
    assert wrong_of(path)[0][0] == 1
    path.write_text('[[battery]]\nname = "a"\nplace = \n[[battery]]\nname = "unfinished\n', encoding="utf-8")
    assert [line for line, _ in wrong_of(path)] == [3, 5]
    path.write_text('[[battery]]\nname = "a"\nnote = """\nnever closed\n', encoding="utf-8")
    ((line, _),) = wrong_of(path)
    assert 1 <= line <= 4


def test_a_line_of_nothing_but_a_pasted_space_is_named_and_a_pasted_line_mark_in_a_note_begins_no_line(
    tmp_path: Path,
) -> None:
    path = tmp_path / "kit.toml"
    path.write_text('[[battery]]\n\u00a0\nname = "a"\nplace = "loose"\n', encoding="utf-8")
    assert [line for line, _ in wrong_of(path)] == [2]
    text = '[[battery]]\nnote = "one\u2028two\u0085three"\nplace = \nname = "a"\n'
    path.write_text(text, encoding="utf-8")
    assert [(line, said.split(":")[0]) for line, said in wrong_of(path)] == [(3, "'place ='")]
    path.write_text(text.replace("place = ", 'place = "loose"') + "[boat]\n", encoding="utf-8")
    thing, wrong = sorted(tomlfile.read(path), key=lambda item: item.line)
    assert isinstance(thing, Entry)
    assert (thing.field_lines, wrong.line) == ({"note": 2, "place": 3, "name": 4}, 5)


def test_a_csv_is_of_the_kind_that_is_said_or_that_its_name_says_and_bad_bytes_have_a_line(tmp_path: Path) -> None:
    assert csvfile.kind_of(tmp_path / "batteries.csv") == "battery"
    assert csvfile.kind_of(tmp_path / "Battery.csv") == "battery"
    assert csvfile.kind_of(tmp_path / "batteries.csv", "vehicles") == "vehicle"
    with pytest.raises(BadFile, match="what kind of thing it holds is not known"):
        csvfile.kind_of(tmp_path / "batteries.csv", "boats")
    path = tmp_path / "battery.csv"
    path.write_bytes(b"name,place\nheron,loose\n\nplover,lo\xffose\n")
    found = list(csvfile.read(path, "battery"))
    assert isinstance(found[-1], WrongEntry)
    assert "is not UTF-8" in found[-1].sentence
    path.write_text("name,place\n'heron,loose\n\nplover\nstilt,'=loose\n", encoding="utf-8")
    found = list(csvfile.read(path, "battery"))
    assert [(i.line, i.values if isinstance(i, Entry) else i.sentence) for i in found] == [
        (2, {"name": "'heron", "place": "loose"}),
        (4, "1 cells stand under 2 headings"),
        (5, {"name": "stilt", "place": "=loose"}),
    ]
    path.write_text(f"name;{'x' * 70}\nheron;1\n", encoding="utf-8")
    said = [i.sentence for i in csvfile.read(path, "battery") if isinstance(i, WrongEntry)]
    assert said[0].startswith(f"the heading '{'x' * 60}' is no field of a battery")


def test_an_empty_cell_says_nothing_or_that_the_field_is_empty_and_texts_on_one_line_end_on_it(tmp_path: Path) -> None:
    path = tmp_path / "battery.csv"
    path.write_text("name,place,note\nheron,,\n", encoding="utf-8")
    (plain,) = csvfile.read(path, "battery")
    (emptied,) = csvfile.read(path, "battery", empties=True)
    assert isinstance(plain, Entry)
    assert isinstance(emptied, Entry)
    assert plain.values == {"name": "heron"}
    assert emptied.values == {"name": "heron", "place": None, "note": None}
    path = tmp_path / "kit.toml"
    path.write_text('[[battery]]\nname = """a"""\nplace = "loose"\n', encoding="utf-8")
    (found,) = tomlfile.read(path)
    assert isinstance(found, Entry)
    assert found.field_lines == {"name": 2, "place": 3}


def test_a_folder_without_a_csv_is_told_and_a_file_that_is_too_large_or_one_value_too_long_is_not_read(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "sheets"
    folder.mkdir()
    (folder / ".battery.csv").write_text("name\n", encoding="utf-8")
    with pytest.raises(BadFile, match=r"there is no \.csv file in"):
        importing.import_file(store, folder)
    path = tmp_path / "kit.json"
    path.write_text(json.dumps({"vehicle": [{"name": "Heron"}]}), encoding="utf-8")
    monkeypatch.setattr(jsonfile, "MAX_BYTES", path.stat().st_size)
    assert len(list(jsonfile.read(path))) == 1
    monkeypatch.setattr(jsonfile, "MAX_BYTES", path.stat().st_size - 1)
    with pytest.raises(BadFile, match="is larger than"):
        list(jsonfile.read(path))


def test_what_comes_in_twice_or_otherwise_or_was_removed_is_told_field_by_field(store: Store, tmp_path: Path) -> None:
    changes.add(store, "battery", {"name": "Heron", "place": "loose", "c20": "70"})
    changes.add(store, "battery", {"name": "gone", "place": "loose"})
    changes.add(store, "reading", {"battery": "Heron", "volts": 12.5, "taken_at": "2026-01-01T07:00"})
    changes.remove(store, "battery", "gone")
    file = tmp_path / "kit.json"

    def told(kind: str, **values: object) -> str:
        file.write_text(json.dumps({kind: [values]}), encoding="utf-8")
        with pytest.raises(BadFile) as caught:
            importing.import_file(store, file)
        (line,) = caught.value.lines
        return line

    removed = "2026-01-01 07:00:00"
    assert "is in the kit with another c20_ah" in told("battery", name="Heron", place="loose", c20_ah=60)
    assert "'gone' was removed from the kit: restore it" in told("battery", name="gone", place="loose")
    assert "with another removed_at" in told("battery", name="Heron", place="loose", c20_ah=70, removed_at=removed)
    assert "removed_at must be a time" in told("battery", name="new", place="loose", removed_at="yesterday")
    assert "no battery is called that" in told("reading", battery="none", volts_v=12, taken_at="2026-01-01T08:00")
    at = "2026-01-01T07:00:00"
    assert "another reading at" in told("reading", battery="heron", volts_v=12.4, taken_at=at)
    assert "another reading at" in told("reading", battery="heron", volts_v=12.5, taken_at=at, removed_at=removed)
    file.write_text(json.dumps({"reading": [{"battery": "heron", "volts_v": 12.5, "taken_at": at}]}), encoding="utf-8")
    done = importing.import_file(store, file)
    assert (done.added["reading"], done.unchanged["reading"]) == (0, 1)


def test_many_readings_come_in_whole_however_they_fall_into_lots(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from kitlist.store import batch

    changes.add(store, "battery", {"name": "a", "place": "loose"})
    file = tmp_path / "reading.csv"
    for lot in (3, 4, 5):
        monkeypatch.setattr(batch, "AT_ONCE", lot)
        lines = "".join(f"A,12.5,20{lot}0-01-0{n + 1}T07:00\n" for n in range(8))
        file.write_text("battery,volts_v,taken_at\n" + lines, encoding="utf-8")
        assert importing.import_file(store, file).added["reading"] == 8
        assert importing.import_file(store, file).unchanged["reading"] == 8
    assert len(readings.listed(store, "a", count=99)) == 24


def test_none_as_a_reference_takes_it_away(tmp_path: Path) -> None:
    demo = demo_store(tmp_path / "kit.db")
    assert changes.one(demo, "tool", "chocks").bag is not None
    assert changes.edit(demo, "tool", "chocks", {"bag": "None"}).bag is None


def test_a_store_is_started_once_and_says_whether_a_file_or_a_folder_is_in_its_place(tmp_path: Path) -> None:
    assert opening.empty_file(tmp_path / "deep" / "kit.db") is True
    assert opening.empty_file(tmp_path / "deep" / "kit.db") is False  # left by a start that was interrupted
    opening.start(tmp_path / "deep" / "kit.db")
    for place, what in ((tmp_path / "deep", "folder"), (tmp_path / "deep" / "kit.db", "file")):
        with pytest.raises(StoreError, match=f"there is already a {what} at"):
            opening.start(place)


def test_a_start_that_fails_leaves_no_empty_file_of_its_own_and_never_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(connection: object, path: Path) -> None:
        raise StoreError("no")

    monkeypatch.setattr(opening.schema, "bring_forward", fails)
    own, earlier = tmp_path / "own.db", tmp_path / "earlier.db"
    earlier.touch()
    for path in (own, earlier):
        with pytest.raises(StoreError, match="no"):
            opening.start(path)
    assert (own.exists(), earlier.exists()) == (False, True)


def test_the_rulebook_is_the_one_that_is_named_else_the_one_beside_the_store(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("KITLIST_RULEBOOK", raising=False)
    usual = own_rulebook(store).limits.wet_limit_v
    store.path.with_name("rulebook.toml").write_text("wet_limit_v = 20\n", encoding="utf-8")
    (tmp_path / "named.toml").write_text("wet_limit_v = 21\n", encoding="utf-8")
    beside = own_rulebook(store).limits.wet_limit_v
    assert (usual != 20, beside) == (True, 20)
    monkeypatch.setenv("KITLIST_RULEBOOK", str(tmp_path / "named.toml"))
    assert own_rulebook(store).limits.wet_limit_v == 21
    monkeypatch.setenv("KITLIST_RULEBOOK", str(tmp_path / "none.toml"))
    with pytest.raises(BadFile, match="cannot read the rulebook"):
        own_rulebook(store)
    monkeypatch.setenv("KITLIST_RULEBOOK", str(tmp_path))
    with pytest.raises(BadFile, match="is no file"):
        own_rulebook(store)


def test_a_copy_that_was_only_reserved_is_no_copy(store: Store) -> None:
    place = ring.reserved(store.path, "before-import")
    assert ring.automatic(store.path) == ()
    place.write_bytes(b"x" * ring.PLACE_BYTES)
    assert ring.automatic(store.path) == ()
    place.write_bytes(b"x" * (ring.PLACE_BYTES + 1))
    assert ring.automatic(store.path) == (place,)
    assert ring.reserved(store.path, "before-import").name.startswith("00002-")


def test_an_export_of_before_the_journal_begins_is_refused_and_one_of_another_store_is_not_dated(
    tmp_path: Path,
) -> None:
    from kitlist.store import since_export

    demo = demo_store(tmp_path / "kit.db")
    changes.edit(demo, "tool", "chocks", {"note": "worn"})
    export(demo, tmp_path / "kit.json")
    journal = json.loads((tmp_path / "kit.json").read_text(encoding="utf-8"))["journal"]
    changes.edit(demo, "tool", "chocks", {"note": "new"})
    with demo.viewing() as connection:
        assert not since_export.since(connection, []).known
        known = since_export.since(connection, journal)
        assert known.known
        assert known.base["tool", "chocks", "note"][0] == "worn"
        assert not since_export.since(connection, [journal[-1] | {"words": "another"}]).known
        assert not since_export.since(connection, [journal[-1] | {"number": 999}]).known
        early = journal[-1] | {"number": 0, "at": "2000-01-01 00:00:00"}
        with pytest.raises(BadData, match="before the oldest command"):
            since_export.since(connection, [early])
        assert not since_export.since(connection, [early | {"at": "2999-01-01 00:00:00"}]).known
