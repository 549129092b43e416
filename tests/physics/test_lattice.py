"""The points of the lattice: every level once in each column, and no two neighbouring columns line up."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.physics import lattice


def test_every_column_of_the_lattice_holds_every_level_once():
    for dimension in (0, 1, 17, 59):
        column = sorted(lattice.column(dimension))
        assert column == pytest.approx([(k + 0.5) / lattice.POINTS for k in range(lattice.POINTS)])


def test_no_two_neighbouring_columns_of_the_lattice_line_up():
    def together(i, j):
        a, b = lattice.column(i), lattice.column(j)
        n = lattice.POINTS
        return 12 * (sum(x * y for x, y in zip(a, b, strict=True)) / n - 0.25)

    assert max(abs(together(0, j)) for j in range(1, 60)) < 0.1


@pytest.mark.parametrize("dimension", [-1, lattice.MOST_DIMENSIONS])
def test_a_column_that_is_not_there_is_refused(dimension):
    with pytest.raises(OutOfRange, match="dimension"):
        lattice.column(dimension)
