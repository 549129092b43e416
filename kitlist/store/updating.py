"""Bulk edit: a file that was exported and changed is set against the kit, and what differs is written, or nothing is.

What the file does not say stays: a field that is left out of a thing, a thing that is left out of the file. What was
changed in the kit since the export, and not in the file, stays too; what was changed in both is refused.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import ExitStack
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData, BadFile, KitlistError
from kitlist.base.fields import Field, fields_of
from kitlist.kit import KINDS, entry, plain
from kitlist.store import changes, copies, importing, jsonfile, rows, settings
from kitlist.store.entries import Entry, WrongEntry, is_moment
from kitlist.store.since_export import Since, since
from kitlist.store.writer import bound

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.opening import Store
    from kitlist.store.writer import Writer


class Becomes(StrEnum):
    """What happens to a thing by an update."""

    ADDED = "added"
    CHANGED = "changed"
    REMOVED = "removed"
    BROUGHT_BACK = "brought back"


@dataclass(frozen=True, slots=True)
class Differing:
    """One thing that the file has otherwise than the kit: its fields, each before and after."""

    kind: str
    name: str
    becomes: Becomes
    fields: tuple[tuple[Field, Any, Any], ...] = ()
    old: Any = None
    new: Any = None
    removed_at: str | None = None


@dataclass(slots=True)
class Update:
    """All that differs; what stays because it is left out, or because it was changed here since the export."""

    differing: list[Differing] = field(default_factory=list)
    settings: dict[str, tuple[str, str]] = field(default_factory=dict)
    left_out: list[tuple[str, str]] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)
    unchanged: int = 0
    dated: bool = False  # whether the file says from when it is
    newest_reading: datetime | None = None

    @property
    def is_empty(self) -> bool:
        """Whether the file changes nothing."""
        return not self.differing and not self.settings


def update(
    store: Store, path: Path, *, kind: str | None = None, remove: bool = False, expected: Update | None = None
) -> Update:
    """What an update by a file changes. With `expected`, what somebody was shown and agreed to, it is written.

    Raises BadFile for every line that cannot be taken and for what was changed in both; then nothing was written.
    """
    with store.writing() as change, ExitStack() as stack:
        if expected is not None:
            stack.enter_context(copies.aside(store.path, "import"))
        plan = _Plan(change, remove=remove)
        plan.read(importing.files_of(path, kind, empties=True))
        plan.write()
        if expected is None:
            change.roll_back()
        elif plan.found.differing != expected.differing or plan.found.settings != expected.settings:
            raise BadData(
                "the kit or the file was changed meanwhile; nothing was written", hint="Look at it once more."
            )
    return plan.found


class _Plan:
    """The entries of a file against the kit, inside an open change."""

    def __init__(self, change: Writer, *, remove: bool) -> None:
        self.change = change
        self.connection: sqlite3.Connection = change.connection
        self.connection.execute("PRAGMA defer_foreign_keys = ON")
        self.remove = remove
        self.found = Update()
        self.since = Since()
        self._wrong: list[tuple[int, int, str]] = []
        self._conflicts: list[str] = []
        self._file, self._number = "", 0
        self._seen: dict[tuple[str, str], int] = {}
        self._named: set[tuple[str, str]] = set()  # what lives after the update, by kind and folded name
        self._spelled: dict[tuple[str, str], str] = {}

    @cached_property
    def kept(self) -> dict[tuple[str, str], tuple[Any, str | None]]:
        """Every thing of the kit by kind and key, living or removed; a reading's key is its battery and moment."""
        return {
            (kind, _key(kind, thing)): (thing, gone)
            for kind in KINDS
            for thing, gone in rows.with_removal(self.connection, kind, order="id" if kind == "reading" else "name")
        }

    def read(self, files: importing.Files) -> None:
        """Read all files, then compare: a thing may refer to one that comes later."""
        entries: list[tuple[str, int, Entry]] = []
        journal: list[dict[str, Any]] = []
        for number, (name, items) in enumerate(files):
            self._file, self._number = name, number
            for item in items:
                if isinstance(item, WrongEntry):
                    self._note(item.line, item.sentence)
                elif item.kind == jsonfile.JOURNAL:
                    journal.append(item.values)
                elif item.kind == jsonfile.SETTINGS:
                    self._compare_settings(item)
                else:
                    entries.append((name, number, item))
        self.since = since(self.connection, journal)
        self.found.dated = self.since.known
        self._names(item for _, _, item in entries)
        for self._file, self._number, item in entries:
            self._compare(item)
        self._look_for_left_out({item.kind for _, _, item in entries})
        if self._wrong:
            counted = f"{len(self._wrong)} line{'s' if len(self._wrong) > 1 else ''}"
            lines = tuple(text for _, _, text in sorted(self._wrong))
            raise BadFile(f"{self._file}: {counted} cannot be taken; nothing was written", lines=lines)
        if self._conflicts:
            raise BadFile(
                "the kit was changed since the export, in what the file changes too; nothing was written",
                lines=tuple(self._conflicts),
                hint="Export anew, make those changes in the new file, and take it in.",
            )

    def _names(self, items: Iterable[Entry]) -> None:
        """The names that things may refer to when all is done."""
        for (kind, key), (thing, gone) in self.kept.items():
            if kind != "reading":
                self._spelled[kind, key] = thing.name
                if gone is None:
                    self._named.add((kind, key))
        for item in items:
            name = item.values.get("name")
            if isinstance(name, str) and item.kind != "reading":
                key = name.strip().casefold()
                self._spelled.setdefault((item.kind, key), name.strip())
                if not item.values.get(jsonfile.REMOVED):
                    self._named.add((item.kind, key))

    def _compare(self, item: Entry) -> None:
        values = dict(item.values)
        says_removed = jsonfile.REMOVED in values
        removed_at = values.pop(jsonfile.REMOVED, None)
        if removed_at is not None and not is_moment(removed_at):
            self._note(item.line, f"{jsonfile.REMOVED} must be a time like 2026-11-25 07:30:00, or nothing")
            return
        try:
            old, gone = self._there(item.kind, values)
            thing = self._built(item.kind, old, values)
            self._take(item, old, gone, thing, removed_at if says_removed else None)
        except entry.BadEntry as error:
            title = error.message.split(":")[0]
            for problem in error.problems:
                self._note(item.field_lines.get(problem.field, item.line), f"{title}: {problem.sentence}")
        except KitlistError as error:
            self._note(item.line, error.message)

    def _take(self, item: Entry, old: Any, gone: str | None, thing: Any, removed_at: str | None) -> None:
        key = (item.kind, _key(item.kind, thing))
        if before := self._seen.get(key):
            raise BadData(f"{item.kind} {_title(item.kind, thing)!r} stands on line {before} already")
        self._seen[key] = item.line
        if old is not None:
            self._set_against(item.kind, old, gone, thing, removed_at)
            return
        if item.kind == "reading" and (self.found.newest_reading is None or thing.taken_at > self.found.newest_reading):
            self.found.newest_reading = thing.taken_at
        title = _title(item.kind, thing)
        if by := self.since.renamed.get(key):
            self._conflicts.append(f"{item.kind} {title}: renamed since by {by}")
        self.found.differing.append(Differing(item.kind, title, Becomes.ADDED, new=thing, removed_at=removed_at))

    def _there(self, kind: str, values: Mapping[str, Any]) -> tuple[Any, str | None]:
        """The thing of the kit that an entry is about; None where it is new."""
        if kind == "reading":
            of = {w: v for w, v in values.items() if w.replace("-", "_").casefold() in ("battery", "taken_at")}
            given = entry.build("reading", {"volts_v": 0} | of)
            return self.kept.get((kind, _key(kind, given)), (None, None))
        name = values.get("name")
        if not isinstance(name, str):
            raise BadData(f"a {kind} needs its name")
        return self.kept.get((kind, name.strip().casefold()), (None, None))

    def _built(self, kind: str, old: Any, values: Mapping[str, Any]) -> Any:
        """The thing as the file has it: what that leaves out is as it was."""
        for f in fields_of(KINDS[kind]):
            emptied = f.name in values and values[f.name] is None
            if emptied and not f.optional and f.type in (int, float, bool, date, datetime):
                raise BadData(f"{kind} {values.get('name', '')!r}: {f.word} is emptied, and must be {f.allowed}")
        raw = dict(values) if old is None else changes.changed(kind, old, values)
        return entry.build(kind, self._followed(kind, raw))

    def _followed(self, kind: str, values: dict[str, Any]) -> dict[str, Any]:
        """The same with every reference as the kit spells it. Raises BadData where nothing is called that."""
        for f in fields_of(KINDS[kind]):
            value = values.get(f.name)
            if not f.about.refers or value is None or value == "":
                continue
            several = isinstance(value, list | tuple)
            given = [str(part) for part in value] if isinstance(value, list | tuple) else [str(value)]
            full = []
            for name in given:
                key = (f.about.refers, name.strip().casefold())
                if key not in self._named and not (kind in changes.HISTORY and key in self._spelled):
                    living = [self._spelled[known] for known in self._named if known[0] == f.about.refers]
                    raise BadData(
                        f"{f.word} = {entry.shown(name)}: no {f.about.refers} is called that. "
                        f"{names.near(name, living, what=f.about.refers)}"
                    )
                full.append(self._spelled[key])
            values[f.name] = full if several or f.type is tuple else full[0]
        return values

    def _set_against(self, kind: str, old: Any, gone: str | None, thing: Any, removed_at: str | None) -> None:
        title = _title(kind, old)
        differing: list[tuple[Field, Any, Any]] = []
        if by := self.since.renamed.get((kind, _key(kind, old))):
            self._conflicts.append(f"{kind} {title}: renamed since by {by}")
        for f in fields_of(KINDS[kind]):
            before, after = getattr(old, f.name), getattr(thing, f.name)
            if before != after and self._is_the_files(kind, old, f, before, after):
                differing.append((f, before, after))
        stays_gone = gone is not None and removed_at is None and self._gone_since(kind, old, differing, gone)
        becomes = Becomes.CHANGED
        if gone is None and removed_at is not None:
            becomes = Becomes.REMOVED
        elif gone is not None and removed_at is None and not stays_gone:
            becomes = Becomes.BROUGHT_BACK
        if not differing and becomes is Becomes.CHANGED:
            self.found.unchanged += 1
            return
        kept = {f.name: plain(getattr(old, f.name)) for f in fields_of(KINDS[kind])}
        new = entry.build(kind, kept | {f.name: plain(after) for f, _, after in differing})
        self.found.differing.append(Differing(kind, title, becomes, tuple(differing), old, new, removed_at or gone))

    def _is_the_files(self, kind: str, old: Any, f: Field, before: Any, after: Any) -> bool:
        """Whether a difference was made in the file; one that was made in the kit alone since stays, and is said."""
        key = (kind, _key(kind, old), f.name)
        about = f"{kind} {_title(kind, old)}: {f.label}"
        if by := self.since.lists.get(key):
            self._conflicts.append(f"{about} was changed by {by}")
            return False
        if key not in self.since.base:
            if by := self.since.added.get(key[:2]):
                self._conflicts.append(f"{about}: it was added since by {by}")
                return False
            return True
        base, by = self.since.base[key]
        if base == bound(plain(before)):
            return True  # changed since, and back again
        if bound(plain(after)) == base:
            self.found.kept.append(f"{about} {_shown(before)}, by {by}")
        else:
            self._conflicts.append(
                f"{about} was {_shown(base)} at the export, is {_shown(before)} now by {by}, "
                f"and the file says {_shown(after)}"
            )
        return False

    def _gone_since(self, kind: str, old: Any, differing: list[tuple[Field, Any, Any]], gone: str) -> bool:
        """Whether a thing was removed here since the export: it stays so, and the file may not change it."""
        base, by = self.since.base.get((kind, _key(kind, old), jsonfile.REMOVED), (gone, ""))
        if base is not None:
            return False
        if differing:
            self._conflicts.append(f"{kind} {_title(kind, old)} was removed since by {by}, and the file changes it")
        else:
            self.found.kept.append(f"{kind} {_title(kind, old)} removed, by {by}")
        return True

    def _look_for_left_out(self, kinds: set[str]) -> None:
        """What the kit has and the file has not, of the kinds that it holds."""
        ids = self._reading_ids() if "reading" in kinds and self.since.reading_ids else {}
        for (kind, key), (thing, gone) in self.kept.items():
            fresh = (kind, key) in self.since.added or ids.get(key) in self.since.reading_ids
            if kind not in kinds or gone is not None or (kind, key) in self._seen or fresh:
                continue
            if not self.remove:
                self.found.left_out.append((kind, _title(kind, thing)))
            elif by := self._touched(kind, key, thing):
                self._conflicts.append(f"{kind} {_title(kind, thing)}: the file leaves it out, and {by} changed it")
            else:
                one = Differing(kind, _title(kind, thing), Becomes.REMOVED, (), thing, thing)
                self.found.differing.append(one)

    def _touched(self, kind: str, key: str, thing: Any) -> str:
        """The command since the export by which a thing is another now; "" where none is."""
        for f in fields_of(KINDS[kind]):
            if by := self.since.lists.get((kind, key, f.name)):
                return by
            base, by = self.since.base.get((kind, key, f.name), (None, ""))
            if by and base != bound(plain(getattr(thing, f.name))):
                return by
        return self.since.renamed.get((kind, key), "")

    def _reading_ids(self) -> dict[str, int]:
        query = "SELECT battery, taken_at, id FROM reading"
        return {_reading_key(battery, str(at)): number for battery, at, number in self.connection.execute(query)}

    def _compare_settings(self, item: Entry) -> None:
        here = settings.within(self.connection)
        try:
            there = here.changed(item.values)
        except BadData as error:
            self._note(item.line, f"settings: {error.message}")
            return
        before, after = here.as_words, there.as_words
        self.found.settings = {word: (before[word], after[word]) for word in before if before[word] != after[word]}

    def write(self) -> None:
        """Write what differs: what comes first, so that the rest may refer to it, and what goes last."""
        order = list(KINDS)
        rank = {Becomes.ADDED: 0, Becomes.BROUGHT_BACK: 1, Becomes.CHANGED: 2, Becomes.REMOVED: 3}
        for one in sorted(self.found.differing, key=lambda d: (rank[d.becomes], order.index(d.kind))):
            if one.becomes is Becomes.ADDED:
                changes.insert(self.change, one.kind, one.new, removed_at=one.removed_at, free=True)
                continue
            if one.fields and one.kind == "reading":
                row = dict(zip(rows.reading_columns(), rows.reading_row(one.new, one.removed_at), strict=True))
                self.change.update("reading", _reading_row_key(one.old), **row)
            elif one.fields:
                changes.write(self.change, one.kind, one.old.name, one.new)
            if one.becomes is not Becomes.CHANGED:
                self._mark(one, None if one.becomes is Becomes.BROUGHT_BACK else one.removed_at or changes.now())
        for one in self.found.differing:
            if one.becomes is Becomes.REMOVED and (users := changes.users_of(self.connection, one.kind, one.name)):
                raise BadData(
                    f"{one.kind} {one.name!r} would be removed, and is still used by {', '.join(users)}",
                    hint="Change those in the file too, or leave it in.",
                )
        settings.edit_within(self.change, {word: after for word, (_, after) in self.found.settings.items()})

    def _mark(self, one: Differing, removed_at: str | None) -> None:
        if one.kind == "reading":
            self.change.update("reading", _reading_row_key(one.old), removed_at=removed_at)
        else:
            changes.mark_removed(self.change, one.kind, one.new.name, removed_at)

    def _note(self, line: int, sentence: str) -> None:
        self._wrong.append((self._number, line, f"{self._file}:{line}: {sentence}"))


def _key(kind: str, thing: Any) -> str:
    return _reading_key(thing.battery, rows.moment(thing.taken_at)) if kind == "reading" else thing.name.casefold()


def _reading_key(battery: str, taken_at: str) -> str:
    return f"{battery.casefold()} at {taken_at}"


def _reading_row_key(reading: Any) -> dict[str, Any]:
    return {"battery": reading.battery, "taken_at": rows.moment(reading.taken_at)}


def _title(kind: str, thing: Any) -> str:
    return f"{thing.battery} at {thing.taken_at:%Y-%m-%d %H:%M:%S}" if kind == "reading" else str(thing.name)


def _shown(value: Any) -> str:
    return "not known" if value is None else "nothing" if value in ("", ()) else entry.shown(plain(value))
