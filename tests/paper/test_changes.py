"""What changed since the last print: a bar beside every line that the paper before did not have, and no other."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from kitlist.base.terms import GearKind, ToolKind
from kitlist.faces.paper import html, pdf, since_last, text
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.document import Fact, Sheet, SheetItem
from kitlist.kit import Gear, Tool
from kitlist.readiness import Readiness, assess
from paper import built

ON = date(2027, 5, 4)


def after(readiness: Readiness, before: Sheet) -> Sheet:
    sheet = build_sheet(readiness)
    return since_last.marked(sheet, since_last.lines(before), revision=3, on=ON)


def changed(sheet: Sheet) -> list[str]:
    """The first words of every line with a bar, in the order of the sheet."""
    found: list[object] = [sheet.verdict, *sheet.facts, *sheet.gaps]
    if sheet.bank:
        rods = sheet.bank.rods.rows if sheet.bank.rods else ()
        found += [*sheet.bank.batteries, *sheet.bank.facts, *sheet.bank.joins, *rods]
    found += [item for bag in sheet.bags for item in bag.items] + list(sheet.recheck.items)
    return [_name(piece) for piece in found if piece.changed]  # type: ignore[attr-defined]


def _name(piece: object) -> str:
    for field in ("what", "label", "word", "rod"):
        if hasattr(piece, field):
            return str(getattr(piece, field))
    return str(piece.cells[1])  # type: ignore[attr-defined]


def test_the_same_sheet_has_no_bar_and_says_what_it_was_compared_with() -> None:
    sheet = after(built.demo(), build_sheet(built.demo()))
    assert changed(sheet) == []
    assert (sheet.changes_since, sheet.gone) == ("revision 3 of 2027-05-04", 0)
    assert '<span class="bar">' not in html.render(sheet)


def test_a_new_reading_marks_its_battery_and_what_follows_from_it() -> None:
    demo = built.demo()
    readings = tuple(
        replace(r, volts_v=12.70) if r.battery == "heron-main" and r.volts_v == 12.74 else r for r in demo.kit.readings
    )
    now = assess(replace(demo.kit, readings=readings), demo.trip, on=demo.on)
    marked = changed(after(now, build_sheet(demo)))
    assert "heron-main, Heron, calcium 75 Ah" in marked
    assert "At rest" in marked
    assert not any("plover" in name for name in marked)
    assert not any("chipping" in name.lower() for name in marked)


def test_a_thing_put_into_another_bag_is_marked_there_and_counted_as_gone_from_the_first() -> None:
    demo = built.demo()
    tools = tuple(replace(t, bag="Tool roll") if t.name == "shovel" else t for t in demo.kit.tools)
    now = assess(replace(demo.kit, tools=tools), demo.trip, on=demo.on)
    sheet = after(now, build_sheet(demo))
    assert changed(sheet) == ["Shovel"]
    assert sheet.gone == 1
    assert "Gone since then: 1 line." in " ".join(html.render(sheet).split())
    assert "Lines gone since then: 1." in " ".join(text.render(sheet).split())


def test_bars_stand_in_the_left_margin_of_the_page_and_are_0_8_mm_wide() -> None:
    demo = built.demo()
    tools = (*demo.kit.tools, Tool(name="second timer", what=ToolKind.TIMER, bag="Tool roll"))
    sheet = after(assess(replace(demo.kit, tools=tools), demo.trip, on=demo.on), build_sheet(demo))
    assert html.render(sheet).count('<span class="bar"></span>') == len(changed(sheet)) == 1

    import io

    import pdfplumber

    pages = pdfplumber.open(io.BytesIO(pdf.to_pdf(sheet))).pages
    bars = [r for page in pages for r in page.rects if abs(r["width"] / (72 / 25.4) - 0.8) < 0.05 and r["height"] > 10]
    assert len(bars) == 1
    assert any(low <= bars[0]["x0"] / (72 / 25.4) < low + 4 for low in (16, 108))  # left of its column


def test_bars_and_their_explanation_leave_the_hash_as_it_was() -> None:
    before = build_sheet(built.small())
    assert after(built.demo(), before).content_hash() == build_sheet(built.demo()).content_hash()


def test_a_thing_stowed_before_others_moves_their_numbers_and_marks_none_of_them() -> None:
    demo = built.demo()
    gear = (Gear(name="aaa apron", what=GearKind.APRON, bag="Power bag"), *demo.kit.gear)
    sheet = after(assess(replace(demo.kit, gear=gear), demo.trip, on=demo.on), build_sheet(demo))
    assert [item.what for bag in sheet.bags for item in bag.items if item.changed] == ["Aaa apron"]
    numbers = [item.number for bag in sheet.bags for item in bag.items]
    assert sorted(numbers) == list(range(1, len(numbers) + 1))


def test_two_lines_of_the_same_words_in_different_bags_are_two_lines() -> None:
    sheet = build_sheet(built.small())
    (bag, *rest) = sheet.bags
    twice = replace(sheet, bags=(bag, replace(bag, title="Another"), *rest))
    assert len(since_last.lines(twice)) == len(since_last.lines(sheet)) + len(bag.items)


def test_a_change_of_one_word_is_a_change() -> None:
    sheet = replace(build_sheet(built.small()), facts=(Fact("Dates", "then"),))
    later = replace(sheet, facts=(Fact("Dates", "now"),))
    marked = since_last.marked(later, since_last.lines(sheet), revision=1, on=ON)
    assert [fact.changed for fact in marked.facts] == [True]
    assert not any(isinstance(item, SheetItem) and item.changed for item in marked.recheck.items)
