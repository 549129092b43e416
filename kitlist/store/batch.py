"""What one import brings, checked entry by entry and written inside one open transaction.

Named things are few and go in through the store's row classes. Readings are many: they are checked one by one,
but written and looked up some thousands at a time, so that memory does not grow with their number.
"""

from __future__ import annotations

import dataclasses
from array import array
from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData
from kitlist.base.fields import fields_of
from kitlist.kit import KINDS, Reading, entry
from kitlist.store import changes, journalled, jsonfile, rows, settings
from kitlist.store.entries import Entry, WrongEntry, is_moment

if TYPE_CHECKING:
    from kitlist.store.writer import Writer

AT_ONCE = 2000  # readings written together


class Batch:
    """Entries taken one after another; what is wrong with any of them is gathered."""

    def __init__(self, change: Writer) -> None:
        self.change = change
        self.connection = change.connection
        self.connection.execute("PRAGMA defer_foreign_keys = ON")  # references are followed here, with their lines
        self.added: Counter[str] = Counter()
        self.unchanged: Counter[str] = Counter()
        self.newest_reading: datetime | None = None
        self._wrong: list[tuple[int, int, str]] = []
        self._file = ""
        self._number = 0
        self._lines: dict[tuple[str, str], tuple[str, int]] = {}
        self._fresh: dict[str, dict[str, str]] = {kind: {} for kind in KINDS}
        self._spelled_right: set[str] = set()  # batteries of readings that need not be looked up again
        self._waiting: list[tuple[Entry, Reading, str | None]] = []
        self._written_lines = array("L")  # the line of each reading written, in the order of their ids
        last = self.connection.execute("SELECT coalesce(max(id), 0) FROM reading").fetchone()[0]
        self._last_id = int(last)
        self._has_no_history = self.connection.execute("SELECT 1 FROM journal LIMIT 1").fetchone() is None

    @cached_property
    def kept(self) -> dict[str, dict[str, tuple[Any, str | None]]]:
        """All named things of the store before the import, by kind and folded name, with their removal."""
        return {
            kind: {thing.name.casefold(): (thing, gone) for thing, gone in rows.with_removal(self.connection, kind)}
            for kind in KINDS
            if kind != "reading"
        }

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing in the store that an import could harm."""
        return not any(self.kept.values())

    def take_all(self, file: str, items: Iterable[Entry | WrongEntry]) -> None:
        """Take what one file holds."""
        self._file = file
        self._number += 1
        for item in items:
            if isinstance(item, WrongEntry):
                self._note(item.line, item.sentence)
            elif item.kind == jsonfile.JOURNAL:
                self._take_history(item)
            elif item.kind == jsonfile.SETTINGS:
                self._take_settings(item)
            else:
                self._take(item)
        self._write_waiting()

    def _take_history(self, item: Entry) -> None:
        """A command of another store's journal: kept as history where this store has none of its own."""
        try:
            came = journalled.Came.of(item.values)
        except ValueError as error:
            self._note(item.line, f"journal: {error}")
            return
        if self._has_no_history and not self._wrong:
            self.change.noting.keep_history(came.at, came.words, came.who, came.changes)

    def _take_settings(self, item: Entry) -> None:
        """Another store's settings: taken where nothing is set here, for this machine's owner has set the rest."""
        try:
            came = settings.Settings().changed(item.values)
        except BadData as error:
            self._note(item.line, f"settings: {error.message}")
            return
        if settings.within(self.connection) == settings.Settings() and not self._wrong:
            settings.edit_within(self.change, came.as_words)

    def wrong_in_order(self) -> tuple[str, ...]:
        """What is wrong, by file and line."""
        return tuple(text for _, _, text in sorted(self._wrong))

    def _take(self, item: Entry) -> None:
        removed_at = item.values.pop("removed_at", None)
        if removed_at is not None and not is_moment(removed_at):
            self._note_field(item, "removed_at", "removed_at must be a time like 2026-11-25 07:30:00, or nothing")
        try:
            thing = entry.build(item.kind, item.values)
        except entry.BadEntry as error:
            title = error.message.split(":")[0]
            for problem in error.problems:
                self._note_field(item, problem.field, f"{title}: {problem.sentence}")
            self._remember(item.kind, str(item.values.get("name", "")))
            self._follow(item, item.values, removed_at)
            return
        if item.kind != "reading" or thing.battery not in self._spelled_right:
            references = {f.name: getattr(thing, f.name) for f in self._references[item.kind]}
            noted = len(self._wrong)
            if spelled := self._follow(item, references, removed_at):
                thing = dataclasses.replace(thing, **spelled)
            elif item.kind == "reading" and len(self._wrong) == noted:
                self._spelled_right.add(thing.battery)
        if item.kind == "reading":
            self._waiting.append((item, thing, removed_at))
            if len(self._waiting) >= AT_ONCE:
                self._write_waiting()
        else:
            self._take_named(item, thing, removed_at)

    def _take_named(self, item: Entry, thing: Any, removed_at: str | None) -> None:
        folded = thing.name.casefold()
        title = f"{item.kind} {thing.name!r}"
        if before := self._lines.get((item.kind, folded)):
            self._note_field(item, "name", f"{title} stands in {before[0]}, line {before[1]}, already")
            return
        self._lines[item.kind, folded] = (self._file, item.line)
        there, gone = self.kept[item.kind].get(folded, (None, None))
        if there is None:
            self._remember(item.kind, thing.name)
            if not self._wrong:
                changes.insert(self.change, item.kind, thing, removed_at=removed_at, free=True)
            self.added[item.kind] += 1
        elif gone and not removed_at:
            self._note_field(item, "name", f"{title} was removed from the kit: restore it, or rename this")
        elif there == thing and gone == removed_at:
            self.unchanged[item.kind] += 1
        else:
            differing = [
                f.name for f in fields_of(KINDS[item.kind]) if getattr(there, f.name) != getattr(thing, f.name)
            ]
            differing += ["removed_at"] if gone != removed_at else []
            self._note_field(item, differing[0], f"{title} is in the kit with another {', '.join(differing)}")

    def _write_waiting(self) -> None:
        """Write the readings that wait, all at once; where one of them is there already, one by one."""
        from kitlist.store.tables import ReadingRow

        waiting, self._waiting = self._waiting, []
        if not waiting:
            return
        for _, reading, _ in waiting:
            if self.newest_reading is None or reading.taken_at > self.newest_reading:
                self.newest_reading = reading.taken_at
        columns = rows.reading_columns()
        written = [rows.reading_row(reading, gone) for _, reading, gone in waiting]
        if self.change.insert_all(ReadingRow, columns, written):
            self.added["reading"] += len(waiting)
            self._written_lines.extend(item.line for item, _, _ in waiting)
            return
        for (item, reading, gone), row in zip(waiting, written, strict=True):
            if self.change.insert_all(ReadingRow, columns, [row]):
                self.added["reading"] += 1
                self._written_lines.append(item.line)
            else:
                self._compare_reading(item, reading, gone)

    def _compare_reading(self, item: Entry, reading: Reading, removed_at: str | None) -> None:
        at = (reading.battery, rows.moment(reading.taken_at))
        where = "battery = ? AND taken_at = ?"
        (number,) = self.connection.execute(f"SELECT id FROM reading WHERE {where}", at).fetchone()
        ((there, gone),) = rows.with_removal(self.connection, "reading", where, at, "id")
        if number > self._last_id:
            line = self._written_lines[number - self._last_id - 1]
            said = f"{reading.battery} has a reading at {reading.taken_at} on line {line}"
            self._note_field(item, "taken_at", said)
        elif there == reading and gone == removed_at:
            self.unchanged["reading"] += 1
        else:
            said = f"{reading.battery} has another reading at {reading.taken_at} in the kit"
            self._note_field(item, "volts_v", said)

    def _remember(self, kind: str, name: str) -> None:
        if name:
            self._fresh[kind].setdefault(name.casefold(), name)

    @cached_property
    def _references(self) -> dict[str, tuple[Any, ...]]:
        return {kind: tuple(f for f in fields_of(cls) if f.about.refers) for kind, cls in KINDS.items()}

    def _known(self, kind: str, folded: str, *, gone_too: bool) -> str | None:
        there, gone = self.kept[kind].get(folded, (None, None))
        if there is not None and (gone is None or gone_too):
            return str(there.name)
        return self._fresh[kind].get(folded)

    def _follow(self, item: Entry, values: Mapping[str, Any], removed_at: object) -> dict[str, Any]:
        """The references among `values` that the kit spells otherwise; unknown ones are noted."""
        spelled: dict[str, Any] = {}
        gone_too = item.kind in changes.HISTORY or removed_at is not None
        for field in self._references[item.kind]:
            value = values.get(field.name)
            if value is None:
                continue
            target = field.about.refers
            given = [v for v in value if isinstance(v, str)] if isinstance(value, list | tuple) else [str(value)]
            full = []
            for name in given:
                known = self._known(target, name.casefold(), gone_too=gone_too)
                if known is None:
                    living = [thing.name for thing, gone in self.kept[target].values() if gone is None]
                    near = names.near(name, [*living, *self._fresh[target].values()], what=target)
                    said = f"{field.name} = {entry.shown(name)}: no {target} is called that. {near}"
                    self._note_field(item, field.name, said)
                full.append(known or name)
            if full != given:
                spelled[field.name] = tuple(full) if field.type is tuple else full[0]
        return spelled

    def _note(self, line: int, sentence: str) -> None:
        self._wrong.append((self._number, line, f"{self._file}:{line}: {sentence}"))

    def _note_field(self, item: Entry, field: str, sentence: str) -> None:
        short = next((f.short_name for f in fields_of(KINDS[item.kind]) if f.name == field), field)
        self._note(item.field_lines.get(field) or item.field_lines.get(short) or item.line, sentence)
