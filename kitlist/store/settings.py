"""The settings of a store: units beside the metric ones, the paper, and who gives its commands.

What a command line or the environment says wins over them. They are one row, written like any other: the journal has
it, undo takes it back, a backup and a .json export carry it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Any, TypeVar

from kitlist.base import sayings
from kitlist.base.errors import BadData
from kitlist.base.terms import Paper, Units

if TYPE_CHECKING:
    from kitlist.store.opening import Store
    from kitlist.store.writer import Writer

T = TypeVar("T", bound=StrEnum)
TABLE = "setting"
WORDS = {
    "units": "metric, or imperial beside it: in lists, gaps, sheet, card and labels",
    "paper": "the paper that is printed on: A4 or letter",
    "by": "who gives the commands, for the journal",
}
_HINT = "kitlist start --settings units=imperial paper=letter by=NAME"


@dataclass(frozen=True, slots=True)
class Settings:
    """What an owner has set, once for all commands; a store begins with these."""

    units: Units = Units.METRIC
    paper: Paper = Paper.A4
    by: str = ""

    def changed(self, values: Mapping[str, Any]) -> Settings:
        """The same with some of them set from raw values. Raises BadData for a word or a value that is none."""
        found = self
        for word, value in values.items():
            if word not in WORDS:
                raise BadData(f"{word[:40]!r} is no setting: they are {', '.join(WORDS)}", hint=_HINT)
            if not isinstance(value, str):
                raise BadData(f"{word} must be text", hint=_HINT)
            if word == "by":
                found = replace(found, by=_name(value))
            elif word == "paper":
                found = replace(found, paper=_one_of(Paper, word, value))
            else:
                found = replace(found, units=_one_of(Units, word, value))
        return found

    @property
    def as_words(self) -> dict[str, str]:
        """Each of them as it is typed."""
        return {"units": str(self.units), "paper": str(self.paper), "by": self.by}


def _one_of(kind: type[T], word: str, value: str) -> T:
    found = sayings.meant(kind, value)
    if found is None:
        raise BadData(f"{word} = {value[:40]!r}: must be one of {', '.join(kind)}", hint=_HINT)
    return kind(found)


def _name(value: str) -> str:
    from kitlist.kit import raw_values  # late: a judgement reads the settings, and writes none

    try:
        text = raw_values.one_line(value)
    except ValueError as error:
        raise BadData(f"by = {value[:40]!r}: {error}", hint=_HINT) from None
    return "" if text.casefold() == "none" else text


def of(store: Store) -> Settings:
    """The settings of a store."""
    with store.viewing() as connection:
        return within(connection)


def within(connection: sqlite3.Connection) -> Settings:
    """The settings as an open view or change of the store has them."""
    row = connection.execute(f"SELECT units, paper, given_by FROM {TABLE}").fetchone()
    return Settings() if row is None else Settings(Units(row[0]), Paper(row[1]), str(row[2]))


def edit(store: Store, values: Mapping[str, Any]) -> Settings:
    """Set some of them; returns all as they are then."""
    with store.writing() as change:
        return edit_within(change, values)


def edit_within(change: Writer, values: Mapping[str, Any]) -> Settings:
    """`edit` inside an open change."""
    old = within(change.connection)
    new = old.changed(values)
    if new == old:
        return old
    columns = {"units": new.units, "paper": new.paper, "given_by": new.by}
    if not change.update(TABLE, {"id": 1}, **columns):
        change.insert_values(TABLE, {"id": 1} | columns)
    return new
