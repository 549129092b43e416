"""A clock that was set back, or a moment mistyped: a reading in the future would hide every later one."""

from __future__ import annotations

import sqlite3
from datetime import datetime, timedelta

from kitlist.errors import BadData

SLACK = timedelta(minutes=10)  # two machines' clocks differ by so much without anybody noticing


def refuse_impossible(connection: sqlite3.Connection, taken_at: datetime, *, by_clock: datetime) -> None:
    """Raise BadData for a reading later than the clock allows.

    Where the store holds a reading from after the clock, the clock is behind: then a moment that somebody gave is
    taken, and the clock's own is refused, for it would stand before readings that were taken earlier.
    """
    (newest,) = connection.execute("SELECT max(taken_at) FROM reading WHERE removed_at IS NULL").fetchone()
    last = datetime.fromisoformat(newest) if newest else None
    behind = last is not None and last > by_clock + SLACK
    said = f"the clock says {by_clock:%Y-%m-%d %H:%M}"
    if behind and taken_at == by_clock:
        raise BadData(
            f"{said}, but the store holds a reading of {last:%Y-%m-%d %H:%M}: this machine's clock is behind",
            hint="Set the clock, or say when it was measured: --at 2026-11-25T07:30",
        )
    if not behind and taken_at > by_clock + SLACK:
        raise BadData(
            f"a reading of {taken_at:%Y-%m-%d %H:%M} would be in the future: {said}",
            hint="Check --at, or set this machine's clock.",
        )


def too_late(newest: datetime | None, *, by_clock: datetime) -> bool:
    """Whether the newest of some readings is later than the clock can be wrong by."""
    return newest is not None and newest > by_clock + SLACK
