"""Every figure, formula and table of the physics shows where it comes from."""

from __future__ import annotations

import importlib
import inspect
import pkgutil

from kitlist import physics
from kitlist.base import resources
from kitlist.base.sources import Tag, row_source, sources_of, table
from kitlist.base.terms import Chemistry
from kitlist.faces.words.provenance import traced
from kitlist.outlook import options
from kitlist.physics import figures
from kitlist.physics.arc.arc import operating_point
from kitlist.physics.battery.charge import rested_volts

REFERENCE = resources.folder("seed_data") / "reference"


def modules():
    for room in (physics, options):
        for found in pkgutil.walk_packages(room.__path__, f"{room.__name__}."):
            if not found.ispkg:
                yield importlib.import_module(found.name)


def marked():
    """Every formula that carries its sources."""
    return [
        function
        for module in modules()
        for _, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and sources_of(function)
    ]


def test_every_source_that_is_no_practice_names_its_place():
    sources = [source for function in marked() for source in sources_of(function)]
    sources += [figure.source for figure in figures.ALL]
    sources += [row_source(row) for file in REFERENCE.glob("*.csv") for row in table(file.stem)]
    assert len(sources) > 300
    assert all(source.where for source in sources if source.tag is not Tag.PRACTICE)


def test_an_answer_lists_what_it_used_and_nothing_else():
    _, of_arc = traced(lambda: operating_point(source_v=36.75, source_ohm=0.025))
    names = {formula.__name__ for formula in of_arc.formulas}
    assert {"operating_point", "longest_arc", "how_held"} <= names
    assert not names & {"burn_rods", "state_of_charge", "current_band"}
    assert figures.HELD_POOR in of_arc.figures
    assert figures.CRANK_VOLTS not in of_arc.figures
    _, again = traced(lambda: rested_volts(soc_ratio=0.5, chemistry=Chemistry.AGM))
    assert "open_circuit_volts" in again.tables


def test_every_public_function_has_a_docstring_with_an_example():
    for module in modules():
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                assert function.__doc__, name
                assert ">>>" in function.__doc__ or module.__name__.endswith(
                    ("weighing", "plan", "offer", "supposed")
                ), f"{module.__name__}.{name}"


def test_physics_arguments_are_keyword_only_where_they_are_numbers():
    for function in marked():
        for parameter in inspect.signature(function).parameters.values():
            if parameter.annotation in ("float", "float | None", "int"):
                assert parameter.kind is inspect.Parameter.KEYWORD_ONLY, f"{function.__name__}: {parameter.name}"


def test_the_tables_that_nobody_has_read_in_the_standard_itself_are_tagged_so():
    assert {(row["basis"], row["tag"]) for row in table("cable_duty")} == {("H", "S"), ("N", "M")}
    assert {row["tag"] for row in table("joints")} == {"P"}
