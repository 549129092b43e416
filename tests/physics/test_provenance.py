"""Every figure, formula and table of the physics shows where it comes from."""

from __future__ import annotations

import importlib
import inspect
import pkgutil

from kitlist import physics
from kitlist.base.sources import Tag, row_source, sources_of, table
from kitlist.faces.words import provenance
from kitlist.outlook import options


def modules():
    for room in (physics, options):
        for found in pkgutil.walk_packages(room.__path__, f"{room.__name__}."):
            if not found.ispkg:
                yield importlib.import_module(found.name)


def test_every_formula_with_sources_is_listed_and_every_listed_one_has_them():
    marked = {
        function
        for module in modules()
        for _, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and sources_of(function)
    }
    assert marked == set(provenance.FORMULAS)
    assert len(provenance.FORMULAS) == len(set(provenance.FORMULAS))


def test_every_source_that_is_no_practice_names_its_place():
    sources = [source for function in provenance.FORMULAS for source in sources_of(function)]
    sources += [figure.source for figure in provenance.FIGURES]
    sources += [row_source(row) for name in provenance.TABLES for row in table(name)]
    assert all(source.where for source in sources if source.tag is not Tag.PRACTICE)


def test_every_public_function_has_a_docstring_with_an_example():
    for module in modules():
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                assert function.__doc__, name
                assert ">>>" in function.__doc__ or module.__name__.endswith(("weighing", "plan")), (
                    f"{module.__name__}.{name}"
                )


def test_physics_arguments_are_keyword_only_where_they_are_numbers():
    for function in provenance.FORMULAS:
        for parameter in inspect.signature(function).parameters.values():
            if parameter.annotation in ("float", "float | None", "int"):
                assert parameter.kind is inspect.Parameter.KEYWORD_ONLY, f"{function.__name__}: {parameter.name}"


def test_the_tables_that_must_stay_tagged_from_memory_are():
    assert {row["tag"] for row in table("cable_duty")} == {"M"}
    assert {row["tag"] for row in table("joints")} == {"P"}
