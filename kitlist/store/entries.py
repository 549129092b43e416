"""What a reader of files hands on: things as the file gives them, and lines that cannot be taken."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from kitlist.base.errors import BadFile

_MOMENT = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing as the file gives it, with the line it begins on and, where they are known, those of its fields."""

    kind: str
    values: dict[str, Any]
    line: int
    field_lines: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class WrongEntry:
    """A line that cannot be taken, and why."""

    line: int
    sentence: str


def unreadable(path: Path, error: OSError) -> BadFile:
    """What to say of a file that the system does not give."""
    return BadFile(f"cannot read {path}: {error.strerror}", lines=(), hint="Check the file's name.")


def is_moment(value: object) -> bool:
    """Whether a value is a moment as the store marks removals with.

    >>> is_moment("2026-11-25 07:30:00"), is_moment("2026-11-25T07:30")
    (True, False)
    """
    if not isinstance(value, str) or not _MOMENT.fullmatch(value):
        return False
    try:
        datetime.fromisoformat(value)
    except ValueError:
        return False
    return True
