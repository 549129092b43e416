"""What a phone brings back, as text: one small TOML, saved, copied or pasted. Nothing in it is taken on trust.

    [pocket]
    format = 1
    written_at = 2027-05-06T09:31:00
    trip = "Dry lake"
    kit = "9f3c2a7b"

    [[check]]
    word = "k3m9x2p7"
    at = 2027-05-06T09:30:00
    ...

Each entry has a word of its own, so that it counts once however often the text comes in.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from pathlib import Path
from typing import Any

from kitlist.base.errors import BadFile

FORMAT = 1
LONGEST = 400_000  # characters: some 2,000 entries, more than anybody taps on one trip
MOST_ENTRIES = 3000
_WORD = re.compile(r"[A-Za-z0-9]{8,40}")
_MARK = re.compile(r"^\s*\[pocket\]\s*(?:#.*)?$", re.MULTILINE)
_HINT = "Copy it again from the phone, all of it."


class PocketKind(StrEnum):
    """What an entry is about."""

    CHECK = "check"
    READING = "reading"
    READING_BACK = "reading_back"
    BEAD = "bead"
    WELD = "weld"
    USED = "used"


_FIELDS: dict[PocketKind, dict[str, type | tuple[type, ...]]] = {
    PocketKind.CHECK: {
        "kind": str, "thing": str, "answer": str, "count": int, "of": int, "was": str, "sure": str,
    },
    PocketKind.READING: {
        "battery": str, "volts": (str, int, float), "rested": str, "battery_temp": str, "load": str, "charging": bool,
        "quick_load": bool,
    },
    PocketKind.READING_BACK: {"battery": str, "taken_at": str},
    PocketKind.BEAD: {
        "bank": list, "bank_strings": int, "rod": str, "rest_v": (int, float), "bank_v": (int, float),
        "current_a": (int, float), "holder_v": (int, float),
    },
    PocketKind.WELD: {
        "bank": list, "bank_strings": int, "rod": str, "rods": int, "repair": str, "before_v": (int, float),
        "after_v": (int, float), "name": str, "ballast": str, "before": str, "after": str, "after_rested": str,
        "bank_v": (int, float), "current": str, "holder_v": (int, float),
    },
    PocketKind.USED: {"thing": str, "amount": str},
}  # fmt: skip
_SHARED: dict[str, type | tuple[type, ...]] = {"word": str, "at": datetime, "by": str, "trip": str}
_NAMES = frozenset(str(kind) for kind in PocketKind)
_NEEDED = {
    PocketKind.CHECK: ("by", "kind", "thing", "answer"),
    PocketKind.READING: ("battery", "volts"),
    PocketKind.READING_BACK: ("battery", "taken_at"),
    PocketKind.BEAD: ("bank", "rest_v", "bank_v", "current_a"),
    PocketKind.WELD: ("bank", "rod", "rods"),
    PocketKind.USED: ("thing", "amount"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketEntry:
    """One thing that was tapped or typed on a phone: its word, its moment by the phone's clock, its values."""

    kind: PocketKind
    word: str
    at: datetime
    by: str
    trip: str
    values: Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketText:
    """All that one text holds; `kit` is the digest of the kit that the phone's page was made from, where it says."""

    written_at: datetime
    trip: str
    kit: str
    entries: tuple[PocketEntry, ...]


def is_pocket(path: Path) -> bool:
    """Whether a file says of itself that it comes from a phone."""
    if path.suffix.lower() != ".toml" or not path.is_file():
        return False
    with path.open("rb") as file:
        return _MARK.search(file.read(LONGEST).decode("utf-8", "replace")) is not None


def read(text: str) -> PocketText:
    """The entries of a text, in the order in which they were given. Raises BadFile with every bad line."""
    if len(text) > LONGEST:
        raise BadFile(f"the text is longer than {LONGEST} characters", lines=(), hint=_HINT)
    try:
        document = tomllib.loads(text.replace("\r\n", "\n").replace("\u00a0", " "))
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
        raise BadFile(f"this is not what a phone writes: {str(error)[:120]}", lines=(), hint=_HINT) from None
    head = document.pop("pocket", None)
    if not isinstance(head, dict):
        raise BadFile("this is not what a phone writes: it has no [pocket] head", lines=(), hint=_HINT)
    if head.get("format") != FORMAT:
        raise BadFile(f"format {str(head.get('format'))[:20]} is not known here: this kitlist reads {FORMAT}", lines=())
    written_at = head.get("written_at")
    if not isinstance(written_at, datetime) or written_at.tzinfo is not None:
        raise BadFile("written_at must be a moment like 2027-05-06T09:30:00", lines=(), hint=_HINT)
    trip, kit = (head.get(name, "") for name in ("trip", "kit"))
    if not isinstance(trip, str) or not isinstance(kit, str):
        raise BadFile("trip and kit must be text", lines=(), hint=_HINT)
    wrong: list[str] = []
    entries = tuple(_entries(document, trip, wrong))
    if len(entries) > MOST_ENTRIES:
        wrong.append(f"{len(entries)} entries: at most {MOST_ENTRIES} at once")
    if wrong:
        raise BadFile(f"{len(wrong)} entries cannot be read; nothing was taken", lines=tuple(wrong), hint=_HINT)
    return PocketText(
        written_at=written_at, trip=trip, kit=kit, entries=tuple(sorted(entries, key=lambda entry: entry.at))
    )


def _entries(document: Mapping[str, Any], trip: str, wrong: list[str]) -> Iterator[PocketEntry]:
    for name, listed in document.items():
        if name not in _NAMES or not isinstance(listed, list):
            wrong.append(f"[[{name[:40]}]] must be one of {', '.join(PocketKind)}, in double brackets")
            continue
        for number, values in enumerate(listed, start=1):
            about = f"{name} {number}"
            if not isinstance(values, dict):
                wrong.append(f"{about}: must be a table")
            elif why := _wrong(PocketKind(name), values):
                wrong.append(f"{about}: {why}")
            else:
                yield PocketEntry(
                    kind=PocketKind(name),
                    word=values["word"],
                    at=values["at"],
                    by=values.get("by", ""),
                    trip=values.get("trip", "") or trip,
                    values={field: value for field, value in values.items() if field not in _SHARED},
                )


def _wrong(kind: PocketKind, values: Mapping[str, Any]) -> str:
    """Why the values of one entry cannot be taken; "" where they can."""
    known = _SHARED | _FIELDS[kind]
    for field, value in values.items():
        if field not in known:
            return f"has no field {field[:40]!r}"
        wanted = known[field]
        listed = isinstance(value, list) and not all(isinstance(name, str) for name in value)
        if listed or not isinstance(value, wanted) or (isinstance(value, bool) and wanted is not bool):
            return f"{field} = {str(value)[:40]!r} is not of the right kind"
    missing = [field for field in ("word", "at", *_NEEDED[kind]) if field not in values]
    if missing:
        return f"{missing[0]} is missing"
    if not _WORD.fullmatch(values["word"]):
        return "word must be 8 to 40 letters and digits"
    return "at must be a moment without a zone" if values["at"].tzinfo is not None else ""
