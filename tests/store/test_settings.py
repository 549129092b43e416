"""The settings of a store: one row like any other, in the journal, taken back, in export and backup."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, BadFile
from kitlist.base.terms import Paper, Units
from kitlist.store import Store, changes, copies, journalled, settings, undoing
from kitlist.store.exporting import export
from kitlist.store.importing import import_file
from kitlist.store.noting import Signature
from kitlist.store.settings import Settings
from new_store import new_store


def test_a_store_begins_metric_on_a4_and_for_nobody(store: Store) -> None:
    assert settings.of(store) == Settings(Units.METRIC, Paper.A4, "")


def test_settings_are_set_in_words_of_people_and_stay(store: Store) -> None:
    settings.edit(store, {"units": "Fahrenheit", "by": " Ada "})
    assert settings.edit(store, {"paper": "us letter"}) == Settings(Units.IMPERIAL, Paper.LETTER, "Ada")
    assert settings.of(Store(store.path)) == Settings(Units.IMPERIAL, Paper.LETTER, "Ada")
    assert settings.edit(store, {"by": "none"}).by == ""


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"units": "cubits"}, "must be one of metric, imperial"),
        ({"paper": "A5"}, "must be one of A4, letter"),
        ({"colour": "red"}, "is no setting"),
        ({"by": "a\nb"}, "invisible"),
        ({"by": "x" * 121}, "121 characters"),
    ],
)
def test_what_is_no_setting_is_refused_and_nothing_is_set(store: Store, values: dict[str, str], said: str) -> None:
    with pytest.raises(BadData, match=said):
        settings.edit(store, {"units": "imperial"} | values)
    assert settings.of(store) == Settings()


def test_the_journal_has_a_setting_and_undo_takes_it_back(store: Store) -> None:
    settings.edit(store, {"paper": "letter"})
    settings.edit(store, {"by": "Ada"})
    (second, first) = journalled.listed(store)
    assert [journalled.in_words(change) for change in second[1]] == [
        "the settings of the store: given by nothing -> Ada"
    ]
    assert [journalled.in_words(change) for change in first[1]] == ["the settings of the store: added"]
    undoing.undo(store)
    assert settings.of(store) == Settings(paper=Paper.LETTER)
    undoing.undo(store)
    assert settings.of(store) == Settings()
    with pytest.raises(BadData, match="was taken back already"):
        undoing.undo(store, first[0].number)


def test_who_gives_a_command_is_the_settings_where_nothing_else_says_it(store: Store) -> None:
    settings.edit(store, {"by": "Ada"})
    changes.add(Store(store.path, signature=Signature("bag add a")), "bag", {"name": "a"})
    changes.add(Store(store.path, signature=Signature("bag add b", "Bo")), "bag", {"name": "b"})
    assert [entry.who for entry, _ in journalled.listed(store)][:2] == ["Bo", "Ada"]


def test_export_and_backup_carry_them(store: Store, tmp_path: Path) -> None:
    settings.edit(store, {"units": "imperial", "by": "Ada"})
    export(store, tmp_path / "kit.json")
    assert json.loads((tmp_path / "kit.json").read_text())["settings"] == {
        "units": "imperial",
        "paper": "A4",
        "by": "Ada",
    }
    other = new_store(tmp_path / "other.db")
    import_file(other, tmp_path / "kit.json")
    assert settings.of(other) == settings.of(store)
    made, _ = copies.backup(store.path, tmp_path / "copy.db")
    assert settings.of(Store(made)) == settings.of(store)


def test_an_import_leaves_what_is_set_here_and_an_export_without_settings_is_for_every_kitlist(
    store: Store, tmp_path: Path
) -> None:
    export(store, tmp_path / "plain.json")
    assert json.loads((tmp_path / "plain.json").read_text())["kitlist"] == 2
    settings.edit(store, {"paper": "letter"})
    file = tmp_path / "kit.json"
    file.write_text('{"kitlist": 3,\n"settings": {"paper": "A4", "by": "Bo"}}')
    import_file(store, file)
    assert settings.of(store) == Settings(paper=Paper.LETTER)


@pytest.mark.parametrize("said", ['{"paper": "A5"}', '["paper"]', '{"colour": "red"}', '{"by": 3}'])
def test_settings_that_are_none_are_refused_with_their_line(store: Store, tmp_path: Path, said: str) -> None:
    file = tmp_path / "kit.json"
    file.write_text(f'{{"kitlist": 3,\n"settings": {said},\n"bag": [\n{{"name": "a"}}\n]}}')
    with pytest.raises(BadFile) as caught:
        import_file(store, file)
    assert caught.value.lines[0].startswith("kit.json:2: settings")
    assert changes.listed(store, "bag") == ()
