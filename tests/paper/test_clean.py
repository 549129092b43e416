"""User text is data: nothing in it may steer a paper, a page or a terminal."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitlist.base import clean
from kitlist.base.terms import Polarity
from kitlist.faces.paper import typeface
from kitlist.faces.paper.document import Hookup, LeadLine
from paper import samples


@given(st.text(max_size=400))
@settings(max_examples=300, deadline=None)
def test_no_control_format_or_bidi_character_survives(text: str) -> None:
    kept = clean.plain(text)
    assert len(kept) <= clean.LONGEST
    assert not {unicodedata.category(character) for character in kept} & {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
    assert clean.plain(kept) == kept


@given(st.text(max_size=200))
@settings(max_examples=300, deadline=None)
def test_only_characters_of_the_typeface_reach_a_paper(text: str) -> None:
    drawn = clean.drawable(clean.typeset(clean.plain(text)), has=typeface.has)
    assert all(typeface.has(character) for character in drawn)


def test_both_weights_have_the_same_characters() -> None:
    assert typeface.weight().advances.keys() == typeface.weight(bold=True).advances.keys()


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("-6 °C", "−6~°C"),
        ("from -18 C to 31 °C", "from −18 C to 31~°C"),
        ("12.65 V at 110 A", "12.65~V at 110~A"),
        ("3.2 mm E7018-1 H4R", "3.2~mm E7018-1 H4R"),
        ("2026-05-04", "2026-05-04"),
        ("35 mm² and 40 mΩ", "35~mm² and 40~mΩ"),
        ("2 Vehicles, 3 metres", "2 Vehicles, 3 metres"),
        ("Heron (-1)", "Heron (−1)"),
    ],
)
def test_minus_is_a_minus_and_a_unit_stays_with_its_number(typed: str, printed: str) -> None:
    assert clean.typeset(typed).replace("\u00a0", "~") == printed


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("e\u0301", "é"),
        ("Łódź", "Łódź"),
        ("ế", "e" if not typeface.has("ế") else "ế"),
        ("車 battery", "¤ battery"),
        ("🔥", "¤"),
        ("a\u0300\u0301\u0302", "à"),
        ("½ ㎜", "½ mm"),
    ],
)
def test_a_missing_character_becomes_its_bare_letter_or_a_visible_substitute(typed: str, printed: str) -> None:
    assert clean.drawable(clean.plain(typed), has=typeface.has) == printed


def test_a_long_text_is_cut_visibly() -> None:
    assert clean.plain("word " * 1000, longest=20) == "word word word word…"
    assert len(clean.plain("x" * 10_000_000, longest=30)) == 30


def test_our_own_cautions_are_never_cut() -> None:
    shown = clean.for_paper(samples.DEMO_SHEET, has=typeface.has)
    assert [len(text) for text in shown.cautions] == [len(text) for text in samples.DEMO_SHEET.cautions]


def test_words_of_an_enum_stay_what_they_are() -> None:
    shown = clean.for_paper(samples.CARD, has=typeface.has)
    drawing = shown.faces[0].blocks[0]
    assert isinstance(drawing, Hookup)
    assert (drawing.polarity, drawing.opening_in) == (Polarity.DCEP, LeadLine.HOLDER)
    assert shown.marks == samples.CARD.marks
