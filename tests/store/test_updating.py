"""Bulk edit: an export that was changed is set against the kit, shown, and written as one change or not at all."""

from __future__ import annotations

import json
import os
import random
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from kitlist.base.errors import BadData, BadFile, KitlistError
from kitlist.kit import plain
from kitlist.store import Store, changes, journalled, opening, readings, settings, trip_use, undoing
from kitlist.store.exporting import export
from kitlist.store.updating import Becomes, Update, update

_DAY = date(2027, 5, 9)
_AT = datetime.fromisoformat("2027-05-09T12:00")
ROUNDS = int(os.environ.get("KITLIST_TEST_SEQUENCES", "25"))


@pytest.fixture
def own(demo: Path) -> Store:
    return Store(demo)


@pytest.fixture
def file(own: Store, tmp_path: Path) -> Path:
    path = tmp_path / "kit.json"
    export(own, path)
    return path


def edited(file: Path, change: Callable[[dict[str, Any]], None]) -> Path:
    kit = json.loads(file.read_text(encoding="utf-8"))
    change(kit)
    file.write_text(json.dumps(kit, ensure_ascii=False), encoding="utf-8")
    return file


def thing(kit: dict[str, Any], kind: str, name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(one for one in kit[kind] if one["name"] == name)
    return found


def words(found: Update) -> list[str]:
    fields = [[(f.name, plain(old), plain(new)) for f, old, new in d.fields] for d in found.differing]
    return [f"{d.becomes} {d.kind} {d.name} {of}" for d, of in zip(found.differing, fields, strict=True)]


def written(store: Store, file: Path, **how: Any) -> Update:
    shown = update(store, file, **how)
    return update(store, file, expected=shown, **how)


def exported(store: Store, folder: Path) -> Any:
    export(store, folder / "now.json", replace=True)
    found = json.loads((folder / "now.json").read_text(encoding="utf-8"))
    found.pop("journal", None)
    return found


def test_an_export_that_was_not_changed_changes_nothing(own: Store, file: Path) -> None:
    found = update(own, file)
    assert (found.is_empty, found.left_out, found.kept, found.dated) == (True, [], [], True)


def test_what_is_shown_is_not_written_until_somebody_agrees_and_then_as_one_command(
    own: Store, file: Path, tmp_path: Path
) -> None:
    def change(kit: dict[str, Any]) -> None:
        thing(kit, "tool", "chocks")["count"] = 6
        thing(kit, "battery", "heron-main")["condition"] = "cracked"
        kit["bag"].append({"name": "New box"})
        kit["tool"].append({"name": "pry bar", "what": "spanner", "bag": "New box", "count": "2"})
        kit["reading"].append({"battery": "heron-main", "volts": "12.5", "taken_at": "2027-05-05T19:00"})
        thing(kit, "trip", "Dry lake survey")["people"] = 3

    before = exported(own, tmp_path)
    shown = update(own, edited(file, change))
    assert exported(own, tmp_path) == before
    assert words(shown) == [
        "added bag New box []",
        "changed battery heron-main [('condition', 'sound', 'cracked')]",
        "changed tool chocks [('count', 4, 6)]",
        "added tool pry bar []",
        f"changed trip Dry lake survey [('people', {thing(before, 'trip', 'Dry lake survey').get('people')}, 3)]",
        "added reading heron-main at 2027-05-05 19:00:00 []",
    ]
    update(own, file, expected=shown)
    assert len(journalled.listed(own)) == 2
    assert changes.one(own, "tool", "pry bar").bag == "New box"
    undoing.undo(own)
    assert exported(own, tmp_path) == before


def test_a_field_that_is_left_out_stays_and_null_empties_it(own: Store, file: Path) -> None:
    changes.edit(own, "tool", "isolator", {"note": "left of the seat", "rating_a": "300A"})
    export(own, file, replace=True)

    def change(kit: dict[str, Any]) -> None:
        thing(kit, "tool", "isolator").pop("note")
        thing(kit, "tool", "isolator")["rating_a"] = None

    written(own, edited(file, change))
    isolator = changes.one(own, "tool", "isolator")
    assert (isolator.note, isolator.rating_a) == ("left of the seat", None)


def test_what_the_file_leaves_out_stays_and_is_said_or_goes_where_that_is_asked(own: Store, file: Path) -> None:
    edited(file, lambda kit: kit["tool"].remove(thing(kit, "tool", "chocks")))
    assert update(own, file).left_out == [("tool", "chocks")]
    assert update(own, file).is_empty
    written(own, file, remove=True)
    assert [name for name, _ in changes.removed(own, "tool")] == ["chocks"]
    assert update(own, file, remove=True).is_empty
    undoing.undo(own)
    assert changes.one(own, "tool", "chocks")


def test_what_is_still_used_is_not_removed(own: Store, file: Path) -> None:
    edited(file, lambda kit: kit["vehicle"].remove(thing(kit, "vehicle", "Heron")))
    with pytest.raises(BadData, match="'Heron' would be removed, and is still used by battery heron-main"):
        update(own, file, remove=True)


def test_a_mark_of_removal_removes_and_taking_it_away_brings_back(own: Store, file: Path) -> None:
    written(own, edited(file, lambda kit: thing(kit, "tool", "chocks").update(removed_at="2027-05-01 07:00:00")))
    assert [name for name, _ in changes.removed(own, "tool")] == ["chocks"]
    export(own, file, replace=True)
    found = written(own, edited(file, lambda kit: thing(kit, "tool", "chocks").pop("removed_at")))
    assert [d.becomes for d in found.differing] == [Becomes.BROUGHT_BACK]
    assert changes.removed(own, "tool") == ()


def test_every_line_that_cannot_be_taken_is_named_and_nothing_is_written(
    own: Store, file: Path, tmp_path: Path
) -> None:
    before = exported(own, tmp_path)
    text = file.read_text(encoding="utf-8")
    text = text.replace('"condition": "sound"', '"condition": "lovely"', 1)
    text = text.replace('"bag": "Fire shelf"', '"bag": "Ark"', 1)
    text = text.replace('"name": "chocks"', '"name": "shovel"').replace('"count": 1,', '"count": null,', 1)
    file.write_text(text, encoding="utf-8")
    with pytest.raises(BadFile) as caught:
        update(own, file)
    told = "\n".join(caught.value.lines)
    assert "condition = 'lovely'" in told
    assert "bag = 'Ark': no bag is called that" in told
    assert "stands on line" in told
    assert "count is emptied" in told
    assert all(line.startswith("kit.json:") for line in caught.value.lines)
    assert exported(own, tmp_path) == before


def test_what_was_changed_here_since_and_not_in_the_file_stays_and_is_said(own: Store, file: Path) -> None:
    changes.edit(own, "tool", "chocks", {"count": 7})
    changes.add(own, "bag", {"name": "Since"})
    changes.remove(own, "tool", "shovel")
    changes.add(own, "reading", {"battery": "heron-main", "volts": 12.5, "taken_at": "2027-05-05T20:00"})
    edited(file, lambda kit: thing(kit, "tool", "isolator").update(note="seen"))
    found = written(own, file, remove=True)
    assert words(found) == ["changed tool isolator [('note', '', 'seen')]"]
    assert [line.split(", by")[0] for line in found.kept] == ["tool chocks: count 7", "tool shovel removed"]
    assert changes.one(own, "tool", "chocks").count == 7
    assert changes.one(own, "bag", "Since")


@pytest.mark.parametrize(
    ("meanwhile", "change", "said"),
    [
        (
            lambda store: changes.edit(store, "tool", "chocks", {"count": 7}),
            lambda kit: thing(kit, "tool", "chocks").update(count=9),
            "tool chocks: count was 4 at the export, is 7 now by a change (2), and the file says 9",
        ),
        (
            lambda store: changes.edit(store, "tool", "chocks", {"name": "wedges"}),
            lambda kit: None,
            "tool chocks: renamed since",
        ),
        (
            lambda store: changes.remove(store, "tool", "chocks"),
            lambda kit: thing(kit, "tool", "chocks").update(count=9),
            "tool chocks was removed since by a change (2), and the file changes it",
        ),
        (
            lambda store: changes.add(store, "bag", {"name": "Box", "note": "mine"}),
            lambda kit: kit["bag"].append({"name": "box", "note": "yours"}),
            "bag Box: note: it was added since by a change (2)",
        ),
        (
            lambda store: changes.edit(store, "trip", "Dry lake survey", {"vehicles": "Heron"}),
            lambda kit: thing(kit, "trip", "Dry lake survey").update(vehicles=["Heron", "Stilt"]),
            "trip Dry lake survey: vehicles was changed by a change (2)",
        ),
    ],
)
def test_what_was_changed_in_both_is_refused_and_shown(
    own: Store, file: Path, meanwhile: Callable[[Store], object], change: Callable[[Any], None], said: str
) -> None:
    meanwhile(own)
    edited(file, change)
    with pytest.raises(BadFile, match="changed since the export") as caught:
        update(own, file, remove=True)
    assert any(said in line for line in caught.value.lines), caught.value.lines


def test_changed_since_and_changed_back_is_not_changed(own: Store, file: Path) -> None:
    changes.edit(own, "tool", "chocks", {"count": 7})
    undoing.undo(own)
    written(own, edited(file, lambda kit: thing(kit, "tool", "chocks").update(count=9)))
    assert changes.one(own, "tool", "chocks").count == 9


def test_what_was_agreed_to_is_written_or_nothing_is(own: Store, file: Path) -> None:
    edited(file, lambda kit: thing(kit, "tool", "chocks").update(count=9))
    shown = update(own, file)
    edited(file, lambda kit: thing(kit, "tool", "chocks").update(count=8))
    with pytest.raises(BadData, match="changed meanwhile"):
        update(own, file, expected=shown)
    assert changes.one(own, "tool", "chocks").count == 4


def test_a_csv_file_of_one_kind_updates_that_kind_and_its_empty_cells_empty(own: Store, tmp_path: Path) -> None:
    changes.edit(own, "tool", "chocks", {"note": "wood"})
    path = tmp_path / "tool.csv"
    export(own, path)
    text = path.read_text(encoding="utf-8-sig").replace(",wood,", ",,")
    path.write_text(text, encoding="utf-8")
    found = written(own, path)
    assert words(found) == ["changed tool chocks [('note', 'wood', '')]"]
    assert (found.dated, found.left_out) == (False, [])
    export(own, tmp_path / "all")
    assert update(own, tmp_path / "all").is_empty


def test_a_reading_is_corrected_where_its_moment_stays(own: Store, file: Path) -> None:
    def change(kit: dict[str, Any]) -> None:
        kit["reading"][0]["volts_v"] = 12.34

    found = written(own, edited(file, change))
    assert not found.is_empty
    assert [(f.name, new) for d in found.differing for f, _, new in d.fields] == [("volts_v", 12.34)]
    assert 12.34 in [r.volts_v for r in readings.listed(own, None, count=50)]


def test_settings_are_updated_with_the_rest_and_taken_back_with_it(own: Store, file: Path) -> None:
    assert not written(own, edited(file, lambda kit: kit.update(settings={"paper": "letter"}))).is_empty
    assert settings.of(own).paper == "letter"
    undoing.undo(own)
    assert settings.of(own).paper == "A4"


def test_a_file_s_own_day_of_removal_is_kept_and_a_removed_bag_holds_nothing(own: Store, file: Path) -> None:
    written(own, edited(file, lambda kit: thing(kit, "tool", "chocks").update(removed_at="2027-05-01 07:00:00")))
    assert changes.removed(own, "tool") == (("chocks", "2027-05-01 07:00:00"),)
    changes.add(own, "bag", {"name": "torn"})
    changes.remove(own, "bag", "torn")
    export(own, file, replace=True)
    edited(file, lambda kit: thing(kit, "tool", "isolator").update(bag="torn"))
    with pytest.raises(BadFile) as caught:
        update(own, file)
    assert "bag = 'torn': no bag is called that" in caught.value.lines[0]


def test_what_came_and_went_since_the_export_is_as_if_it_had_never_been(own: Store, file: Path) -> None:
    changes.add(own, "bag", {"name": "Since"})
    changes.add(own, "tool", {"name": "bar", "what": "spanner"})
    undoing.undo(own)
    undoing.undo(own)
    found = written(own, edited(file, lambda kit: thing(kit, "tool", "isolator").update(note="seen")), remove=True)
    assert words(found) == ["changed tool isolator [('note', '', 'seen')]"]
    assert (found.kept, found.left_out) == ([], [])


def test_bad_settings_and_a_removal_on_no_day_have_a_line_each_and_what_was_empty_is_nothing(
    own: Store, file: Path
) -> None:
    def change(kit: dict[str, Any]) -> None:
        kit["settings"] = {"paper": "A9"}
        thing(kit, "tool", "chocks").update(removed_at="yesterday", count=-1)

    text = file.read_text(encoding="utf-8")
    with pytest.raises(BadFile) as caught:
        update(own, edited(file, change))
    told = sorted(line.split(": ", 1)[1][:15] for line in caught.value.lines)
    assert told == ["removed_at must", "settings: paper"], caught.value.lines
    file.write_text(text, encoding="utf-8")
    changes.edit(own, "tool", "chocks", {"note": "wood"})
    with pytest.raises(BadFile) as caught:
        update(own, edited(file, lambda kit: thing(kit, "tool", "chocks").update(note="steel")))
    assert "note was nothing at the export, is 'wood' now" in caught.value.lines[0]


def test_an_export_from_before_the_journals_oldest_command_is_refused(
    own: Store, file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("kitlist.store.noting.KEPT", 3)
    for number in range(6):
        changes.edit(own, "tool", "chocks", {"count": number})
    with pytest.raises(BadData, match="before the oldest command"):
        update(own, edited(file, lambda kit: thing(kit, "tool", "isolator").update(note="x")))


def test_random_edits_of_an_export_are_written_whole_and_taken_back_whole(
    own: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(opening, "SYNCHRONOUS", "OFF")  # nothing is killed here
    chance = random.Random(19)
    done = 0
    for round_ in range(ROUNDS):
        if chance.random() < 0.4:
            trip_use.record(own, "Dry lake survey", ["chocks=damaged"], linked=[], on=_DAY, by="Ada", at=_AT)
        before = exported(own, tmp_path)
        file = tmp_path / "kit.json"
        export(own, file, replace=True)
        wanted = json.loads(json.dumps(before))
        for _ in range(chance.randrange(1, 8)):
            _edit(chance, wanted, round_)
        edited(file, lambda kit, wanted=wanted: kit.update(wanted))
        try:
            written(own, file, remove=True)
        except KitlistError:
            assert exported(own, tmp_path) == before
            continue
        done += 1
        after = exported(own, tmp_path)
        assert _living(after) == _living(wanted)
        number = undoing.undo(own).number
        assert exported(own, tmp_path) == before
        undoing.undo(own, number)
        assert exported(own, tmp_path) == after
    assert done >= ROUNDS / 2


def _edit(chance: random.Random, kit: dict[str, Any], number: int) -> None:
    kind = chance.choice(("tool", "gear", "item", "bag", "battery", "reading", "rod"))
    things = kit[kind]
    sort = chance.randrange(4)
    if sort == 0 and kind in ("item", "bag"):
        things.append({"name": f"new {kind} {number} {len(things)}"})
    elif things and sort == 1 and kind in ("tool", "gear", "item", "reading"):
        things.remove(chance.choice([one for one in things if "removed_at" not in one] or [things[0]]))
    elif things and kind == "reading":
        chance.choice(things)["volts_v"] = round(12 + chance.random(), 2)
    elif things:
        one = chance.choice(things)
        one["note"] = chance.choice(("seen", "a, b", ""))
        if "count" in one:
            one["count"] = chance.randrange(6)


def _living(kit: dict[str, Any]) -> dict[str, list[str]]:
    """The living things of a kit without what an import fills in, in an order of their own."""
    return {
        kind: sorted(
            f"{one.get('name', (one.get('battery'), one.get('taken_at')))} {one.get('note', '')} "
            f"{one.get('volts_v')} {one.get('count', 0)}"
            for one in things
            if "removed_at" not in one
        )
        for kind, things in kit.items()
        if isinstance(things, list)
    }


def test_what_was_added_since_under_a_name_of_the_file_s_and_a_list_changed_since_are_told(
    own: Store, file: Path
) -> None:
    changes.add(own, "bag", {"name": "New box", "place": "roof"})
    changes.edit(own, "trip", "Dry lake survey", {"bank": "heron-main,plover-main"})

    def change(kit: dict[str, Any]) -> None:
        kit["bag"].append({"name": "New box", "place": "bed"})
        thing(kit, "trip", "Dry lake survey")["bank"] = ["plover-main", "plover-second"]

    with pytest.raises(BadFile) as caught:
        update(own, edited(file, change))
    assert caught.value.lines == (
        "bag New box: place: it was added since by a change (2)",
        "trip Dry lake survey: bank was changed by a change (3)",
    )
