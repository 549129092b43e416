"""Import: every entry checked, every reference followed, every problem reported; then all of it, or nothing."""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kitlist import entry, names
from kitlist.errors import BadFile
from kitlist.fields import fields_of
from kitlist.kit import KINDS, PLURALS
from kitlist.store import changes, tomlfile
from kitlist.store.opening import Store

if TYPE_CHECKING:
    from sqlmodel import Session

    from kitlist.store.tomlfile import Entry


@dataclass(frozen=True, slots=True)
class Imported:
    """How much an import brought in, and how much was there already, by kind."""

    added: Counter[str]
    unchanged: Counter[str]

    @property
    def words(self) -> str:
        """A sentence about it."""
        added = ", ".join(f"{n} {kind if n == 1 else PLURALS[kind]}" for kind, n in self.added.items() if n)
        same = sum(self.unchanged.values())
        return f"added {added or 'nothing'}" + (f"; {same} there already, unchanged" if same else "")


def import_toml(store: Store, path: Path, *, dry_run: bool = False) -> Imported:
    """Import a TOML file. Raises BadFile with file, line, value and what was allowed for every bad line."""
    entries, wrong = tomlfile.read(path)
    return import_entries(store, entries, path.name, wrong=wrong, dry_run=dry_run)


def import_entries(
    store: Store, entries: Iterable[Entry], file: str, *, wrong: tuple[str, ...] = (), dry_run: bool = False
) -> Imported:
    """Import entries in one transaction; `wrong` is what the reading of the file has found already."""
    with store.writing() as session:
        batch = _Batch(session, file, wrong)
        for item in entries:
            batch.take(item)
        if batch.wrong:
            counted = f"{len(batch.wrong)} line{'s' if len(batch.wrong) > 1 else ''}"
            raise BadFile(f"{file}: {counted} cannot be taken; nothing was imported", lines=batch.in_order())
        if dry_run:
            session.rollback()
            return batch.done
        for kind, thing in batch.fresh:
            changes.insert(session, kind, thing)
    return batch.done


class _Batch:
    """What one file brings: things ready to insert, and what is wrong with the others."""

    def __init__(self, session: Session, file: str, wrong: tuple[str, ...]) -> None:
        self.session = session
        self.file = file
        self.wrong = [(int(text.removeprefix(f"{file}:").split(":")[0]), text) for text in wrong]
        self.fresh: list[tuple[str, Any]] = []
        self.done = Imported(Counter(), Counter())
        self.known: dict[str, dict[str, str]] = {
            kind: {n.casefold(): n for n in changes.living_names(session, kind)} for kind in KINDS if kind != "reading"
        }
        self.kept = {kind: frozenset(there) for kind, there in self.known.items()}
        self.line_of: dict[tuple[str, str], int] = {}

    def take(self, item: Entry) -> None:
        """Check one entry; it joins `fresh`, or its problems join `wrong`."""
        try:
            thing = entry.build(item.kind, item.values)
        except entry.Refused as error:
            title = error.message.split(":")[0]
            for problem in error.problems:
                self._note(item, problem.field, f"{title}: {problem.sentence}")
            self._remember(item, str(item.values.get("name", "")))
            self._follow(item, item.values)
            return
        thing = self._with_known_names(item, thing)
        if item.kind == "reading":
            self._take_reading(item, thing)
        else:
            self._take_named(item, thing)

    def _take_named(self, item: Entry, thing: Any) -> None:
        twice = self.line_of.get((item.kind, thing.name.casefold()))
        if twice is not None:
            self._note(item, "name", f"{item.kind} {thing.name!r} stands on line {twice} already")
            return
        self.line_of[item.kind, thing.name.casefold()] = item.line
        if thing.name.casefold() in self.kept[item.kind]:
            there = changes.find(self.session, item.kind, thing.name)
            if there == thing:
                self.done.unchanged[item.kind] += 1
            else:
                fields = [
                    f.name for f in fields_of(KINDS[item.kind]) if getattr(there, f.name) != getattr(thing, f.name)
                ]
                self._note(
                    item, fields[0], f"{item.kind} {thing.name!r} is in the kit with another {', '.join(fields)}"
                )
            return
        if changes.was_removed(self.session, item.kind, thing.name):
            self._note(item, "name", f"{item.kind} {thing.name!r} was removed from the kit: restore it, or rename this")
            return
        self._remember(item, thing.name)
        self._fresh(item.kind, thing)

    def _take_reading(self, item: Entry, thing: Any) -> None:
        key = ("reading", f"{thing.battery} {thing.taken_at.isoformat()}".casefold())
        there = changes.reading_at(self.session, thing.battery, thing.taken_at)
        if key in self.line_of:
            self._note(
                item, "taken_at", f"{thing.battery} has a reading at {thing.taken_at} on line {self.line_of[key]}"
            )
        elif there is None:
            self.line_of[key] = item.line
            self._fresh("reading", thing)
        elif there == thing:
            self.done.unchanged["reading"] += 1
        else:
            self._note(item, "volts_v", f"{thing.battery} has another reading at {thing.taken_at} in the kit")

    def _fresh(self, kind: str, thing: Any) -> None:
        self.fresh.append((kind, thing))
        self.done.added[kind] += 1

    def _remember(self, item: Entry, name: str) -> None:
        if item.kind in self.known and name:
            self.known[item.kind].setdefault(name.casefold(), name)

    def _with_known_names(self, item: Entry, thing: Any) -> Any:
        """The thing with its references spelled as the kit spells them; unknown ones are noted."""
        values = {f.name: getattr(thing, f.name) for f in fields_of(KINDS[item.kind])}
        spelled = self._follow(item, values)
        return dataclasses.replace(thing, **spelled) if spelled else thing

    def _follow(self, item: Entry, values: Mapping[str, Any]) -> dict[str, Any]:
        """The references among `values`, spelled as the kit spells them; unknown ones are noted."""
        spelled: dict[str, Any] = {}
        for field in fields_of(KINDS[item.kind]):
            value = values.get(field.name)
            if not field.about.refers or value is None:
                continue
            known = self.known[field.about.refers]
            several = [v for v in value if isinstance(v, str)] if isinstance(value, list | tuple) else [str(value)]
            for name in several:
                if name.casefold() not in known:
                    hint = names.near(name, known.values(), what=field.about.refers)
                    sentence = f"{field.name} = {name!r}: no {field.about.refers} is called that. {hint}"
                    self._note(item, field.name, sentence)
            full = tuple(known.get(n.casefold(), n) for n in several)
            if field.type is tuple or full:
                spelled[field.name] = full if field.type is tuple else full[0]
        return spelled

    def _note(self, item: Entry, field: str, sentence: str) -> None:
        short = next((f.short_name for f in fields_of(KINDS[item.kind]) if f.name == field), field)
        line = item.field_lines.get(field) or item.field_lines.get(short) or item.line
        self.wrong.append((line, f"{self.file}:{line}: {sentence}"))

    def in_order(self) -> tuple[str, ...]:
        """What is wrong, by line."""
        return tuple(text for _, text in sorted(self.wrong))
