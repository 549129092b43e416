"""Spans and interpolation."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span, between
from kitlist.physics import figures


def test_a_span_must_rise():
    with pytest.raises(ValueError, match="do not rise"):
        Span(2.0, 1.0, 3.0)


def test_a_quantile_runs_from_low_to_high():
    assert [Span(10.0, 12.0, 20.0).at(q) for q in (0.0, 0.5, 1.0)] == [10.0, 15.0, 20.0]


def test_outside_its_points_interpolation_is_refused_with_the_range():
    with pytest.raises(OutOfRange, match=r"5 °C is outside the table, 0 to 2 °C"):
        between([(0.0, 1.0), (2.0, 3.0)], 5.0, what="temperature", unit="°C")


def test_every_figure_says_where_it_comes_from_and_holds_its_value_in_its_range():
    assert len(figures.ALL) > 50
    for figure in figures.ALL:
        assert figure.unit
        assert figure.name
        assert figure.source.tag
    assert len({figure.name for figure in figures.ALL}) == len(figures.ALL)


def test_what_is_known_from_memory_stays_tagged_so():
    tags = {figure.name: figure.source.tag.value for figure in figures.ALL}
    assert tags["rise of conductor resistance"] == "M"
