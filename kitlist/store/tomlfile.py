"""A kit written by hand in one TOML file: `[[battery]]` tables, each entry with the lines it stands on."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from io import StringIO
from pathlib import Path
from typing import Any

from kitlist.base.errors import BadFile
from kitlist.kit import KINDS
from kitlist.store.entries import Entry, WrongEntry, unreadable

MAX_BYTES = 20_000_000
MAX_WRONG = 50  # lines that break the syntax; after so many it is no TOML
_HEADER = re.compile(r"\s*\[\[\s*([A-Za-z0-9_-]+)\s*\]\]\s*(?:#.*)?")
_KEY = re.compile(r"\s*\"?([A-Za-z0-9_-]+)\"?\s*=")
_AT_LINE = re.compile(r"(.*) \(at line (\d+), column \d+\)")
_TOO_LONG = re.compile(r"\d{4300}|[\d_]{4300}")  # Python reads no whole number of more digits


def read(path: Path) -> Iterator[Entry | WrongEntry]:
    """The things of a TOML file, kinds in the order in which they may refer to one another, and what is wrong."""
    try:
        if path.stat().st_size > MAX_BYTES:
            raise BadFile(f"{path.name} is larger than {MAX_BYTES // 1_000_000} MB", lines=())
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise unreadable(path, error) from None
    except UnicodeDecodeError as error:
        yield WrongEntry(1, f"is not UTF-8 text (byte {error.start})")
        return
    document, broken = _parsed(text)
    yield from broken or _things(document, text)


def _things(document: dict[str, Any], text: str) -> Iterator[Entry | WrongEntry]:
    places = _places(text)
    found = []
    for kind, things in document.items():
        at = next((p.line for p in places if p.kind == kind), _line_of(text, kind))
        if kind not in KINDS:
            yield WrongEntry(at, f"{kind[:60]!r} must be one of {', '.join(KINDS)}, in double brackets")
        elif not isinstance(things, list) or not all(isinstance(t, dict) for t in things):
            yield WrongEntry(at, f"[{kind}]: write [[{kind}]], in double brackets, before each {kind}")
        else:
            own = [p for p in places if p.kind == kind]
            own += [Entry(kind, {}, at)] * (len(things) - len(own))
            found += [Entry(kind, t, p.line, p.field_lines) for t, p in zip(things, own, strict=False)]
    order = list(KINDS)
    yield from sorted(found, key=lambda entry: (order.index(entry.kind), entry.line))


def _parsed(text: str) -> tuple[dict[str, Any], list[WrongEntry]]:
    """The parsed document; each line that breaks the syntax is noted and blanked, so that all are reported."""
    wrong: list[WrongEntry] = []
    lines = list(StringIO(text))
    while len(wrong) < MAX_WRONG:
        try:
            return tomllib.loads("".join(lines)), wrong
        except tomllib.TOMLDecodeError as error:
            found = _AT_LINE.fullmatch(str(error))
            number = int(found[2]) if found else len(lines)
            if not found or not 0 < number <= len(lines) or not lines[number - 1].strip():
                return {}, [*wrong, WrongEntry(max(1, min(number, len(lines))), str(error))]
            wrong.append(WrongEntry(number, f"{lines[number - 1].strip()[:60]!r}: {found[1]}"))
            lines[number - 1] = "\n"
        except RecursionError:
            return {}, [*wrong, WrongEntry(1, "lists or tables are nested too deeply")]
        except ValueError:
            number = next((n for n, line in enumerate(lines, start=1) if _TOO_LONG.search(line)), 1)
            wrong.append(WrongEntry(number, "a number has too many digits"))
            lines[number - 1] = "\n"
    return {}, wrong


def _places(text: str) -> list[Entry]:
    """Where each `[[kind]]` and each of its fields stands; text inside long strings is passed over."""
    places: list[Entry] = []
    inside = ""
    for number, line in enumerate(StringIO(text), start=1):
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
    lines = enumerate(StringIO(text), start=1)  # lines as TOML counts them: one pasted U+2028 begins none
    return next((n for n, line in lines if re.match(rf"\s*\[*\s*\"?{re.escape(word)}\b", line)), 1)
