"""What a reader of files hands on: things as the file gives them, and lines that cannot be taken."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from kitlist.base.errors import BadFile


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
