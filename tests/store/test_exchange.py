"""Export and import: a round trip changes nothing, whatever a file holds it is taken whole or refused whole."""

from __future__ import annotations

import csv
import json
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from kitlist.base import resources
from kitlist.base.errors import BadFile, KitlistError, StoreError, UsageError
from kitlist.base.fields import fields_of
from kitlist.kit import KINDS, PLURALS
from kitlist.store import Store, changes, csvfile, jsonfile
from kitlist.store.exporting import everything, export
from kitlist.store.importing import import_file
from kitlist.store.snapshot import snapshot
from new_store import new_store

INPUTS = int(os.environ.get("KITLIST_TEST_INPUTS", "30"))  # of each kind of file; the bar is 2000 of all together
PHASES = (Phase.explicit, Phase.generate)  # a failing kit takes minutes to shrink
MANY = settings(max_examples=INPUTS, deadline=None, suppress_health_check=list(HealthCheck), phases=PHASES)
DEMO = resources.folder("seed_data") / "demo" / "kit.toml"


def kept(store: Store) -> dict[str, list[tuple[Any, str | None]]]:
    """All that is in a store, the removed things too."""
    with store.viewing() as connection:
        return {kind: list(everything(connection, kind)) for kind in KINDS}


def carried(store: Store, folder: Path, ending: str) -> Store:
    """What a new store holds after an export from one and an import into it."""
    file = folder / f"out{ending}"
    export(store, file)
    new = new_store(folder / f"new{ending or '-csv'}.db")
    import_file(new, file)
    return new


def bad_lines(store: Store, file: Path, text: str, **more: Any) -> tuple[str, ...]:
    file.write_text(text, encoding="utf-8")
    before = kept(store)
    with pytest.raises(BadFile) as caught:
        import_file(store, file, **more)
    assert kept(store) == before
    return caught.value.lines


@pytest.mark.parametrize("ending", [".json", ""])
def test_the_demo_s_kit_comes_back_as_it_was_the_removed_things_too(store: Store, tmp_path: Path, ending: str) -> None:
    import_file(store, DEMO)
    changes.add(store, "battery", {"name": "old", "place": "loose"})
    changes.add(store, "reading", {"battery": "old", "volts": 12.123456789, "taken_at": "2026-01-01T07:00:00.25"})
    changes.remove(store, "battery", "old")
    assert kept(carried(store, tmp_path, ending)) == kept(store)


@pytest.mark.parametrize("ending", [".json", ""])
def test_an_export_imported_into_its_own_store_changes_nothing(store: Store, tmp_path: Path, ending: str) -> None:
    import_file(store, DEMO)
    before = kept(store)
    export(store, tmp_path / f"out{ending}")
    done = import_file(store, tmp_path / f"out{ending}")
    assert sum(done.added.values()) == 0
    assert kept(store) == before
    assert not list((tmp_path / "kit.db.copies").glob("*"))


names = st.text(min_size=1, max_size=12) | st.sampled_from(
    ["=1+1", "'74 wagon", "a, b", 'say "hi"', "'=x", "a;-b", "@x"]
)


def a_value(field: Any, several: dict[str, list[str]]) -> st.SearchStrategy[Any]:
    """Values that one field may take."""
    if field.about.refers:
        there = several.get(field.about.refers, [])
        if field.type is tuple:
            return st.lists(st.sampled_from(there), unique=True, max_size=3) if there else st.just([])
        one = st.sampled_from(there) if there else st.nothing()
        return one | st.none() if field.optional else one
    low, high = field.about.low, field.about.high
    plain: st.SearchStrategy[Any]
    if field.type is float:
        plain = st.floats(low, high, allow_nan=False)
    elif field.type is int:
        plain = st.integers(int(low or 0), int(high or 9))
    elif field.type is bool:
        plain = st.booleans()
    elif field.type is date:
        plain = st.dates(date(1950, 1, 1), date(2199, 12, 31))
    elif field.type is datetime:
        plain = st.datetimes(datetime.fromisoformat("1950-01-01"), datetime.fromisoformat("2199-12-31"))
    elif issubclass(field.type, StrEnum):
        plain = st.sampled_from(list(field.type))
    else:
        plain = names if field.required else names | st.just("")
    return plain | st.none() if field.optional else plain


@st.composite
def kits(draw: st.DrawFn) -> list[tuple[str, dict[str, Any]]]:
    """Things of every kind, each with whatever its fields may hold; some of them do not hold together."""
    several: dict[str, list[str]] = {}
    found = []
    for kind, cls in KINDS.items():
        for _ in range(draw(st.integers(0, 2))):
            try:
                values = {f.name: draw(a_value(f, several)) for f in fields_of(cls)}
            except Exception:  # nothing to refer to
                continue
            found.append((kind, values))
            several.setdefault(kind, []).append(str(values.get("name", "")))
    return found


@MANY
@given(kits(), st.sampled_from([".json", ""]))
def test_whatever_a_kit_holds_a_round_trip_changes_nothing(
    tmp_path_factory: pytest.TempPathFactory, things: list[tuple[str, dict[str, Any]]], ending: str
) -> None:
    folder = tmp_path_factory.mktemp("trip")
    store = new_store(folder / "kit.db")
    for kind, values in things:
        try:
            changes.add(store, kind, {name: value for name, value in values.items() if value is not None})
        except KitlistError:
            continue
    assert kept(carried(store, folder, ending)) == kept(store)


def test_every_bad_row_of_a_csv_is_reported_with_its_line_and_value(store: Store, tmp_path: Path) -> None:
    text = 'name,c20_ah,place,note\ntwo,70,loose,"two\nlines"\n\nbig,9000,loose,\nodd,70,lost,\n'
    text += "fine,70,loose,\nfine,70,loose,\nshort,70\n"
    lines = bad_lines(store, tmp_path / "battery.csv", text)
    assert [line.split(":")[1] for line in lines] == ["2", "5", "6", "8", "9"]
    assert "note = 'two\\nlines': must be text" in lines[0]
    assert lines[1] == "battery.csv:5: battery 'big': c20_ah = '9000': must be a number from 5 to 400 Ah"
    assert "must be one of start, second, loose" in lines[2]
    assert "stands in battery.csv, line 7, already" in lines[3]
    assert "2 cells stand under 4 headings" in lines[4]


def test_headings_that_name_no_field_are_reported_once(store: Store, tmp_path: Path) -> None:
    lines = bad_lines(store, tmp_path / "bag.csv", "name,colour,name\na,red,b\nb,red,c\n")
    assert [line.split(":")[1] for line in lines] == ["1", "1"]
    assert "'colour' is no field of a bag; the headings may be name, place, walk_order, note" in lines[0]
    assert "'name' stands there twice" in lines[1]


def test_a_csv_as_a_spreadsheet_of_another_country_saves_it_is_read(store: Store, tmp_path: Path) -> None:
    file = tmp_path / "vehicles.csv"
    file.write_bytes("\ufeffName;Crank A\r\nHeron;380,5\r\n".encode())
    assert import_file(store, file).added == {"vehicle": 1}
    assert snapshot(store).vehicles[0].crank_a == 380.5


def test_every_bad_thing_of_a_json_is_reported_with_the_line_it_stands_on(store: Store, tmp_path: Path) -> None:
    text = (
        '{\n"bag": [\n  {"name": "a",\n   "walk_order": 500},\n  {"name": "b", "name": "c"},\n  7\n],\n'
        '"nonsense": [],\n"vehicle": {"name": "x"},\n"kitlist": 4,\n"reading": [\n{"battery": "zz", "volts_v": NaN,\n'
        '"taken_at": "2027-01-01T07:00+02:00"}]}'
    )
    lines = bad_lines(store, tmp_path / "kit.json", text)
    assert [line.split(":")[1] for line in lines] == ["4", "5", "6", "8", "9", "10", "12", "12", "13"]
    assert "walk_order = 500: must be a whole number from 0 to 99" in lines[0]
    assert "name is given twice" in lines[1]
    assert "this kitlist reads formats 1 to 3" in lines[5]
    assert any("no battery is called that" in line for line in lines)
    assert "must be a time like 2026-11-25T07:30" in lines[8]


@pytest.mark.parametrize(
    ("text", "line"),
    [("", 1), ("[1]", 1), ('{"bag": [\n{"name": "a"}\n', 3), ('{"bag": [\n{"name": a}]}', 2), ('{\n"bag": [] } x', 2)],
)
def test_what_is_no_json_is_refused_with_the_line_where_it_breaks(
    store: Store, tmp_path: Path, text: str, line: int
) -> None:
    (said,) = bad_lines(store, tmp_path / "kit.json", text)
    assert said.startswith(f"kit.json:{line}: cannot be read as JSON")


@pytest.mark.parametrize("text", ['{"bag": [{"walk_order": ' + "9" * 5000 + "}]}", '{"bag": ' + "[" * 100_000])
def test_numbers_and_lists_beyond_all_measure_are_refused_in_a_sentence(
    store: Store, tmp_path: Path, text: str
) -> None:
    assert bad_lines(store, tmp_path / "kit.json", text)
    toml = text.replace('{"bag": [{"walk_order": ', "[[bag]]\nwalk_order = ").replace('{"bag": ', "bag = ").rstrip("]}")
    assert bad_lines(store, tmp_path / "kit.toml", toml)
    assert bad_lines(store, tmp_path / "kit.toml", "[[bag]]\nname = 'a'\nwalk_order = 0x" + "f" * 9000)


@pytest.mark.parametrize("chunk", [1, 2, 3, 7, 64])
def test_a_json_read_in_small_pieces_is_read_the_same(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, chunk: int
) -> None:
    file = tmp_path / "kit.json"
    file.write_text('\ufeff{ "bag" : [ {"name": "a", "walk_order": 12} ,\n {"name": "b",\n"x": 1.25} ],\n"kitlist":12}')
    whole = list(jsonfile.read(file))
    monkeypatch.setattr(jsonfile, "CHUNK", chunk)
    assert list(jsonfile.read(file)) == whole
    assert [item.line for item in whole] == [1, 2, 4]
    assert whole[1].field_lines == {"name": 2, "x": 3}  # type: ignore[union-attr]
    assert "kitlist = 12:" in whole[2].sentence  # type: ignore[union-attr]


def test_a_name_that_differs_in_its_case_alone_is_the_same_name(store: Store, tmp_path: Path) -> None:
    lines = bad_lines(store, tmp_path / "bag.csv", "name\nÉtui\nétui\n")
    assert "bag 'étui' stands in bag.csv, line 2, already" in lines[0]


def test_the_same_reading_twice_names_both_lines_and_another_one_is_refused(store: Store, tmp_path: Path) -> None:
    changes.add(store, "battery", {"name": "a", "place": "loose"})
    head = "battery,volts_v,taken_at\n"
    lines = bad_lines(
        store, tmp_path / "reading.csv", head + "a,12.5,2026-01-01T07:00\na,12.6,2026-01-01\nA,12.5,2026-01-01 07:00\n"
    )
    assert lines == ("reading.csv:4: a has a reading at 2026-01-01 07:00:00 on line 2",)
    changes.add(store, "reading", {"battery": "a", "volts": 12.5, "taken_at": "2026-01-01T07:00"})
    lines = bad_lines(store, tmp_path / "reading.csv", head + "a,12.4,2026-01-01T07:00\n")
    assert "a has another reading at 2026-01-01 07:00:00 in the kit" in lines[0]
    (tmp_path / "reading.csv").write_text(head + "a,12.5,2026-01-01T07:00\na,12.6,2026-01-02T07:00\n")
    done = import_file(store, tmp_path / "reading.csv")
    assert (done.added["reading"], done.unchanged["reading"]) == (1, 1)


def test_a_reading_of_a_removed_battery_may_come_in_but_a_trip_with_it_may_not(store: Store, tmp_path: Path) -> None:
    changes.add(store, "battery", {"name": "old", "place": "loose"})
    changes.remove(store, "battery", "old")
    file = tmp_path / "reading.csv"
    file.write_text("battery,volts_v,taken_at\nold,12.5,2026-01-01T07:00\n")
    assert import_file(store, file).added["reading"] == 1
    text = "name,starts_on,ends_on,bank\nx,2026-01-01,2026-01-02,old\n"
    (said,) = bad_lines(store, tmp_path / "trip.csv", text)
    assert "no battery is called that" in said


def test_a_dry_run_of_every_kind_of_file_changes_nothing(store: Store, tmp_path: Path) -> None:
    import_file(store, DEMO)
    export(store, tmp_path / "out.json")
    export(store, tmp_path / "out")
    new = new_store(tmp_path / "new.db")
    for file in ("out.json", "out"):
        done = import_file(new, tmp_path / file, dry_run=True)
        assert done.added["reading"] == len(snapshot(store).readings)
        assert not any(kept(new).values())


def test_a_folder_of_csv_is_taken_whole_or_not_at_all(store: Store, tmp_path: Path) -> None:
    folder = tmp_path / "kit"
    folder.mkdir()
    (folder / "vehicle.csv").write_text("name\nHeron\n")
    (folder / "battery.csv").write_text("name,vehicle\na,Heron\nb,Hern\n")
    with pytest.raises(BadFile) as caught:
        import_file(store, folder)
    assert caught.value.lines[0].startswith("battery.csv:3: vehicle = 'Hern': no vehicle is called that. Did you mean")
    assert not any(kept(store).values())
    (folder / "notes.csv").write_text("x\n")
    with pytest.raises(BadFile, match="what kind of thing it holds is not known"):
        import_file(store, folder)


def test_files_that_cannot_be_told_or_are_not_there_are_refused(store: Store, tmp_path: Path) -> None:
    (tmp_path / "kit.txt").write_text("x")
    with pytest.raises(UsageError, match="cannot be told"):
        import_file(store, tmp_path / "kit.txt")
    for name in ("none.json", "bag.csv", "none", "none.toml"):
        with pytest.raises(BadFile, match="cannot read"):
            import_file(store, tmp_path / name)
    with pytest.raises(UsageError, match="not known"):
        export(store, tmp_path / "kit.xml")
    with pytest.raises(UsageError, match=r"--kind is for one \.csv file"):
        export(store, tmp_path / "kit.json", kind="bag")
    with pytest.raises(UsageError, match=r"--kind is for one \.csv file"):
        import_file(store, tmp_path / "kit.json", kind="bag")
    export(store, tmp_path / "kit.json")
    (tmp_path / "bag.csv").mkdir()
    with pytest.raises(StoreError, match="already a file"):
        export(store, tmp_path / "bag.csv", replace=True)
    with pytest.raises(StoreError, match="already a file"):
        export(store, tmp_path / "kit.json")
    with pytest.raises(StoreError, match="there is no folder"):
        export(store, tmp_path / "gone" / "kit.json")


def cells_of(path: Path) -> Iterator[str]:
    """Every cell as a spreadsheet sees it, whether it splits at commas or at semicolons."""
    for delimiter in ",;\t":
        with path.open(encoding="utf-8-sig", newline="") as file:
            for row in csv.reader(file, delimiter=delimiter):
                yield from row


DANGEROUS = tuple("=+-@\t\r＝＋－＠")


def is_formula(cell: str) -> bool:
    """Whether a spreadsheet could run a cell; a plain number, negative or not, is none."""
    try:
        float(cell)
    except ValueError:
        return cell.lstrip(" ").startswith(DANGEROUS)
    return False


@MANY
@given(
    st.lists(
        st.text(alphabet="=+-@'; ,\"ab1(|＝\u200d", max_size=8) | st.sampled_from(["=cmd|' /C calc'!A0", "x;=1+1"]),
        max_size=4,
    )
)
def test_no_cell_of_an_exported_csv_is_a_formula(tmp_path_factory: pytest.TempPathFactory, notes: list[str]) -> None:
    folder = tmp_path_factory.mktemp("sheet")
    store = new_store(folder / "kit.db")
    for number, note in enumerate(notes):
        changes.add(store, "repair", {"name": f"n{number}", "part": "p", "note": note, "thickness": 5})
    changes.add(store, "trip", {"name": "=t", "starts_on": "2026-01-01", "ends_on": "2026-01-02", "coldest_c": -6})
    for kind in ("repair", "trip"):
        export(store, folder / f"{kind}.csv")
        assert [cell for cell in cells_of(folder / f"{kind}.csv") if is_formula(cell)] == []
    assert ",-6.0," in (folder / "trip.csv").read_text(encoding="utf-8")


@settings(max_examples=500)
@given(st.text(alphabet="=+-@'; \"ab\t\r", max_size=10))
def test_a_cell_made_harmless_comes_back_as_it_was(text: str) -> None:
    assert csvfile.as_written(csvfile.harmless(text)) == text


ODD = ["Heron", "heron", "agm", "2027-01-01", "2027-01-01T07:00Z", "12.5", "nan", "1e999", "9" * 400, "1/0", "-"]
ODD += ["=1+1", "\u202ex", "a\x00b", "\ud800", "\u202e", "x" * 200, "a,a", "none", "yes", "[]", "{}", "-5", "1/3 in"]
odd = st.sampled_from([*ODD, "40 F", "\u0663"])
scalars = odd | st.text(max_size=20) | st.integers() | st.floats() | st.booleans() | st.none() | st.just(10**400)
values = scalars | st.lists(scalars, max_size=3) | st.dictionaries(st.text(max_size=3), scalars, max_size=2)
kinds = st.sampled_from([*KINDS, *PLURALS.values(), "junk", ""])
words = st.sampled_from(sorted({f.name for cls in KINDS.values() for f in fields_of(cls)} | {"removed_at", "x", "c20"}))


@st.composite
def objects(draw: st.DrawFn) -> tuple[str, dict[str, Any]]:
    """Something of one kind, with fields of its own or of any, and values of any sort."""
    kind = draw(st.sampled_from(list(KINDS)))
    own = st.sampled_from([f.name for f in fields_of(KINDS[kind])])
    return kind, draw(st.dictionaries(own | own | own | words, values, max_size=8))


def taken_or_refused(store: Store, file: Path, count: int | None) -> None:
    """Import a file, and hold it to all or nothing."""
    refused: KitlistError | None = None
    try:
        done = import_file(store, file)
    except KitlistError as error:
        refused = error
    if refused is not None:
        assert refused.message
        for line in getattr(refused, "lines", ()):
            assert line.isprintable(), line
            assert line.split(":")[1].isdigit(), line
        assert not any(kept(store).values())
        return
    here = sum(len(things) for things in kept(store).values())
    assert sum(done.added.values()) == here
    assert count is None or here == count
    with closing(sqlite3.connect(store.path)) as connection:
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []


@MANY
@given(st.lists(objects(), max_size=4))
def test_any_json_is_taken_whole_or_refused_whole(
    tmp_path_factory: pytest.TempPathFactory, things: list[tuple[str, dict[str, Any]]]
) -> None:
    folder = tmp_path_factory.mktemp("json")
    document: dict[str, list[Any]] = {}
    for kind, thing in things:
        document.setdefault(kind, []).append(thing)
    file = folder / "kit.json"
    file.write_text(json.dumps(document, indent=1), encoding="utf-8")
    taken_or_refused(new_store(folder / "kit.db"), file, len(things))


@MANY
@given(rubbish=st.text(alphabet='{}[]":,\\ \nab1e-.', max_size=60) | st.text(max_size=60) | st.binary(max_size=60))
@pytest.mark.parametrize("ending", ["json", "csv", "toml"])
def test_any_rubbish_is_refused_without_a_traceback(
    tmp_path_factory: pytest.TempPathFactory, rubbish: str | bytes, ending: str
) -> None:
    folder = tmp_path_factory.mktemp("rubbish")
    file = folder / f"bag.{ending}"
    file.write_bytes(rubbish.encode("utf-8", "surrogatepass") if isinstance(rubbish, str) else rubbish)
    taken_or_refused(new_store(folder / "kit.db"), file, None)


@MANY
@given(st.sampled_from(list(KINDS)), st.data())
def test_any_csv_is_taken_whole_or_refused_whole(
    tmp_path_factory: pytest.TempPathFactory, kind: str, data: st.DataObject
) -> None:
    folder = tmp_path_factory.mktemp("csv")
    own = [f.name for f in fields_of(KINDS[kind])]
    headings = data.draw(st.lists(st.sampled_from([*own, *own, "x", "removed_at"]), min_size=1, max_size=8))
    cells = st.lists(odd | st.text(max_size=12), min_size=len(headings), max_size=len(headings))
    rows = data.draw(st.lists(cells, max_size=4))
    file = folder / f"{kind}.csv"
    with file.open("w", encoding="utf-8", errors="surrogatepass", newline="") as out:
        csv.writer(out).writerows([headings, *rows])
    taken_or_refused(new_store(folder / "kit.db"), file, None)
