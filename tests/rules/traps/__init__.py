"""Traps: a change to a whole kit, the gap it must draw, how grave, and the reason that the trade gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from kitlist.rules import Example, Severity


@dataclass(frozen=True, slots=True)
class Trap:
    """One change: the rule that must find it (None: no gap may be found at all), its severity, and the reason."""

    change: str
    build: Callable[[], Example]
    rule: str | None
    severity: Severity | None
    why: str
