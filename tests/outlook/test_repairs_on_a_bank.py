"""Repairs against the packed rods on the chosen bank: which rod to take, how many, and what is not to be welded."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from kitlist.base.terms import Position, RodStorage, Steel
from kitlist.kit import Rod
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.repairs import Cell, RepairOutlook, as_job, repair_outlooks
from kitlist.rules.example import Example, rod, with_repair
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.suitability import Suits

RODS = (rod("thick rods"),)


def shown(*, rods: tuple[Rod, ...] = RODS, **repair: Any) -> Example:
    example = with_repair(**repair)
    return replace(example, kit=replace(example.kit, rods=rods))


def outlook(example: Example) -> Outlook:
    return look_out(example.kit, example.trip, on=example.on)


def seen(*, rods: tuple[Rod, ...] = RODS, **repair: Any) -> RepairOutlook:
    (found,) = outlook(shown(rods=rods, **repair)).repairs
    return found


def suits(cell: Cell, how: Suits) -> Cell:
    return replace(cell, fit=replace(cell.fit, suits=how))


def test_the_rods_of_the_packet_are_enough_when_they_are_exactly_those_that_the_weld_takes() -> None:
    (cell,) = seen(weld_length_mm=200).cells
    assert cell.needs is not None
    to_pack = cell.needs.rods.to_pack
    assert to_pack > 1
    assert seen(weld_length_mm=200, rods=(rod("rods", count=to_pack),)).cells[0].enough is True
    assert seen(weld_length_mm=200, rods=(rod("rods", count=to_pack - 1),)).cells[0].enough is False
    assert replace(cell, needs=None).enough is None


def test_twice_the_weld_takes_twice_the_metal() -> None:
    one, two = (seen(weld_length_mm=mm).cells[0].needs for mm in (100, 200))
    assert one is not None
    assert two is not None
    assert two.weld_g == pytest.approx(2 * one.weld_g)
    assert two.rods.to_pack > one.rods.to_pack


def test_the_best_rod_fits_best_and_of_two_that_fit_alike_has_enough() -> None:
    (cell,) = seen(weld_length_mm=200).cells
    assert cell.needs is not None
    few = replace(cell, rod=replace(cell.rod, rod=rod("few", count=cell.needs.rods.to_pack - 1)))
    many = replace(cell, rod=replace(cell.rod, rod=rod("many", count=cell.needs.rods.to_pack)))
    unknown = replace(many, needs=None)

    def best(*cells: Cell) -> Cell | None:
        return replace(seen(), cells=cells).best

    assert best(few, many) == best(many, few) == many
    assert best(unknown, many) == best(many, unknown) == many
    right = suits(few, Suits.RIGHT)
    assert best(suits(many, Suits.HOT), right) == right
    assert best(suits(many, Suits.TOO_HOT)) is None
    last_usable = suits(many, Suits.TOO_THIN)
    assert best(suits(many, Suits.COLD), last_usable) == last_usable
    assert best() is None


def test_repairs_come_in_the_order_of_the_trip_and_only_those_that_the_kit_has() -> None:
    example = with_repair()
    (one,) = example.kit.repairs
    kit = replace(example.kit, repairs=(one, replace(one, name="drawbar"), replace(one, name="another")))
    trip = replace(example.trip, repairs=("drawbar", "gone", "hanger"))
    found = repair_outlooks(kit, trip, look_out(kit, trip, on=example.on))
    assert [each.repair.name for each in found] == ["drawbar", "hanger"]


def test_a_known_part_has_its_class_and_a_like_repair() -> None:
    found = seen()
    assert found.part is not None
    assert found.part.name == "spring hanger"
    assert found.repair_class is found.part.repair_class
    assert found.not_known == ""
    assert found.typical is not None
    assert found.typical.job.part == "spring hanger"


def test_a_wheel_is_never_welded_whatever_is_packed_and_whoever_allows_it() -> None:
    for allowed_by in ("", "the club's engineer"):
        found = seen(part="wheel", allowed_by=allowed_by)
        assert found.repair_class is RepairClass.NEVER
        assert [(cell.fit.suits, cell.needs) for cell in found.cells] == [(Suits.NEVER, None)]
        assert found.best is None


def test_a_part_in_no_table_is_not_known_until_somebody_allows_it() -> None:
    for nobody in ("", "   "):
        alone = seen(part="gizmo", allowed_by=nobody)
        assert (alone.part, alone.repair_class, alone.typical) == (None, None, None)
        assert "gizmo" in alone.not_known
        assert alone.best is None
    allowed = seen(part="gizmo", allowed_by=" the club's engineer ")
    assert allowed.part is not None
    assert allowed.repair_class is allowed.part.repair_class
    assert allowed.typical is None
    assert allowed.best is not None
    assert as_job(allowed.repair).allowed_by == "the club's engineer"


def test_a_packet_that_is_no_rod_has_no_cell() -> None:
    found = seen(rods=(rod("junk", designation="junk"), *RODS))
    assert [cell.rod.rod.name for cell in found.cells] == ["thick rods"]


def test_a_rod_that_the_bank_runs_warm_serves_flat_and_not_overhead_nor_upright() -> None:
    assert seen().cells[0].fit.suits is Suits.HOT
    for position in (Position.OVERHEAD, Position.VERTICAL):
        (cell,) = seen(position=position).cells
        assert not cell.fit.suits.usable
        assert cell.needs is None


def test_a_bank_that_runs_a_rod_too_hot_once_full_is_too_hot_for_the_repair() -> None:
    example = shown(rods=(rod("rods", diameter_mm=3.2),), thickness_mm=8)
    found = outlook(example)
    (held,) = found.rods
    assert held.band is not None
    (repair,) = repair_outlooks(example.kit, example.trip, found)
    assert repair.cells[0].fit.suits is Suits.HOT
    hotter = replace(held, full=replace(held.band, low_a=200.0, middle_a=240.0, high_a=280.0))
    (full,) = repair_outlooks(example.kit, example.trip, replace(found, rods=(hotter,)))
    assert full.cells[0].fit.suits is Suits.TOO_HOT


def test_steel_too_thin_for_the_likely_current_rules_a_hot_rod_out_by_half_a_millimetre() -> None:
    rods = (rod("rods", diameter_mm=3.2),)
    (held,) = outlook(shown(rods=rods)).rods
    assert held.steel_mm is not None
    least_mm = held.steel_mm[0]
    assert seen(rods=rods, thickness_mm=least_mm).cells[0].fit.suits.usable
    assert not seen(rods=rods, thickness_mm=least_mm - 0.5).cells[0].fit.suits.usable


def test_a_size_that_no_source_has_a_range_for_is_not_known_on_any_bank() -> None:
    dry = rod("odd", designation="E7018", diameter_mm=2.0, storage=RodStorage.SEALED, opened_on=None)
    (cell,) = seen(rods=(dry,), thickness_mm=3).cells
    assert cell.rod.band is not None
    assert cell.fit.suits is Suits.NOT_KNOWN
    assert (cell.needs, cell.enough) == (None, None)


def test_the_owners_hot_limit_counts_in_the_matrix_too() -> None:
    example = shown(rods=(rod("rods", diameter_mm=3.2),))
    found = outlook(example)
    (strict,) = repair_outlooks(example.kit, example.trip, replace(found, hot_limit_ratio=1.1))
    assert strict.cells[0].fit.suits is Suits.TOO_HOT


def test_without_a_bank_the_rod_is_judged_by_itself_and_counted_at_its_own_current() -> None:
    example = shown(weld_length_mm=200)
    bare = replace(example, trip=replace(example.trip, bank=()))
    (alone,), (linked,) = outlook(bare).repairs, outlook(example).repairs
    assert alone.cells[0].fit.suits is Suits.RIGHT
    assert alone.cells[0].needs is not None
    assert linked.cells[0].needs is not None
    assert alone.cells[0].needs.rods.to_pack == linked.cells[0].needs.rods.to_pack
    assert alone.cells[0].fit.current is not None
    assert linked.cells[0].rod.band is not None
    start_a, bank_a = alone.cells[0].fit.current.start_a, linked.cells[0].rod.band.middle_a
    # a rod lays its metal the faster the more current flows
    assert bank_a > start_a
    assert linked.cells[0].needs.one.burn_s.best < alone.cells[0].needs.one.burn_s.best


def test_two_rods_that_need_different_polarities_rule_nothing_out_until_one_is_wired() -> None:
    alone = seen(rods=(rod("minus", designation="E6012"),)).cells[0]
    both = seen(rods=(rod("minus", designation="E6012"), rod("plus", designation="E7018")))
    assert Suits.WRONG_POLARITY not in {alone.fit.suits, *(cell.fit.suits for cell in both.cells)}


def test_what_the_weld_takes_is_not_known_without_its_length() -> None:
    (cell,) = seen(weld_length_mm=None).cells
    assert cell.fit.suits.usable
    assert (cell.needs, cell.enough) == (None, None)


def test_the_job_is_the_repair_as_it_is_written_down() -> None:
    (repair,) = with_repair(steel=Steel.MILD, leg_mm=5, position=Position.HORIZONTAL).kit.repairs
    job = as_job(repair)
    assert (job.part, job.steel, job.thickness_mm, job.position) == ("spring hanger", Steel.MILD, 8, "horizontal")
    assert (job.leg_mm, job.weld_length_mm, job.load_bearing, job.joint) == (5, 40, True, repair.joint)
