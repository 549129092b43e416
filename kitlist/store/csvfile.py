"""One kind as CSV: headings are the kit's field names, and nothing in a cell is a formula to a spreadsheet."""

from __future__ import annotations

import csv
import re
from collections.abc import Generator, Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import Any, TextIO

from kitlist.base.errors import BadFile
from kitlist.base.fields import Field, fields_of, named_by
from kitlist.kit import KINDS, PLURALS
from kitlist.store.entries import Entry, WrongEntry, unreadable

REMOVED = "removed_at"
_START = r"(^|;)"  # a cell begins at its start, and after each semicolon where a spreadsheet splits there
_BEGINS = r"""[\s'"]*[=+\-@\t\r＝＋－＠]"""  # quotes count for nothing: where they are doubled they may be read as none
_FORMULA = re.compile(f"{_START}(?={_BEGINS})")
_HARMLESS = re.compile(f"{_START}'(?={_BEGINS})")


def harmless(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe goes before what would begin one.

    >>> harmless("=1+1"), harmless("'=1"), harmless("'74 wagon"), harmless("a;-b")
    ("'=1+1", "''=1", "'74 wagon", "a;'-b")
    """
    return _FORMULA.sub(r"\1'", text)


def as_written(cell: str) -> str:
    """The text behind a harmless cell; any text comes back as it was.

    >>> as_written("'=1+1"), as_written("''=1"), as_written("'74 wagon")
    ('=1+1', "'=1", "'74 wagon")
    """
    return _HARMLESS.sub(r"\1", cell)


def write(kind: str, things: Iterable[tuple[Any, str | None]], file: TextIO) -> int:
    """Write things, each with the moment of its removal or None, one a row; returns how many."""
    fields = fields_of(KINDS[kind])
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow([f.name for f in fields] + [REMOVED])
    count = 0
    for thing, removed_at in things:
        writer.writerow([_cell(f, getattr(thing, f.name)) for f in fields] + [removed_at or ""])
        count += 1
    return count


def _cell(field: Field, value: Any) -> str:
    if value is None:
        return ""
    if field.type is bool:
        return "yes" if value else "no"
    if field.type in (int, float):
        return repr(value)
    if isinstance(value, date):
        return value.isoformat()
    return harmless(_joined(value) if isinstance(value, tuple) else str(value))


def _joined(members: tuple[str, ...]) -> str:
    """A list as one cell, its members between commas; one that holds a comma itself stands in quotes."""
    return ", ".join(f'"{m.replace(chr(34), chr(34) * 2)}"' if re.search(r'[,"]', m) else m for m in members)


def kind_of(path: Path, kind: str | None = None) -> str:
    """The kind that a CSV file holds: the one named, else the file's own name, `battery.csv` or `batteries.csv`."""
    singular = {plural: word for word, plural in PLURALS.items()}
    word = (kind or path.stem).casefold()
    found = word if word in KINDS else singular.get(word)
    if found is None:
        hint = f"Say which with --kind: {', '.join(KINDS)}."
        raise BadFile(f"{path.name}: what kind of thing it holds is not known", lines=(), hint=hint)
    return found


def read(path: Path, kind: str, *, empties: bool = False) -> Iterator[Entry | WrongEntry]:
    """The rows of a CSV file one after another, with their lines; commas, semicolons or tabs between cells.

    An empty cell says nothing; with `empties` it says that the field is empty, and is there as None.
    """
    number = 0
    lists = frozenset(f.name for f in fields_of(KINDS[kind]) if f.type is tuple)
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            first = file.readline()
            file.seek(0)
            reader = csv.reader(file, delimiter=max(",;\t", key=first.count), strict=True)
            headings: list[str | None] | None = None
            for cells in reader:
                line, number = number + 1, reader.line_num
                if not any(cell.strip() for cell in cells):
                    continue
                if headings is None:
                    headings = yield from _headings(cells, kind, line)
                elif len(cells) != len(headings):
                    yield WrongEntry(line, f"{len(cells)} cells stand under {len(headings)} headings")
                else:
                    yield Entry(kind, _values(headings, cells, lists, empties=empties), line)
    except UnicodeDecodeError as error:
        yield WrongEntry(number + 1, f"is not UTF-8 text ({error.reason}); save it as CSV UTF-8")
    except csv.Error as error:
        yield WrongEntry(number + 1, f"cannot be read as CSV: {error}")
    except OSError as error:
        raise unreadable(path, error) from None


def _headings(cells: list[str], kind: str, line: int) -> Generator[WrongEntry, None, list[str | None]]:
    """The field that each column holds; None, and a note, for a heading that names none."""
    words = {*named_by(KINDS[kind]), REMOVED}
    found: list[str | None] = []
    for cell in cells:
        word = cell.strip().casefold().replace(" ", "_").replace("-", "_")
        if word in words and word not in found:
            found.append(word)
            continue
        found.append(None)
        allowed = ", ".join(f.name for f in fields_of(KINDS[kind]))
        shown = repr(cell[:60])
        said = "stands there twice" if word in words else f"is no field of a {kind}; the headings may be {allowed}"
        yield WrongEntry(line, f"the heading {shown} {said}")
    return found


def _values(headings: list[str | None], cells: list[str], lists: frozenset[str], *, empties: bool) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for word, cell in zip(headings, cells, strict=True):
        if word is not None and cell != "":
            text = as_written(cell) if cell[0] == "'" or ";" in cell else cell
            values[word] = _members(text) if word in lists else text
        elif word is not None and empties:
            values[word] = None
    return values


def _members(cell: str) -> list[str]:
    return [m for m in next(csv.reader([cell], skipinitialspace=True), []) if m.strip()]
