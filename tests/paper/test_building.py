"""What builders leave out, and what widths and drawings are reckoned by."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from kitlist.base.terms import Units
from kitlist.faces.paper import hookup, papers, sheet_fit, since_last, text, typeface
from kitlist.faces.paper.build_chart import build_chart
from kitlist.faces.paper.build_mend import mend_lines
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.called import NameRoom, told_apart
from kitlist.faces.paper.document import Box, Fact, Hookup, Marks, Section, SheetItem
from kitlist.faces.paper.figure import Text
from kitlist.faces.paper.form import Form, FormTable
from paper import awkward, built


def test_a_screen_gets_no_drawn_part_no_bags_and_no_card() -> None:
    shown = build_sheet(built.demo(), for_screen=True)
    assert shown.bank is not None
    assert shown.bank.chart is None
    assert all(row.trend is None for row in shown.bank.batteries)
    assert (shown.bags, shown.mend, shown.recheck.items, shown.card_hash, shown.untyped) == ((), (), (), "", ())


def test_a_screen_has_names_whole_and_the_paper_has_them_cut() -> None:
    case = awkward.long_names()
    on_screen, on_paper = (build_sheet(case, for_screen=screen).bank for screen in (True, False))
    assert on_screen is not None
    assert on_paper is not None
    assert on_screen.batteries[0].cells[1].startswith(case.trip.bank[0])
    assert "…" in on_paper.batteries[0].cells[1]


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


def test_a_character_of_either_family_can_be_drawn() -> None:
    first, second = (set(typeface.weight(second=it).advances) for it in (False, True))
    assert second - first
    assert all(typeface.has(chr(code)) for code in first | second)
    assert not typeface.has("車")


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


def test_a_limit_that_is_passed_from_below_or_from_above_is_called_so() -> None:
    lines = [line.what for line in mend_lines(awkward.seventy_two_gaps())]
    assert "Over 35 V in the wet: 38.4 V where 35 V is the most" in lines


def test_names_that_begin_alike_are_told_apart_by_how_they_end_and_else_by_a_number() -> None:
    room = NameRoom(wide_mm=40, size_pt=12)
    names = [f"the lead that lies behind the seat on the {side}" for side in ("left", "right")]
    short = told_apart(names, room)
    assert len(set(short.values())) == 2
    for name, form in short.items():
        begin, _, end = form.partition("…")
        assert name.startswith(begin.strip())
        assert name.endswith(end.strip())
        assert end
        assert typeface.width_mm(form, size_pt=12) <= 40
    alike = [f"{'W' * 40}{middle}{'W' * 40}" for middle in "ab"]
    assert sorted(form[-2:] for form in told_apart(alike, room).values())[0] == "#2"


def test_the_facts_of_a_sheet_say_whom_to_ask_about_fire_or_what_was_answered() -> None:
    case = built.demo()
    asked = replace(case, trip=replace(case.trip, fire_authority="the ranger", fire_answer=""))
    said = replace(case, trip=replace(case.trip, fire_authority="the ranger", fire_answer="no fires"))
    assert Fact("Fire rules: ask", "the ranger") in build_sheet(asked, for_screen=True).facts
    assert Fact("The fire authority's words", "no fires") in build_sheet(said, for_screen=True).facts


def test_there_is_no_chart_without_a_bank_or_without_a_rod_whose_range_is_known() -> None:
    assert build_chart(built.empty()) is None
    assert build_chart(built.with_rods(built.demo(), "X99")) is None
    assert build_chart(built.demo()) is not None


def test_the_digest_of_a_line_has_eight_digits() -> None:
    assert {len(digest) for digest in since_last.lines(build_sheet(built.demo(), for_screen=True))} == {8}


def test_a_table_without_a_note_has_no_empty_line_for_it() -> None:
    form = Form(kit="", tables=(FormTable(title="Volts", headings=("A",)),), marks=Marks(printed_on=built.demo().on))
    with_note = replace(form, tables=(replace(form.tables[0], note="loads off"),))
    lines = [len(text.render(it).splitlines()) for it in (form, with_note)]
    assert lines[1] == lines[0] + 1


def test_a_text_file_is_told_back_as_what_was_written(tmp_path: Path) -> None:
    file = tmp_path / "sheet.txt"
    assert papers.write(build_sheet(built.demo(), for_screen=True), file).path == file


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
