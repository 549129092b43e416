"""Labels and the blank form."""

from __future__ import annotations

import io
import tomllib
from dataclasses import replace
from itertools import pairwise

import pdfplumber
import pytest

from kitlist.base import resources
from kitlist.base.errors import PrintError
from kitlist.base.terms import Paper, RodCondition
from kitlist.faces.paper import pdf, text, typeface
from kitlist.faces.paper.build_companion_form import build_companion_form
from kitlist.faces.paper.build_items import NO_BAG
from kitlist.faces.paper.build_labels import build_labels
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.build_stickers import build_stickers
from kitlist.faces.paper.document import SheetItem
from kitlist.faces.paper.labels import LINES_A_LABEL, Label, Labels
from kitlist.faces.paper.stickers import Sticker
from kitlist.readiness import assess
from kitlist.rules.example import whole, with_trip
from paper import awkward, built, samples
from paper.papers import LABELS, MM, chars_of, pages


@pytest.mark.parametrize("name", LABELS)
def test_words_of_a_label_stay_clear_of_its_cuts(name: str) -> None:
    for page in pages(name):
        for char in chars_of(page):
            x_mm, right_mm = (char["x0"] / MM) % 105, (char["x1"] / MM - 0.01) % 105
            assert 6.5 <= x_mm <= right_mm <= 98.5, char["text"]
            top_mm, bottom_mm = (char["top"] / MM - 0.5) % 74, (char["bottom"] / MM - 0.5) % 74
            assert 5 <= top_mm < bottom_mm <= 69, char["text"]


@pytest.mark.parametrize("name", LABELS)
def test_only_the_marks_of_a_label_are_under_12_pt(name: str) -> None:
    for page in pages(name):
        for char in chars_of(page):
            if char["size"] < 11.9:
                assert char["size"] >= 8.95
                assert (char["top"] / MM - 0.5) % 74 > 63


@pytest.mark.parametrize("name", LABELS)
def test_nothing_on_a_label_runs_into_its_marks(name: str) -> None:
    for page in pages(name):
        chars = [((c["top"] / MM - 0.5) % 74, (c["bottom"] / MM - 0.5) % 74, c["size"]) for c in chars_of(page)]
        marks_mm = min(top for top, _, size in chars if size < 9.1)
        assert all(bottom <= marks_mm + 0.3 for _, bottom, size in chars if size > 9.1)


def test_a_label_never_cuts_a_date() -> None:
    what = "Extinguisher with a long name, powder, 2 kg, to 2029-01-31"
    (label,) = Label(title="Bag", items=(SheetItem(what=what, need="1", have="1"),)).cut_to_size()
    assert label.items[0].what == "Extinguisher with a long name"


def test_what_is_missing_comes_first() -> None:
    (label,) = Label(title="Red bag", items=samples.DEMO_SHEET.bags[0].items).cut_to_size()
    assert label.items[0].what == "Spare helmet lens"
    assert [item.what for item in label.items[1:]] == [i.what for i in samples.DEMO_SHEET.bags[0].items[:3]]


@pytest.mark.parametrize(("items", "labels"), [(0, 1), (1, 1), (7, 1), (8, 2), (40, 6)])
def test_a_full_bag_has_as_many_labels_as_it_needs_and_loses_nothing(items: int, labels: int) -> None:
    things = tuple(SheetItem(what=f"Thing {number}", need="1", have="1") for number in range(items))
    parts = tuple(Label(title="Bag", items=things).cut_to_size())
    assert len(parts) == labels
    assert all(len(part.items) <= LINES_A_LABEL for part in parts)
    assert max(len(part.items) for part in parts) - min(len(part.items) for part in parts) <= 1
    assert tuple(item for part in parts for item in part.items) == things
    if labels > 1:
        assert [part.title for part in parts] == [f"Bag {n} of {labels}" for n in range(1, labels + 1)]


def test_a_bag_whose_place_nobody_wrote_down_has_room_for_it_on_label_and_sheet() -> None:
    case = whole()
    kit = replace(case.kit, bags=tuple(replace(bag, place="") for bag in case.kit.bags))
    judged = assess(kit, case.trip, on=case.on)
    assert {label.blanks for label in build_labels(judged).labels if label.items} == {("Where",)}
    placed = assess(case.kit, case.trip, on=case.on)
    for section in build_sheet(judged).bags:
        assert section.note.startswith("where? ____") or section.title == NO_BAG
    assert not any("____" in section.note for section in build_sheet(placed).bags)


def test_no_words_of_the_starter_kit_stand_where_a_crew_should_write_its_own() -> None:
    text = (resources.folder("seed_data") / "starter.toml").read_text(encoding="utf-8")
    assert all("place" not in bag for bag in tomllib.loads(text)["bag"])


def test_a_long_title_is_cut_before_its_part_number() -> None:
    things = tuple(SheetItem(what=str(number)) for number in range(8))
    first, _ = Label(title="The very long name of a bag that somebody likes", items=things).cut_to_size()
    assert first.title.endswith("… 1 of 2")
    assert typeface.width_mm(first.title, size_pt=18, bold=True) <= 91


def test_a_rod_label_says_the_polarity_in_words_at_both_ends() -> None:
    shown = pages("LABELS")[1].extract_text()
    assert "HOLDER TO +" in shown
    assert "WORK CLAMP TO −" in shown
    assert "Opened on" in shown


def test_a_store_without_bags_prints_one_label_that_says_so() -> None:
    none = Labels(kit="", labels=(), marks=samples.MARKS)
    assert pdf.to_pdf(none).startswith(b"%PDF")


def test_labels_and_form_come_on_us_letter_too_six_labels_to_a_page() -> None:
    labels = pages("BUILT_DEMO_LABELS", Paper.LETTER)
    assert len(labels) == 2
    for page in labels:
        for char in chars_of(page):
            assert 5 * MM <= char["x0"] < char["x1"] <= page.width - 5 * MM
            top_mm = (char["top"] / MM - (279.4 - 222) / 2) % 74
            assert 5 <= top_mm <= 69, char["text"]
    pdf.to_pdf(samples.FORM, paper=Paper.LETTER)


def test_a_label_lasts_and_shows_what_is_wrong_today_only_where_that_is_asked_for() -> None:
    lasting, today = build_labels(built.demo()), build_labels(built.demo(), gaps=True)
    items = [item for label in lasting.labels for item in label.items]
    assert items
    assert all(not item.gap_word and not item.short_by and not item.have and item.need for item in items)
    assert {item.number for item in items} == set(range(1, len(items) + 1))
    assert any(item.gap_word for label in today.labels for item in label.items)
    assert lasting.marks.valid_to is None
    assert today.marks.valid_to == built.demo().trip.ends_on
    fresh = assess(replace(built.demo().kit, tools=built.demo().kit.tools[:-1]), built.demo().trip, on=built.demo().on)
    assert build_labels(fresh).content_hash() != lasting.content_hash()


def test_a_packet_that_is_scrap_says_so_on_its_label_whatever_day_it_is() -> None:
    kit = built.small().kit
    wet = replace(kit, rods=tuple(replace(rod, condition=RodCondition.WET) for rod in kit.rods))
    labels = build_labels(assess(wet, built.small().trip, on=built.small().on))
    assert "scrap" in [fact.value for fact in labels.labels[-1].facts]


@pytest.mark.parametrize("readiness", [built.demo, awkward.parallel, awkward.four_with_ballast])
def test_stickers_name_each_battery_its_posts_and_each_end_of_each_lead_as_the_card_does(readiness) -> None:
    case = readiness()
    stickers = build_stickers(case.kit, case.trip, on=case.on)
    marks = [sticker.mark for sticker in stickers.stickers]
    for number, name in enumerate(case.trip.bank, start=1):
        assert Sticker(str(number), name) in stickers.stickers
        assert {f"{number} +", f"{number} −"} <= set(marks)
    steps = {step.text for face in built.card(case).faces for step in face.steps}
    ends = {sticker.words: sticker.mark for sticker in stickers.stickers}
    assert f"Join HOLDER last, to {ends['HOLDER lead, last of all']}" in steps
    assert f"Join WORK to {ends['WORK lead']}" in steps
    links = [s.mark for s in stickers.stickers if s.words.startswith("link")]
    assert len(links) == 2 * (len(case.trip.bank) - case.trip.bank_strings)
    for one, other in zip(links[::2], links[1::2], strict=True):
        assert f"Link {one} to {other}" in steps
    ties = [s.mark for s in stickers.stickers if s.words.startswith("tie")]
    for one, other in zip(ties[::2], ties[1::2], strict=True):
        assert f"Tie {one} to {other}" in steps
    for paper in Paper:
        for page in pdfplumber.open(io.BytesIO(pdf.to_pdf(stickers, paper=paper))).pages:
            for char in chars_of(page):
                assert 5 * MM <= char["x0"] < char["x1"] <= page.width - 5 * MM
                assert 5 * MM <= char["top"] < char["bottom"] <= page.height - 5 * MM
                assert char["size"] >= 8.95
    assert max(len(line) for line in text.render(stickers).splitlines()) <= 60


def test_there_are_no_stickers_for_a_bank_that_may_not_be_linked() -> None:
    it = with_trip(bank=("north-main",))
    with pytest.raises(PrintError, match="one battery never holds an arc"):
        build_stickers(it.kit, it.trip, on=it.on)


def test_the_form_asks_in_the_order_given_and_has_room_to_write() -> None:
    (page,) = pages("FORM")
    words = page.extract_text()
    order = ["Date and time", "Battery", "Volts, V", "Heron main", "Stilt second", "Practice beads", "Rest, V"]
    places = [words.index(word) for word in order]
    assert places == sorted(places)
    lines = sorted({round(edge["top"] / MM, 1) for edge in page.edges if edge["orientation"] == "h"})
    apart = [lower - upper for upper, lower in pairwise(lines)]
    assert sum(8.5 <= gap_mm <= 9.5 for gap_mm in apart) == 5 + 6


def test_labels_and_form_have_hashes_of_their_own() -> None:
    later = replace(samples.MARKS, revision=9)
    assert replace(samples.LABELS, marks=later).content_hash() == samples.LABELS.content_hash()
    assert replace(samples.FORM, marks=later).content_hash() == samples.FORM.content_hash()
    assert replace(samples.FORM, kit="Other").content_hash() != samples.FORM.content_hash()


@pytest.mark.parametrize("paper", [samples.LABELS, samples.HOSTILE_LABELS, samples.FORM])
def test_they_come_as_text_of_sixty_columns_too(paper: Labels) -> None:
    shown = text.render(paper)
    assert max(len(line) for line in shown.splitlines()) <= 60
    assert paper.content_hash() in shown


def test_a_companion_ticks_every_choice_that_the_import_takes_and_writes_the_rest() -> None:
    form = build_companion_form(built.demo().trip, on=built.demo().on)
    (about, *_) = form.tables
    choices = {row[0]: about.choices_of(place) for place, row in enumerate(about.rows)}
    assert choices["What is inside"] == ("flooded", "calcium", "EFB", "AGM", "gel", "lithium")
    assert choices["Its terminals"][:2] == ("post", "stud M6")
    assert choices["Left connected when parked"] == ("yes", "no")
    assert choices["Capacity at 20 h, Ah"] == ()
    assert "unknown" not in {word for words in choices.values() for word in words}
    found = pdfplumber.open(io.BytesIO(pdf.to_pdf(form))).pages
    assert len(found) == 1
    boxes = [
        box
        for page in found
        for box in page.rects
        if abs(box["width"] / MM - 5.5) < 0.3 > abs(box["height"] / MM - 5.5)
    ]
    assert len(boxes) == 3 * sum(len(words) for words in choices.values())
    assert "[ ] AGM" in text.render(form)
