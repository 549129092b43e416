"""Where every figure comes from: tags, sources, figures with a range, and the reference tables.

A table in `seed_data/reference/` has a `tag` and a `source` on each row. A formula carries its source through
the `sourced` decorator, a constant through `Figure`. Docs, `--sources` and the prints' small type all read these.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType
from typing import TypeVar

from kitlist.base import resources

_F = TypeVar("_F", bound=Callable[..., object])


class Tag(StrEnum):
    """How a figure is known."""

    READ = "R"
    SECOND_HAND = "S"
    MEMORY = "M"
    PRACTICE = "P"
    DERIVED = "D"
    FITTED = "F"

    @property
    def words(self) -> str:
        """The tag as people read it."""
        return {
            Tag.READ: "read in the source",
            Tag.SECOND_HAND: "second hand, from a source that reproduces the standard",
            Tag.MEMORY: "from memory, to be verified",
            Tag.PRACTICE: "common practice",
            Tag.DERIVED: "derived",
            Tag.FITTED: "fitted to a reference model",
        }[self]


@dataclass(frozen=True, slots=True)
class Source:
    """One source: how the figure is known, and where it stands."""

    tag: Tag
    where: str = ""

    def __str__(self) -> str:
        return f"{self.where} ({self.tag.words})" if self.where else self.tag.words


PRACTICE = Source(Tag.PRACTICE)


@dataclass(frozen=True, slots=True)
class Figure:
    """A number that the computation stands on: its value, unit, plausible range and source."""

    name: str
    value: float
    unit: str
    source: Source
    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        if self.low is not None and self.high is not None and not self.low <= self.value <= self.high:
            raise ValueError(f"{self.name}: {self.value} is outside its own range {self.low} to {self.high}")


def sourced(*sources: Source) -> Callable[[_F], _F]:
    """Attach the sources of a formula to the function that computes it (read back with `sources_of`)."""

    def mark(function: _F) -> _F:
        function.__sources__ = sources  # type: ignore[attr-defined]
        return function

    return mark


def sources_of(function: Callable[..., object]) -> tuple[Source, ...]:
    """The sources that `sourced` attached; empty where there are none."""
    return getattr(function, "__sources__", ())


@cache
def table(name: str, within: str = "reference") -> tuple[Mapping[str, str], ...]:
    """The rows of `seed_data/WITHIN/NAME.csv`, as text by column; every row must have `tag` and `source`."""
    path = resources.folder("seed_data") / within / f"{name}.csv"
    with path.open(newline="", encoding="utf-8") as file:
        rows = tuple(MappingProxyType(row) for row in csv.DictReader(file))
    for number, row in enumerate(rows, start=2):
        if row["tag"] not in set(Tag):
            raise ValueError(f"{path.name}:{number}: tag {row['tag']!r} is not one of {', '.join(Tag)}")
    return rows


def row_source(row: Mapping[str, str]) -> Source:
    """The source of one row of a reference table."""
    return Source(Tag(row["tag"]), row["source"])
