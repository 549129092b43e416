"""Papers say what people read and corrected, and where it stands."""

from __future__ import annotations

from functools import cache

import pytest

from paper import written_out

PARTS = written_out.written()


@cache
def made() -> dict[str, list[str]]:
    return written_out.parts()


def test_every_part_is_written_out() -> None:
    assert list(made()) == list(PARTS)


@pytest.mark.parametrize("name", PARTS)
def test_a_part_of_a_paper_is_as_it_is_written_out(name: str) -> None:
    assert made()[name] == PARTS[name]
