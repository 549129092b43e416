"""The plain documents: hashes that mean something, sections of nine or fewer."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitlist.faces.paper.card_document import Card, Face, IfThenLine, Step
from kitlist.faces.paper.document import Fact, Marks, RodLine, Section, Sheet, SheetItem, VerdictBox
from paper import samples


def test_the_hash_is_eight_hex_digits_and_the_same_on_any_machine() -> None:
    empty = Card(kit="", bank="", faces=(), marks=Marks(printed_on=date(2026, 1, 1)))
    # printf '%s' '{"bank":"","defer":"Local codes and licensed practice come first.","faces":[],"format":2,
    # "kind":"card","kit":"","title":"Glovebox card"}' | sha256sum | cut -c1-8
    assert empty.content_hash() == "8c9bcdd7"


@pytest.mark.parametrize("change", [{"kit": "Another crew"}, {"faces": samples.CARD.faces[:2]}, {"defer": "x"}])
def test_a_change_of_what_the_card_shows_changes_its_hash(change: dict) -> None:
    assert replace(samples.CARD, **change).content_hash() != samples.CARD.content_hash()


def test_a_change_deep_in_a_face_changes_the_hash() -> None:
    *before, last = samples.CARD.faces
    other = replace(last, blocks=(IfThenLine("Rod sticks", "Pull it off."),))
    assert replace(samples.CARD, faces=(*before, other)).content_hash() != samples.CARD.content_hash()


def test_revision_date_and_change_bars_do_not_change_a_hash() -> None:
    again = replace(samples.CARD, marks=Marks(printed_on=date(2030, 1, 1)))
    assert again.content_hash() == samples.CARD.content_hash()
    sheet = replace(samples.DEMO_SHEET, changes_since="another day", marks=Marks(printed_on=date(2030, 1, 1)))
    assert sheet.content_hash() == samples.DEMO_SHEET.content_hash()


def test_the_same_words_in_another_kind_of_piece_hash_differently() -> None:
    def face(*blocks: object) -> Card:
        return replace(samples.CARD, faces=(Face(number="1", title="Face", when="", blocks=blocks),))  # type: ignore[arg-type]

    assert face(Step("a", see="b")).content_hash() != face(Fact("a", "b")).content_hash()


def test_lone_surrogates_do_not_stop_the_hash() -> None:
    assert len(replace(samples.CARD, kit="\ud800").content_hash()) == 8


@given(st.lists(st.sampled_from(["", "lid", "left pocket"]), max_size=60))
def test_a_section_is_split_into_parts_of_nine_or_fewer_and_loses_nothing(places: list[str]) -> None:
    items = tuple(SheetItem(what=str(number), place=place) for number, place in enumerate(places))
    parts = Section(title="Bag", items=items, note="Heron").parts()
    assert all(len(part.items) <= 9 for part in parts)
    assert sorted(item.what for part in parts for item in part.items) == sorted(item.what for item in items)
    assert [part.note for part in parts] == ["Heron", *[""] * (len(parts) - 1)]
    assert len({part.title for part in parts}) == len(parts)
    if len(items) > 9:
        assert all(len({item.place for item in part.items}) == 1 for part in parts)


def test_a_sheet_lists_all_its_blocks_of_ticks_in_order() -> None:
    titles = [section.title for section in samples.DEMO_SHEET.sections()]
    assert titles[0] == "Red bag: eyes, face, hands"
    assert titles[-1] == "Recheck at the door"
    assert len(samples.CROWDED_SHEET.sections()) == 1 + 1 + 5  # three in the lid, 37 others in five parts


def test_a_plain_sheet_needs_little() -> None:
    sheet = Sheet(kit="", trip="", verdict=VerdictBox(word="ready"), marks=Marks(printed_on=date(2026, 1, 1)))
    assert sheet.sections() == ()


def test_a_rod_row_is_told_from_another_by_its_words() -> None:
    row = RodLine(steel="3 mm", rod="2.5 mm E6013", amps="50–90 A", verdict="hot")
    assert replace(row, verdict="cold") != row
