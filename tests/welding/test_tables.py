"""The reference tables of welding: whole, in order, and sourced."""

import inspect
from importlib import import_module
from itertools import pairwise

import pytest

from kitlist.base.sources import Tag, row_source, sources_of, table
from kitlist.welding.designation.designations import decode

TABLES = (
    "rod_classes",
    "iso_2560_a",
    "rod_stainless",
    "rod_currents",
    "rod_for_plate",
    "fillet_legs",
    "rod_deposit",
    "rod_lengths",
    "rod_storage",
    "eye_shades",
    "behind_the_weld",
    "behind_words",
    "part_words",
    "repair_parts",
    "strike_volts",
    "working_rules",
)


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_a_tag_and_all_but_common_practice_a_source(name):
    rows = table(name)
    assert rows
    for row in rows:
        source = row_source(row)
        assert source.where or source.tag is Tag.PRACTICE, dict(row)


def test_current_ranges_rise_and_grow_with_diameter():
    tops = {}
    for row in table("rod_currents"):
        assert float(row["low_a"]) < float(row["high_a"])
        tops.setdefault((row["class"], row["source"]), []).append((float(row["diameter_mm"]), float(row["high_a"])))
    for pairs in tops.values():
        assert pairs == sorted(pairs)


def test_plate_rows_follow_each_other_without_a_hole():
    rows = table("rod_for_plate")
    for row, after in pairwise(rows):
        assert row["plate_to_mm"] == after["plate_from_mm"]


def test_deposit_lies_within_its_own_bounds():
    for row in table("rod_deposit"):
        low, best, high = (float(row[f"efficiency{part}_ratio"]) for part in ("_low", "", "_high"))
        assert low < best < high


def test_the_iron_powder_line_holds():
    """Grams per ampere-hour on the line through rutile (0.92; 8.5) and E7024 (1.55; 13): recovery buys deposit."""
    slope = (13.0 - 8.5) / (1.55 - 0.92)
    for row in table("rod_deposit"):
        if row["source"].startswith("line through"):
            expected = 8.5 + slope * (float(row["efficiency_ratio"]) - 0.92)
            assert float(row["deposit_g_per_ah"]) == pytest.approx(expected, abs=0.06)


def test_shades_leave_no_current_between_rows():
    for rule, kind in (
        ("OSHA", "minimum"),
        ("AS/NZS", "minimum"),
        ("EN", "minimum"),
        ("ANSI", "comfort"),
        ("EN", "guide"),
    ):
        rows = [row for row in table("eye_shades") if row["rule"] == rule and row["kind"] == kind]
        for row, after in pairwise(rows):
            assert row["to_a"] == after["above_a"]
            assert row["includes_high"] != after["includes_low"], (rule, row["to_a"])


def test_every_fact_of_a_designation_names_its_source():
    for written in ("E7018-1 H4R", "B-E4918 A U H5", "E4816", "E 46 3 1Ni B 54 H5", "E312-16"):
        for fact in decode(written).facts():
            assert str(fact.source), fact


@pytest.mark.parametrize(
    "name",
    [
        "rods.consumption",
        "repairs.joints",
        "repairs.heat_input",
        "rods.currents",
        "designation.polarity",
        "rods.shades",
        "rods.skin",
        "rods.striking",
    ],
)
def test_every_formula_carries_its_source(name):
    module = import_module(f"kitlist.welding.{name}")
    unsourced = [
        function.__name__
        for function in vars(module).values()
        if inspect.isfunction(function)
        and function.__module__ == module.__name__
        and not function.__name__.startswith("_")
        and not sources_of(function)
    ]
    assert unsourced in ([], ["nominal_size_mm"])
