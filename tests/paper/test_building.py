"""What builders leave out, and what widths and drawings are reckoned by."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import Units
from kitlist.faces.paper import hookup, sheet_fit, typeface
from kitlist.faces.paper.build_mend import mend_lines
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.document import Box, Hookup, Section, SheetItem
from kitlist.faces.paper.figure import Text
from paper import awkward, built


def test_a_screen_gets_no_drawn_part_no_bags_and_no_card() -> None:
    shown = build_sheet(built.demo(), for_screen=True)
    assert shown.bank is not None
    assert shown.bank.chart is None
    assert all(row.trend is None for row in shown.bank.batteries)
    assert (shown.bags, shown.mend, shown.recheck.items, shown.card_hash, shown.untyped) == ((), (), (), "", ())


def test_a_bank_without_a_card_has_no_column_of_go_volts() -> None:
    without, with_card = (build_sheet(awkward.KITS[name]()).bank for name in ("minimal", "demo"))
    assert without is not None
    assert with_card is not None
    assert "Go at" not in without.battery_headings
    assert "Go at" in with_card.battery_headings
    for bank in (without, with_card):
        assert {len(row.cells) for row in bank.batteries} == {len(bank.battery_headings)}


def test_a_character_that_no_family_has_is_reckoned_as_wide_as_the_widest() -> None:
    widest = max(typeface.width_mm(chr(code), size_pt=12) for code in typeface.weight().advances)
    assert typeface.width_mm("車", size_pt=12) == pytest.approx(widest)


def test_a_battery_without_a_detail_has_no_empty_word_in_its_box() -> None:
    boxes = (Box("a", "1", "80 Ah"), Box("b", "2"))
    drawn = hookup.draw(Hookup(strings=(boxes,), polarity=None), width_mm=86)
    assert all(shape.text for shape in drawn.shapes if isinstance(shape, Text))


@pytest.mark.parametrize("name", ["demo", "seventy-two-gaps", "six-rods", "twelve-repairs"])
def test_what_is_wrong_takes_a_line_and_names_nothing_that_the_kit_does_not_have(name: str) -> None:
    for line in mend_lines(awkward.KITS[name]()):
        assert typeface.width_mm(line.what, size_pt=12, bold=True) <= 155, line.what
        assert not line.what.endswith((": bank", ": rods", ": heater", ": Example"))
        assert " least;" not in line.what


def test_a_gap_of_numbers_says_what_is_measured_and_wanted_in_one_phrase() -> None:
    lines = [line.what for line in mend_lines(built.demo(), units=Units.METRIC)]
    assert "Nothing to warm the steel with: −6 °C where 0 °C is the least" in lines
    assert "An engine that may not start: stilt-main, 5.1 V where 8.93 V is the least" in lines
    assert (
        "Low-hydrogen rods open too long: strong rods, 190 days, limit 2 h" in lines
    )  # the longer one takes two lines


def _part(title: str, count: int) -> Section:
    return Section(title=title, items=tuple(SheetItem(what=f"{title} {number}") for number in range(count)))


def test_columns_are_evened_and_no_heading_ends_one() -> None:
    one = sheet_fit._evened([(7.0, [7.5] * 4)])
    assert (one.turn, one.high_mm) == ((0, 2), 22.0)  # the heading stands over the left
    two = sheet_fit._evened([(7.0, [7.5] * 3), (7.0, [7.5] * 3)])
    assert (two.turn, two.high_mm) == ((1, 0), 29.5)
    alone = sheet_fit._evened([(7.0, [7.5])])
    assert (alone.turn, alone.high_mm) == ((1, 0), 14.5)


def test_a_part_that_goes_on_in_the_right_column_is_whole_between_both() -> None:
    parts = (_part("a", 3), _part("b", 4), _part("c", 2))
    left, right = sheet_fit.in_columns(parts, (1, 3))
    assert [(part.title, len(part.items)) for part in left] == [("a", 3), ("b", 3)]
    assert [(part.title, len(part.items)) for part in right] == [("", 1), ("c", 2)]
    assert left[1].items + right[0].items == parts[1].items
    assert sheet_fit.in_columns(parts, (1, 0)) == (parts[:1], parts[1:])
    assert sheet_fit.in_columns(parts, None) == (parts, ())


def test_a_recheck_of_one_thing_or_of_several_parts_is_not_parted_by_hand() -> None:
    case = built.demo()
    few = replace(build_sheet(case), recheck=Section(title="Recheck at the door", items=(SheetItem(what="card"),)))
    many = replace(few, recheck=_part("Recheck at the door", 10))
    for sheet in (few, many):
        assert sheet_fit.plan(sheet, paper=sheet_fit.Paper.A4).door_turn is None
