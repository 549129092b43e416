"""A kit written by hand in one TOML file: `[[battery]]` tables, each entry with the lines it stands on."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from kitlist.errors import BadFile
from kitlist.kit import KINDS

MAX_BYTES = 20_000_000
_HEADER = re.compile(r"\s*\[\[\s*([A-Za-z0-9_-]+)\s*\]\]\s*(?:#.*)?")
_KEY = re.compile(r"\s*\"?([A-Za-z0-9_-]+)\"?\s*=")
_AT_LINE = re.compile(r"(.*) \(at line (\d+), column \d+\)")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing as the file gives it, with the line of its heading and of each of its fields."""

    kind: str
    values: dict[str, Any]
    line: int
    field_lines: dict[str, int] = field(default_factory=dict)


def read(path: Path) -> tuple[tuple[Entry, ...], tuple[str, ...]]:
    """The entries of a TOML file, and a line for each heading that names no kind (see `entries`)."""
    return entries(_text(path), path.name)


def entries(text: str, name: str) -> tuple[tuple[Entry, ...], tuple[str, ...]]:
    """The entries of TOML text, kinds in the order in which they may refer to one another, and the wrong headings.

    `name` stands before each line number in what is reported. Raises BadFile with every line that is no TOML.
    """
    document = _parsed(text, name)
    places = _places(text)
    wrong = []
    found = []
    for kind, things in document.items():
        at = next((p.line for p in places if p.kind == kind), _line_of(text, kind))
        if kind not in KINDS:
            wrong.append(f"{name}:{at}: {kind}: must be one of {', '.join(KINDS)}, in double brackets")
        elif not isinstance(things, list) or not all(isinstance(t, dict) for t in things):
            wrong.append(f"{name}:{at}: [{kind}]: write [[{kind}]], in double brackets, before each {kind}")
        else:
            own = [p for p in places if p.kind == kind]
            own += [Entry(kind, {}, at)] * (len(things) - len(own))
            found += [Entry(kind, t, p.line, p.field_lines) for t, p in zip(things, own, strict=False)]
    order = list(KINDS)
    return tuple(sorted(found, key=lambda entry: (order.index(entry.kind), entry.line))), tuple(wrong)


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > MAX_BYTES:
            raise BadFile(f"{path.name} is larger than {MAX_BYTES // 1_000_000} MB", lines=())
        return path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise BadFile(f"cannot read {path}: {error.strerror}", lines=(), hint="Check the file's name.") from None
    except UnicodeDecodeError as error:
        raise BadFile(f"{path.name} is not UTF-8 text (byte {error.start})", lines=()) from None


def _parsed(text: str, name: str) -> dict[str, Any]:
    """The parsed document; each line that breaks the syntax is noted and blanked, so that all are reported."""
    wrong: list[str] = []
    lines = text.splitlines(keepends=True)
    for _ in range(50):
        try:
            document = tomllib.loads("".join(lines))
            break
        except tomllib.TOMLDecodeError as error:
            found = _AT_LINE.fullmatch(str(error))
            number = int(found[2]) if found else len(lines)
            if not found or not 0 < number <= len(lines) or not lines[number - 1].strip():
                wrong.append(f"{name}:{min(number, len(lines))}: {error}")
                break
            wrong.append(f"{name}:{number}: {lines[number - 1].strip()[:60]}: {found[1]}")
            lines[number - 1] = "\n"
        except RecursionError:
            wrong.append(f"{name}: lists or tables are nested too deeply")
            break
    if wrong:
        counted = f"{len(wrong)} line{'s' if len(wrong) > 1 else ''}"
        raise BadFile(f"{name}: {counted} cannot be read as TOML; nothing was imported", lines=tuple(wrong))
    return document


def _places(text: str) -> list[Entry]:
    """Where each `[[kind]]` and each of its fields stands; text inside long strings is passed over."""
    places: list[Entry] = []
    inside = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if inside:
            inside = "" if inside in line else inside
            continue
        if found := _HEADER.fullmatch(line):
            places.append(Entry(found[1], {}, number))
        elif (found := _KEY.match(line)) and places:
            places[-1].field_lines.setdefault(found[1], number)
        for quotes in ('"""', "'''"):
            if line.count(quotes) % 2:
                inside = quotes
    return places


def _line_of(text: str, word: str) -> int:
    lines = text.splitlines()
    return next((n for n, line in enumerate(lines, start=1) if re.match(rf"\s*\[*\s*\"?{re.escape(word)}\b", line)), 1)
