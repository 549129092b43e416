"""The HTML of both papers: order, boxes, warnings before their steps, drawings as inline SVG, nothing unescaped."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from kitlist.base import clean, resources
from kitlist.faces.paper import chart, html, typeface
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.charts import ChartBar
from kitlist.faces.paper.document import Caution, Fact, GapLine, Section, SheetItem
from kitlist.faces.paper.figure import Block, Stroke
from kitlist.kit import Item as OwnItem
from kitlist.readiness import assess
from kitlist.rules import card_out_of_date
from kitlist.rules.example import whole
from paper import samples
from paper.papers import CARDS, SHEETS, document


class Outline(HTMLParser):
    """Tags, titles of drawings and running text of a page, in order."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self._silent = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._silent += tag in ("style", "title")

    def handle_endtag(self, tag: str) -> None:
        self._silent -= tag in ("style", "title")

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.text += data

    def of(self, tag: str, css_class: str = "") -> list[dict[str, str | None]]:
        return [a for t, a in self.tags if t == tag and (not css_class or css_class in (a.get("class") or "").split())]


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_has_one_box_to_tick_for_each_item_and_each_gap_but_none_for_what_stays_at_home(name: str) -> None:
    sheet = document(name)
    packed = [item for bag in sheet.bags for item in bag.items if item.short_by or not item.stays]
    at_the_door = [item for item in sheet.recheck.items if not item.stays]
    to_mend = [gap for gap in sheet.mend if not gap.accepted]
    page = html.render(sheet)
    assert len(Outline(page).of("svg", "tick")) == len(packed) + len(at_the_door) + len(to_mend)
    assert page.count('<span class="leave">leave at home</span>') == sum(
        item.stays and not item.short_by for section in (*sheet.bags, sheet.recheck) for item in section.items
    )


def test_a_box_to_tick_is_5_5_mm_with_a_line_of_0_35_mm_or_more() -> None:
    page = html.render(samples.DEMO_SHEET)
    (view,) = set(re.findall(r'viewBox="0 0 ([\d.]+) [\d.]+"><title>Box to tick', page))
    ((side, line),) = set(re.findall(r'Box to tick.*?<rect [^>]*width="([\d.]+)"[^>]*stroke-width="([\d.]+)"', page))
    (drawn,) = re.findall(r"svg\.tick \{ width: ([\d.]+)mm", page)
    scale = float(drawn) / float(view)
    assert float(side) * scale == pytest.approx(5.5)
    assert float(line) * scale >= 0.35


def test_the_sheet_is_decided_on_one_side_and_packed_on_the_other() -> None:
    text = Outline(html.render(samples.DEMO_SHEET)).text
    order = [
        "NOT READY",
        "Mend first",
        "The bank: three in series",
        "Red bag",
        "Grey crate",
        "Recheck at the door",
        "Name, gone through by",
        "Local codes and licensed practice come first.",
    ]
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_what_is_not_needed_to_decide_or_to_pack_is_the_annex() -> None:
    plain, annexed = (html.render(replace(samples.DEMO_SHEET, annex=annex)) for annex in (False, True))
    for words in ("Gaps in full", "Accepted gaps", "spare holder not to be had in time"):
        assert words not in plain
        assert words in annexed
    assert replace(samples.DEMO_SHEET, annex=True).content_hash() == samples.DEMO_SHEET.content_hash()


def test_every_gap_stands_once_and_short_on_the_first_side_and_those_of_one_kind_in_one_line() -> None:
    sheet = build_sheet(assess(*(lambda it: (replace(it.kit, readings=()), it.trip))(whole()), on=whole().on))
    alike = [gap for gap in sheet.mend if "north-main" in gap.what and "south-second" in gap.what]
    assert len(alike) == 1
    assert "north-second" in alike[0].what
    assert len(sheet.mend) <= len(sheet.gaps)
    for gap in sheet.mend:
        assert typeface.width_mm(gap.what, size_pt=12, bold=True) <= 200


@pytest.mark.parametrize("name", CARDS)
def test_each_warning_of_the_card_stands_right_above_its_step(name: str) -> None:
    page = html.render(document(name))
    after = re.findall(r'<p class="caution [^>]*>.*?</p>\s*<(\w+) class="(\w+)', page, re.DOTALL)
    cautions = page.count('<p class="caution ')
    assert cautions == sum(isinstance(b, Caution) for face in document(name).faces for b in face.blocks) > 0
    assert after == [("ol", "step")] * cautions


def test_a_gap_is_a_boxed_number_with_a_minus_and_a_word() -> None:
    page = html.render(samples.DEMO_SHEET)
    assert '<span class="short">−1</span>' in page
    assert '<span class="gapword">short</span>' in page


def test_things_of_the_owner_s_own_stand_at_the_door_and_in_their_bag_with_what_is_short() -> None:
    it = whole()
    own = OwnItem(name="tow rope", must_carry=2, count=1, bag=it.kit.tools[0].bag)
    sheet = build_sheet(assess(replace(it.kit, items=(own,)), it.trip, on=it.on))
    carried = [item for section in (sheet.recheck, *sheet.bags) for item in section.items if item.what == "Tow rope"]
    assert [(item.need, item.have, item.short_by, item.gap_word) for item in carried] == [("2", "1", 1, "short")] * 2


def test_a_card_that_no_longer_holds_is_marked_where_it_is_ticked() -> None:
    bad = card_out_of_date.RULE.bad()
    sheet = build_sheet(assess(bad.kit, bad.trip, on=bad.on))
    (card,) = [item for item in sheet.recheck.items if item.what.startswith("Glovebox card")]
    assert (card.see, card.gap_word) == (f"hash {sheet.card_hash}", "print anew")


def test_what_changed_has_a_bar_and_the_sheet_says_since_when() -> None:
    page = html.render(samples.DEMO_SHEET)
    assert page.count('<span class="bar"></span>') == 1
    assert "changed since revision 3 of 2026-04-20" in page
    assert '<span class="bar">' not in html.render(samples.EMPTY_SHEET)
    assert samples.DEMO_SHEET.bank
    rods = replace(samples.RODS, rows=tuple(replace(row, changed=True) for row in samples.RODS.rows))
    marked = replace(samples.DEMO_SHEET, bank=replace(samples.DEMO_SHEET.bank, rods=rods))
    assert html.render(marked).count('<span class="bar"></span>') == 1 + 3


@pytest.mark.parametrize("name", [*SHEETS, *CARDS])
def test_every_drawing_has_a_title_and_a_view_box_but_no_size(name: str) -> None:
    page = html.render(document(name))
    drawings = re.findall(r"<svg [^>]*>\s*(<title>[^<]+</title>)?", page)
    assert drawings or name == "EMPTY_SHEET"
    assert all(drawings)
    for attributes in Outline(page).of("svg"):
        assert attributes.get("viewbox")
        assert not {"width", "height"} & attributes.keys()


@pytest.mark.parametrize("name", [*SHEETS, *CARDS])
def test_nothing_in_the_html_points_outside_it(name: str) -> None:
    outline = Outline(html.render(document(name)))
    assert not outline.of("script") + outline.of("img") + outline.of("link") + outline.of("a")
    for _, attributes in outline.tags:
        assert not {"href", "src", "xlink:href", "onload", "style"} & attributes.keys()
    styles = "".join(re.findall(r"<style>(.*?)</style>", html.render(document(name)), re.DOTALL))
    assert set(re.findall(r"url\((.{0,14})", styles)) == {"data:font/ttf;"}


def test_hostile_words_arrive_as_words() -> None:
    outline = Outline(html.render(samples.HOSTILE_SHEET))
    assert samples.HOSTILE[0] in outline.text
    assert "{{ 7*7 }}" in outline.text
    assert not outline.of("script")


@given(st.text(min_size=1, max_size=60).filter(lambda text: clean.drawable(clean.plain(text), has=typeface.has)))
@example("U-bolts, <b>")  # the letter and its word are kept together by a span of the template's own
@settings(max_examples=60, deadline=None)
def test_no_text_can_add_or_close_an_element(text: str) -> None:
    def tags(words: str) -> list[str]:
        sheet = replace(
            samples.SMALL_SHEET,
            kit=words,
            trip=words,
            facts=(Fact(words, words),),
            gaps=(GapLine(severity="fix", what=words, do=words, accepted=words),),
            bags=(Section(title=words, note=words, items=(SheetItem(what=words, see=words, need=words, have=words),)),),
            cautions=(words,),
            changes_since=words,
        )
        whole = html.render(sheet, fonts_inside=False)
        lined = re.sub('<section class="rules">.*?</section>', "", whole)  # as many lines as a text leaves room for
        return [tag for tag, attributes in Outline(lined).tags if attributes.get("class") != "nowrap"]

    assert tags(text) == tags("plain")


@pytest.mark.parametrize("name", ["sheet", "card", "card_face", "labels", "form"])
def test_templates_do_no_arithmetic(name: str) -> None:
    source = (resources.folder("templates") / f"{name}.html.jinja").read_text("utf-8")
    for expression in re.findall(r"\{[{%](.*?)[%}]\}", source, re.DOTALL):
        bare = re.sub(r'"[^"]*"', "", expression).removeprefix("-").removesuffix("-")
        assert not re.search(r"[+*/]|(?<!^)-\s|\bround\b|\bsum\b", bare), expression


@pytest.mark.parametrize("name", [*SHEETS, *CARDS])
def test_ticks_and_arrows_are_drawn_not_typed(name: str) -> None:
    assert not set(Outline(html.render(document(name))).text) & set("✓✔☐□■→←↑↓▶")


def test_the_chart_is_to_scale_and_its_chosen_bank_is_solid() -> None:
    figure = chart.draw(samples.CHART, width_mm=178)
    banks = [shape for shape in figure.of_kind("bank") if isinstance(shape, Block)]
    rods = [shape for shape in figure.of_kind("rod") if isinstance(shape, Block)]
    grid = [shape for shape in figure.of_kind("grid") if isinstance(shape, Stroke)]
    zero, end = grid[0].points[0][0], grid[-1].points[0][0]

    def amperes(x: float) -> float:
        return (x - zero) / (end - zero) * 400

    for bar, shape in zip((*samples.CHART.banks, *samples.CHART.rods), (*banks, *rods), strict=True):
        assert amperes(shape.x) == pytest.approx(bar.low_a)
        assert amperes(shape.x + shape.width) == pytest.approx(bar.high_a)
        assert shape.filled == bar.chosen
    best = [shape for shape in figure.of_kind("best") if isinstance(shape, Stroke)]
    assert [amperes(line.points[0][0]) for line in best] == pytest.approx([60, 201, 300])
    assert samples.CHART.summary in figure.title


@pytest.mark.parametrize("most_a", [40, 130, 372, 1400])
def test_the_chart_keeps_few_grid_lines_and_stays_on_its_ground(most_a: float) -> None:
    bar = ChartBar(label="x" * 200, low_a=1, high_a=most_a, best_a=most_a / 2)
    figure = chart.draw(replace(samples.CHART, banks=(bar,), rods=()), width_mm=100)
    assert 2 <= len(figure.of_kind("grid")) <= 8
    (drawn,) = figure.of_kind("bank")
    assert isinstance(drawn, Block)
    assert drawn.x + drawn.width <= 100
