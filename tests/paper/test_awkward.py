"""The papers of awkward kits, as they are laid out: how many pages, how much of them is blank, nothing cut."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from kitlist.base import clean
from kitlist.base.errors import PrintError
from kitlist.base.terms import Paper, Units
from kitlist.faces.judging import in_units
from kitlist.faces.paper import card_split, pdf, sheet_fit, text, typeface
from kitlist.faces.paper.build_card import build_card
from kitlist.faces.paper.build_labels import build_labels
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.build_stickers import build_stickers
from kitlist.faces.paper.card_document import Card, IfThenLine, Step
from kitlist.faces.paper.document import Hookup, Sheet
from kitlist.readiness import assess, stops
from kitlist.rules import example
from paper import awkward, built, papers

PAGES = {
    "demo": 2, "minimal": 2, "sound": 2, "forty-two": 2, "empty": 2, "guests": 2, "pairs": 2, "four-ballast": 2,
    "twelve-repairs": 2, "hebrew": 2, "twelve-bags": 4, "seventy-four": 3, "seventy-two-gaps": 4, "six-rods": 3,
    "long-names": 3, "crowded": 3,
}  # fmt: skip
"""The most that each may take on A4. Seventy-four rows of 7.5 mm in two columns are over one side by themselves."""
MARGIN_MM = 12.0


LETTER = ("demo", "minimal", "sound", "forty-two", "pairs", "four-ballast", "twelve-repairs")  # on US Letter too
LAID_OUT = [*((name, Paper.A4) for name in PAGES), *((name, Paper.LETTER) for name in LETTER)]


def sheet(name: str) -> Sheet:
    found = papers.document(papers.of_kit(name))
    assert isinstance(found, Sheet)
    return found


def pages(name: str, paper: Paper = Paper.A4) -> tuple[papers.LaidOut, ...]:
    return papers.laid_out_pages(papers.of_kit(name), paper)


@pytest.mark.parametrize(("name", "paper"), LAID_OUT)
def test_a_sheet_takes_no_more_pages_than_it_may_and_is_blank_for_40_mm_on_its_last_one_only(
    name: str, paper: Paper
) -> None:
    assert len(pages(name, paper)) <= PAGES[name]
    for page in pages(name, paper)[:-1]:
        foot_mm = page.high_mm - MARGIN_MM
        assert foot_mm - max(it.bottom_mm for it in page.inked if it.bottom_mm <= foot_mm) <= 40, name


@pytest.mark.parametrize(("name", "paper"), LAID_OUT)
def test_every_word_of_a_sheet_stands_within_its_margins(name: str, paper: Paper) -> None:
    for page in pages(name, paper):
        assert sum(bool(it.text) for it in page.inked) > 10
        for it in page.inked:
            assert it.left_mm >= 19.5, it
            assert it.right_mm <= page.wide_mm - 11.5, it
            assert it.bottom_mm <= page.high_mm - 4.9, it


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", ["demo", "sound", "forty-two", "four-ballast", "twelve-repairs"])
def test_the_reckoned_heights_are_those_of_the_layout(name: str, paper: Paper) -> None:
    shown = clean.for_paper(sheet(name), has=typeface.has)
    plan = sheet_fit.plan(shown, paper=paper)
    wide_mm = sheet_fit.LIVE_WIDE_MM[paper]
    at = {key: (page, high_mm - MARGIN_MM) for key, (page, high_mm) in places(name, paper).items()}
    assert not plan.flows
    page, decided_mm = at["decided"]
    reckoned_mm = sheet_fit.decide_mm(shown, wide_mm=wide_mm, close=plan.close)
    assert page == 0
    assert decided_mm <= reckoned_mm <= decided_mm + 4.0
    (first, top_mm), (last, end_mm) = at["pack"], at["packed"]
    assert first == last
    reckoned_mm = sheet_fit.pack_mm(shown, wide_mm=wide_mm)
    reckoned_mm += 0.0 if plan.cautions_first else sheet_fit._cautions(shown, wide_mm)
    assert end_mm - top_mm <= reckoned_mm <= end_mm - top_mm + 5.0


def places(name: str, paper: Paper) -> dict[str, tuple[int, float]]:
    return {key: (at, mm) for at, page in enumerate(pages(name, paper)) for key, mm in page.anchors.items()}


def test_gaps_stand_closer_only_where_side_1_would_else_not_hold_them() -> None:
    plans = {name: sheet_fit.plan(clean.for_paper(sheet(name), has=typeface.has), paper=Paper.A4) for name in PAGES}
    assert not plans["sound"].close
    assert not plans["forty-two"].close
    assert plans["forty-two"].cautions_first
    assert plans["seventy-four"].flows
    assert not plans["demo"].flows


def test_long_names_are_shortened_on_the_sheet_and_still_differ() -> None:
    things = [item.what for bag in sheet("long-names").bags for item in bag.items]
    assert len(set(things)) == len(things)
    assert all(len(what) < 100 for what in things)
    assert any("…" in what and what.endswith("shade 11") for what in things)


def test_the_sheet_says_that_its_count_of_rods_is_for_departure_and_the_cards_for_a_reading() -> None:
    words = "".join(char["text"] for char in papers.pages("BUILT_DEMO_SHEET")[0].chars)
    assert "Rods,atdeparture" in words.replace(" ", "").replace("\u00a0", "")
    assert "fordeparture.Thecard" in words.replace(" ", "").replace("\u00a0", "")


CARDED = (
    "demo", "sound", "six-rods", "long-names", "cyrillic", "chinese", "hebrew", "mixed-scripts", "guests", "pairs",
    "two-pairs", "four-ballast", "wet-pair", "alone", "parallel", "twelve-repairs", "cold", "hostile",
)  # fmt: skip
UNTYPED = ("chinese", "hebrew", "mixed-scripts")
LOOKED_UP = ("Rods on this bank", "Tables", "Notes", "Somebody is hurt", "When it goes wrong")


@cache
def card(name: str) -> Card:
    return built.card(awkward.KITS[name]())


@pytest.mark.parametrize("name", CARDED)
def test_a_face_that_is_read_aloud_keeps_its_steps_its_half_minute_and_its_lines(name: str) -> None:
    read = [face for face in card(name).faces if face.title not in LOOKED_UP]
    for face in read:
        spoken = len(f"{face.title} {face.when}".split()) + sum(card_split.words_of(block) for block in face.blocks)
        assert len(face.steps) <= 9
        assert face.steps or any(isinstance(block, Hookup) for block in face.blocks)
        assert spoken * 60 / 130 <= 30.5, (face.number, spoken)
        assert all(card_split.lines_of(step) == 1 for step in face.steps), face.number
        assert sum(card_split.high_mm(block) for block in face.blocks) <= card_split.STEPS_HIGH_MM + 0.1


@pytest.mark.parametrize("name", CARDED)
def test_half_the_words_of_the_faces_that_are_read_aloud_are_in_the_larger_type(name: str) -> None:
    blocks = [block for face in card(name).faces if face.title not in LOOKED_UP for block in face.blocks]
    large = sum(card_split.words_of(block) for block in blocks if isinstance(block, Step))
    assert large >= 0.5 * sum(card_split.words_of(block) for block in blocks)


@pytest.mark.parametrize("name", CARDED)
def test_a_trigger_on_the_last_face_is_one_bold_line_among_few(name: str) -> None:
    last = card(name).faces[-1]
    triggers = [block.trigger for block in last.blocks if isinstance(block, IfThenLine)]
    assert 5 <= len(triggers) <= 9  # more than nine are searched, not seen
    assert len(set(triggers)) == len(triggers)
    assert all(typeface.width_mm(t, size_pt=12, bold=True) <= card_split.LIVE_WIDE_MM for t in triggers)
    assert all(face.wrong == f"Wrong: {last.number}" for face in card(name).faces[:-1])


@pytest.mark.parametrize("paper", Paper)
def test_every_face_of_awkward_cards_fits_on_its_paper(paper: Paper) -> None:
    names = {Paper.A4: [name for name in CARDED if name not in UNTYPED], Paper.LETTER: ["demo", "twelve-repairs"]}
    pool = papers.pooled([card(name) for name in names[paper]])
    assert papers.pages_taken(pool, on=paper) == -(-len(pool.faces) // 4)


@pytest.mark.parametrize("name", CARDED)
def test_a_card_is_built_the_same_way_twice(name: str) -> None:
    assert built.card(awkward.KITS[name]()).content_hash() == card(name).content_hash()


@pytest.mark.parametrize("name", UNTYPED)
def test_a_card_or_sticker_whose_names_no_family_has_the_letters_of_is_refused_by_name(name: str) -> None:
    case = awkward.KITS[name]()
    first = next(word for battery in case.trip.bank for word in battery.split() if not word.isascii())
    for paper in (card(name), build_stickers(case.kit, case.trip, on=case.on)):
        with pytest.raises(PrintError, match=r"no letters for") as refused:
            pdf.to_pdf(paper)
        assert first[:3] in refused.value.message
        assert text.render(paper)


def test_a_sheet_on_which_two_names_would_look_alike_is_refused_and_one_odd_name_prints_by_its_number() -> None:
    kit = example.whole().kit
    one, two = (replace(tool, name=name) for tool, name in zip(kit.tools, ("工具甲", "工具乙"), strict=False))
    alike = assess(replace(kit, tools=(one, two, *kit.tools[2:])), example.whole().trip, on=example.whole().on)
    with pytest.raises(PrintError, match=r"no letters for 工具甲, 工具乙") as refused:
        pdf.to_pdf(build_sheet(alike))
    assert "--out NAME.txt" in refused.value.hint
    assert text.render(build_sheet(alike))
    alone = assess(replace(kit, tools=(one, *kit.tools[1:])), example.whole().trip, on=example.whole().on)
    assert papers.pages_taken(build_sheet(alone)) == 2


@pytest.mark.parametrize("name", ["chinese", "hebrew", "mixed-scripts", "cyrillic"])
def test_names_of_any_script_stay_apart_on_card_and_sheet(name: str) -> None:
    (drawing,) = (b for f in card(name).faces for b in f.blocks if isinstance(b, Hookup))
    assert len({box.name for box in drawing.boxes}) == 3
    bank = sheet(name).bank
    assert bank
    shown = clean.for_paper(sheet(name), has=typeface.has)
    assert shown.bank
    assert len({row.cells[:2] for row in shown.bank.batteries}) == 3


@pytest.mark.parametrize("name", ["demo", "minimal", "seventy-two-gaps", "sound", "twelve-repairs", "wet-pair"])
def test_the_stops_by_themselves_are_those_of_the_whole_judgement(name: str) -> None:
    case = awkward.KITS[name]()
    assert stops(case.kit, case.trip, on=case.on) == case.stops


def test_an_owner_of_imperial_units_has_them_beside_the_metric_on_sheet_and_labels() -> None:
    case = awkward.sound()
    metric, both = build_sheet(case), build_sheet(case, units=Units.IMPERIAL)
    things = {item.number: item.what for bag in both.bags for item in bag.items}
    assert "Link, 3 m (9.8 ft), 35 mm² (2 AWG)" in things.values()
    assert "Thick rods, 4 mm (5/32 in) E6013" in things.values()
    assert "5 to 25 °C (41 to 77 °F)" in both.about
    assert "(" not in " ".join(item.what for bag in metric.bags for item in bag.items)
    labels = build_labels(case, units=Units.IMPERIAL)
    assert any("(2 AWG)" in item.what for label in labels.labels for item in label.items)
    assert papers.pages_taken(both) == 2


def test_gaps_and_the_card_have_the_owners_units_too_and_the_sheet_names_that_card() -> None:
    case = in_units(awkward.KITS["demo"](), Units.IMPERIAL)
    sheet = build_sheet(case, units=Units.IMPERIAL)
    wrong = " ".join(line.what for line in sheet.mend)
    assert "rated to −5 °C (23 °F), and −6 °C (21 °F) is expected" in wrong
    assert "−6 °C (21 °F) where 0 °C (32 °F) is the least" in wrong
    assert "2 h at 350 to 370 °C (662 to 698 °F)" in " ".join(line.do for line in sheet.mend)
    assert [gap.measured for gap in case.gaps] == [gap.measured for gap in awkward.KITS["demo"]().gaps]
    made = build_card(case.kit, case.trip, on=case.on, units=Units.IMPERIAL)
    assert sheet.card_hash == made.content_hash() != card("demo").content_hash()
    steps = {step.text: step.see for face in made.faces for step in face.steps}
    assert steps["Park on bare earth, cleared"] == "11 m"  # with the feet it would take a second line
    assert "others 10 m (32.8 ft) off" in " ".join(text.render(made).split())
    assert papers.pages_taken(made) == -(-len(made.faces) // 4)
