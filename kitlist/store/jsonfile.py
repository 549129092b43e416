"""The whole kit as JSON: a list for each kind, one thing a line, so that whatever is wrong has a line number."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any, TextIO

from kitlist.base.errors import BadFile
from kitlist.base.fields import fields_of
from kitlist.kit import KINDS, plain
from kitlist.store.entries import Entry, WrongEntry, unreadable

FORMAT = 3  # the number that an export carries; a file of a higher one is refused; 2 has the journal, 3 settings
WITHOUT_SETTINGS = 2  # of an export in which nothing is set: every kitlist with a journal reads it
JOURNAL = "journal"
SETTINGS = "settings"
REMOVED = "removed_at"
MAX_BYTES = 500_000_000
LONGEST = 4_000_000  # characters of one thing of the kit, or of one line of its journal
CHUNK = 1 << 16  # characters read together
_SPACE = re.compile(r"[ \t\r\n]*")
_KEY = re.compile(r'"([A-Za-z0-9_-]+)"\s*:')


class _Repeated(dict[str, Any]):
    """An object of which some names stood there twice."""

    names: tuple[str, ...] = ()


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) == len(pairs):
        return found
    marked = _Repeated(found)
    names = [name for name, _ in pairs]
    marked.names = tuple(sorted({name for name in names if names.count(name) > 1}))
    return marked


_DECODER = json.JSONDecoder(object_pairs_hook=_once)


def write(
    kinds: Iterable[tuple[str, Iterable[tuple[Any, str | None]]]],
    file: TextIO,
    *,
    journal: Iterable[Any] = (),
    settings: Mapping[str, str] | None = None,
) -> dict[str, int]:
    """Write every kind, each thing with the moment of its removal if it was removed; returns how many of each.

    The journal stands first, a command a line: what was done before the import comes before the import.
    """
    counts: dict[str, int] = {}
    file.write(f'{{\n"kitlist": {FORMAT if settings else WITHOUT_SETTINGS}')
    if settings:
        file.write(f',\n"{SETTINGS}": {json.dumps(settings, ensure_ascii=False)}')
    lines = ",".join(f"\n{json.dumps(line, ensure_ascii=False)}" for line in journal)
    file.write(f',\n"{JOURNAL}": [{lines}\n]' if lines else "")
    for kind, things in kinds:
        names = [f.name for f in fields_of(KINDS[kind])]
        file.write(f',\n"{kind}": [')
        counts[kind] = 0
        for thing, removed_at in things:
            values = {n: _value(v) for n in names if (v := getattr(thing, n)) is not None}
            if removed_at:
                values[REMOVED] = removed_at
            file.write(",\n" if counts[kind] else "\n")
            file.write(json.dumps(values, ensure_ascii=False, allow_nan=False))
            counts[kind] += 1
        file.write("\n]" if counts[kind] else "]")
    file.write("\n}\n")
    return counts


def _value(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else plain(value)


def read(path: Path) -> Iterator[Entry | WrongEntry]:
    """The things of a JSON file one after another, with their lines; the file is never in memory as a whole."""
    try:
        if path.stat().st_size > MAX_BYTES:
            raise BadFile(f"{path.name} is larger than {MAX_BYTES // 1_000_000} MB", lines=())
        with path.open(encoding="utf-8-sig") as file:
            yield from _read(_Walk(file))
    except OSError as error:
        raise unreadable(path, error) from None


def _read(walk: _Walk) -> Iterator[Entry | WrongEntry]:
    try:
        yield from walk.things()
    except json.JSONDecodeError as error:
        yield WrongEntry(walk.line_at(error.pos), f"cannot be read as JSON: {error.msg}")
    except UnicodeDecodeError as error:
        yield WrongEntry(walk.line, f"is not UTF-8 text ({error.reason})")
    except RecursionError:
        yield WrongEntry(walk.line, "lists are nested too deeply")
    except ValueError as error:  # a whole number of more digits than Python reads
        yield WrongEntry(walk.line, f"cannot be read as JSON: {str(error).split(';')[0]}")


class _Walk:
    """A walk through a file that knows the line it is on and holds no more text than one thing needs."""

    def __init__(self, file: TextIO) -> None:
        self.file = file
        self.text = ""
        self.at = 0
        self.line = 1
        self._counted = 0
        self._ended = False
        self._begun = 0  # of the last value

    def line_at(self, at: int) -> int:
        """The line of a place in the text that is held."""
        return self.line + self.text.count("\n", self._counted, at)

    def _more(self) -> bool:
        """Hold more of the file, twice as much as is left of the last; False at its end."""
        if self._ended:
            return False
        if len(self.text) - self.at > LONGEST:
            raise ValueError(f"one value is longer than {LONGEST // 1_000_000} million characters")
        begun = min(self.at, self._counted)
        self.text = self.text[begun:]
        self.at -= begun
        self._counted -= begun
        new = self.file.read(max(CHUNK, len(self.text)))
        self.text += new
        self._ended = not new
        return True

    def things(self) -> Iterator[Entry | WrongEntry]:
        """Every thing of every list of the one object that the file holds."""
        self._expect("{")
        if self._took("}"):
            return
        while True:
            self._here()
            line = self.line
            key = self._value()
            if not isinstance(key, str):
                raise json.JSONDecodeError("a name in double quotes must stand here", self.text, self.at)
            self._expect(":")
            if key == "kitlist":
                yield from self._format(self._value(), line)
            elif key == SETTINGS and isinstance(value := self._value(), dict):
                yield Entry(SETTINGS, value, line)
            elif key == SETTINGS:
                yield WrongEntry(line, f"{SETTINGS} must be an object: {{ ... }}")
            elif key not in KINDS and key != JOURNAL:
                self._value()
                yield WrongEntry(line, f"{key[:60]!r} must be one of {', '.join(KINDS)}")
            elif self._took("["):
                yield from self._list(key)
            else:
                self._value()
                yield WrongEntry(line, f"{key} must be a list: [ ... ]")
            if not self._took(","):
                break
        self._expect("}")
        self._here()
        if self.at != len(self.text):
            raise json.JSONDecodeError("something stands after the end", self.text, self.at)

    def _list(self, kind: str) -> Iterator[Entry | WrongEntry]:
        if self._took("]"):
            return
        while True:
            self._here()
            line = self.line
            value = self._value()
            if isinstance(value, _Repeated):
                yield WrongEntry(line, f"a {kind}: {', '.join(value.names)[:60]} is given twice")
            elif isinstance(value, dict):
                yield Entry(kind, value, line, self._lines(line))
            else:
                yield WrongEntry(line, f"a {kind} must be an object: {{ ... }}")
            if not self._took(","):
                break
        self._expect("]")

    def _format(self, number: Any, line: int) -> Iterator[WrongEntry]:
        if number not in range(1, FORMAT + 1) or isinstance(number, bool):
            said = f"this kitlist reads formats 1 to {FORMAT}; bring it up to date"
            yield WrongEntry(line, f"kitlist = {str(number)[:20]}: {said}")

    def _lines(self, line: int) -> dict[str, int]:
        """The line of each name of the last value, where that ran over several lines."""
        if "\n" not in self.text[self._begun : self.at]:
            return {}
        lines: dict[str, int] = {}
        for number, part in enumerate(self.text[self._begun : self.at].split("\n"), start=line):
            for found in _KEY.finditer(part):
                lines.setdefault(found[1], number)
        return lines

    def _value(self) -> Any:
        self._here()
        while True:
            try:
                value, end = _DECODER.raw_decode(self.text, self.at)
            except json.JSONDecodeError:
                if self._more():
                    continue
                raise
            if end < len(self.text) or not self._more():  # a number at the end of the text may go on
                self._begun, self.at = self.at, end
                return value

    def _here(self) -> None:
        while True:
            found = _SPACE.match(self.text, self.at)
            self.at = found.end() if found else self.at
            self.line = self.line_at(self.at)
            self._counted = self.at
            if self.at < len(self.text) or not self._more():
                return

    def _took(self, mark: str) -> bool:
        self._here()
        if not self.text.startswith(mark, self.at):
            return False
        self.at += 1
        return True

    def _expect(self, mark: str) -> None:
        if not self._took(mark):
            raise json.JSONDecodeError(f"{mark} must stand here", self.text, self.at)
