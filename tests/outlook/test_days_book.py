"""The day's book of a trip: best order, what each repair leaves, where the reserve is met, what is left out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import ToolKind
from kitlist.outlook.days_book import day_book
from kitlist.readiness import assess
from kitlist.rules.example import tool, with_repair


def trip_with(*repairs, tools=(), readings_v=12.82):
    """The whole kit on a trip with repairs of different welds, from one that is whole."""
    example = with_repair()
    first = example.kit.repairs[0]
    made = tuple(replace(first, name=f"r{n}", **fields) for n, fields in enumerate(repairs))
    kit = replace(
        example.kit,
        repairs=made,
        tools=(*example.kit.tools, *tools),
        readings=tuple(replace(r, volts_v=readings_v) for r in example.kit.readings),
    )
    trip = replace(example.trip, repairs=tuple(r.name for r in made))
    return kit, trip, assess(kit, trip, on=example.on).outlook


def test_each_repair_takes_from_what_the_one_before_left_and_the_sum_is_kept():
    book = day_book(*trip_with({"weld_length_mm": 40}, {"weld_length_mm": 60}))
    first, second = book.turns
    assert first.line.left_ah == pytest.approx(book.spare_ah - first.line.job.takes_ah)
    assert second.line.left_ah == pytest.approx(first.line.left_ah - second.line.job.takes_ah)
    assert book.first_broken is None
    assert book.total_ah == pytest.approx(sum(turn.line.job.takes_ah for turn in book.turns))


def test_what_bears_load_goes_first_however_the_trip_lists_it():
    book = day_book(*trip_with({"load_bearing": False}, {"load_bearing": True}))
    assert [turn.line.job.name for turn in book.turns] == ["r1", "r0"]


def test_where_the_reserve_is_met_is_said_with_what_goes_back_and_how_long_that_takes():
    long = {"weld_length_mm": 600}
    broken = day_book(*trip_with(long, long, long)).first_broken
    assert broken.line.short > 0
    assert broken.line.put_back_ah > 0
    assert broken.charging is None
    charged = day_book(*trip_with(long, long, long, tools=(tool("charger", ToolKind.CHARGER, rating_a=10),)))
    assert charged.first_broken.charging.charges >= 1
    emptier = day_book(*trip_with(long, long, long, readings_v=12.75))
    assert emptier.spare_ah < charged.spare_ah


def test_what_may_not_or_cannot_be_welded_is_left_out_with_the_reason():
    book = day_book(*trip_with({}, {"part": "wheel rim"}, {"weld_length_mm": None, "thickness_mm": None}))
    assert [turn.line.job.name for turn in book.turns] == ["r0"]
    assert dict(book.left_out)["r1"] == "it must never be welded"
    assert "r2" in dict(book.left_out)


def test_without_a_reading_there_is_no_book():
    kit, trip, _ = trip_with({})
    bare = replace(kit, readings=())
    assert day_book(bare, trip, assess(bare, trip, on=with_repair().on).outlook) is None


def test_without_a_bank_or_a_repair_that_can_be_welded_there_is_no_book():
    assert day_book(*trip_with({"part": "wheel rim"})) is None
    kit, trip, _ = trip_with({})
    alone = replace(trip, bank=())
    assert day_book(kit, alone, assess(kit, alone, on=with_repair().on).outlook) is None


def test_an_empty_bank_has_a_book_in_which_all_is_put_back_and_no_charge_is_counted():
    charger = tool("charger", ToolKind.CHARGER, rating_a=10)
    book = day_book(*trip_with({}, tools=(charger,), readings_v=12.2))
    assert book.spare_ah == 0.0
    (turn,) = book.turns
    assert (turn.line.can, turn.line.put_back_ah) == (0, pytest.approx(turn.line.job.takes_ah))
    assert turn.charging is None
    assert "put " in turn.words
    assert turn.words.endswith("back before it, each battery alone")


def test_what_the_rod_whose_load_leaves_least_spares_is_what_the_book_begins_from():
    kit, trip, outlook = trip_with({})
    (rod,) = outlook.rods
    spare = day_book(kit, trip, outlook).spare_ah
    assert spare == pytest.approx(rod.lasting.spare_ah(outlook.bank.batteries, sure=True))
    job = day_book(kit, trip, outlook).turns[0].line.job
    (cell,) = outlook.repairs[0].cells
    assert (job.rods, job.charge_ah, job.rod_mm, job.brings_home) == (
        cell.needs.rods.to_pack,
        rod.lasting.charge_ah.high,
        4.0,
        True,
    )


def test_the_words_of_the_book_say_what_is_left_and_what_all_takes():
    book = day_book(*trip_with({"weld_length_mm": 40}, {"part": "wheel rim"}))
    (turn,) = book.turns
    line = turn.line
    assert turn.words.endswith(f"; leaves {line.left_ah:.1f} Ah")
    assert f"{book.spare_ah:.0f} Ah are sure over the reserve, all of them take {book.total_ah:.0f} Ah" in book.words
    assert book.left_out_words == ("r1: not in it, it must never be welded",)


def test_a_weld_of_unknown_length_is_left_out_as_nobody_knows_what_it_takes():
    book = day_book(*trip_with({}, {"weld_length_mm": None}, {"part": "gizmo"}))
    assert dict(book.left_out) == {"r1": "what it takes is not known", "r2": "no packed rod is for it"}


def test_the_words_of_a_repair_that_breaks_the_book_say_what_goes_back_and_by_what():
    long = {"weld_length_mm": 600}
    book = day_book(*trip_with(long, long, long, tools=(tool("charger", ToolKind.CHARGER, rating_a=10),)))
    turn = book.first_broken
    line = turn.line
    assert turn.charging is not None
    assert f"the reserve is met after {line.can} rod" in turn.words
    assert f", {line.short} short: put {line.put_back_ah:.1f} Ah back before it, {turn.charging.words}" in turn.words
    assert turn.words.startswith(f"r0: {line.job.rods} rods 4 mm E6013, {line.job.takes_ah:.1f} Ah; ")
