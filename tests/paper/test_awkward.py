"""The papers of awkward kits, as they are laid out: how many pages, how much of them is blank, nothing cut."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import pdfplumber
import pytest

from kitlist.base import clean
from kitlist.base.terms import Paper
from kitlist.faces.paper import html, pdf, sheet_fit, typeface
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.document import Sheet
from kitlist.faces.paper.overflow import PX_A_MM
from paper import awkward
from paper.papers import MM, chars_of

PAGES = {
    "demo": 2, "minimal": 2, "sound": 2, "forty-two": 2, "empty": 2, "guests": 2, "pairs": 2, "four-ballast": 2,
    "twelve-repairs": 2, "hebrew": 2, "twelve-bags": 4, "seventy-four": 3, "seventy-two-gaps": 4, "six-rods": 3,
    "long-names": 3, "crowded": 3,
}  # fmt: skip
"""The most that each may take on A4. Seventy-four rows of 7.5 mm in two columns are over one side by themselves."""
MARGIN_MM = 12.0


@cache
def sheet(name: str) -> Sheet:
    return build_sheet(awkward.KITS[name]())


@cache
def pages(name: str, paper: Paper = Paper.A4) -> list[pdfplumber.page.Page]:
    return pdfplumber.open(io.BytesIO(pdf.to_pdf(sheet(name), paper=paper))).pages


@pytest.mark.parametrize("name", PAGES)
def test_a_sheet_takes_no_more_pages_than_it_may_and_is_blank_for_40_mm_on_its_last_one_only(name: str) -> None:
    assert len(pages(name)) <= PAGES[name]
    for page in pages(name)[:-1]:
        foot = float(page.height) - MARGIN_MM * MM
        inked = [float(it["bottom"]) for it in (*chars_of(page), *page.lines, *page.rects)]
        ends = max(at for at in inked if at <= foot)
        assert (foot - ends) / MM <= 40 + sheet_fit.RULE_MM / 2, name


@pytest.mark.parametrize("name", PAGES)
def test_every_word_of_a_sheet_stands_within_its_margins(name: str) -> None:
    for page in pages(name):
        for char in chars_of(page):
            assert char["x0"] >= 19.5 * MM, char["text"]
            assert char["x1"] <= page.width - 11.5 * MM, char["text"]
            assert char["bottom"] <= page.height - 4.9 * MM, char["text"]


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", ["demo", "sound", "forty-two", "four-ballast", "twelve-repairs"])
def test_the_reckoned_heights_are_those_of_the_layout(name: str, paper: Paper) -> None:
    shown = clean.for_paper(sheet(name), has=typeface.has)
    plan = sheet_fit.plan(shown, paper=paper)
    wide_mm = sheet_fit.LIVE_WIDE_MM[paper]
    at = anchors(name, paper)
    if not plan.flows:
        page, decided_mm = at["decided"]
        reckoned_mm = sheet_fit.decide_mm(shown, wide_mm=wide_mm, close=plan.close)
        assert page == 0
        assert decided_mm - 1.0 <= reckoned_mm <= decided_mm + 5.0
    (first, top_mm), (last, end_mm) = at["pack"], at["packed"]
    if first == last:
        reckoned_mm = sheet_fit.pack_mm(shown, wide_mm=wide_mm)
        reckoned_mm += 0.0 if plan.cautions_first else sheet_fit._cautions(shown, wide_mm)
        assert abs(end_mm - top_mm - reckoned_mm) <= 8.0


def anchors(name: str, paper: Paper) -> dict[str, tuple[int, float]]:
    """On which page, and how far below its upper margin, each marked place of a sheet comes to stand."""
    found: dict[str, tuple[int, float]] = {}

    class Seen(Exception):
        pass

    def look(laid_out: Any) -> None:
        for number, page in enumerate(laid_out):
            for key, place in page.anchors.items():
                found[key] = (number, place[1] / PX_A_MM - MARGIN_MM)
        raise Seen

    with pytest.raises(Seen):
        pdf.make(html.render(sheet(name), paper=paper, fonts_inside=False), identifier=b"test", check=look)
    return found


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
    words = "".join(char["text"] for char in pages("demo")[0].chars)
    assert "Rods,atdeparture" in words.replace(" ", "").replace("\u00a0", "")
    assert "fordeparture.Thecard" in words.replace(" ", "").replace("\u00a0", "")
