"""A clock that was set back, or a moment mistyped: a reading in the future would hide every later one."""

from __future__ import annotations

import sqlite3
from datetime import datetime, timedelta

from kitlist.base.errors import BadData
from kitlist.base.names import quoted
from kitlist.kit import Reading

SLACK = timedelta(minutes=10)  # two machines' clocks differ by so much without anybody noticing
FURTHER = timedelta(days=400)  # where the clock is behind: a kit that was left alone over a year and a season
ZONES = timedelta(hours=26)  # the greatest step that a change of time zone makes


def refuse_impossible(connection: sqlite3.Connection, reading: Reading, *, by_clock: datetime) -> None:
    """Raise BadData for a reading later than the clock allows.

    Where the store holds a reading from after the clock, the clock is behind: then a moment that somebody gave is
    taken, and the clock's own is refused, for it would stand before readings that were taken earlier. A step that a
    journey into another time zone explains counts only against readings of the same battery.
    """
    last, of = _newest(connection)
    own, _ = _newest(connection, reading.battery)
    behind = last > by_clock + ZONES or own > by_clock + SLACK
    said = f"the clock says {by_clock:%Y-%m-%d %H:%M}"
    if behind and reading.taken_at == by_clock:
        later, battery = (own, reading.battery) if own > by_clock + SLACK else (last, of)
        raise BadData(
            f"{said}, but the store holds a reading of {battery} of {later:%Y-%m-%d %H:%M}: this machine's clock is "
            "behind, or its time zone has changed",
            hint="Set the clock, or say when it was measured: --at 2026-11-25T07:30. If that reading is wrong: "
            f"kitlist reading remove {quoted(battery)} {later.isoformat()}",
        )
    if behind and reading.taken_at - last > FURTHER:
        raise BadData(
            f"a reading of {reading.taken_at:%Y-%m-%d %H:%M} would be more than a year after every other: the newest "
            f"is of {last:%Y-%m-%d %H:%M}, {said}",
            hint="Check --at, or set this machine's clock.",
        )
    if not behind and reading.taken_at > by_clock + SLACK:
        raise BadData(
            f"a reading of {reading.taken_at:%Y-%m-%d %H:%M} would be in the future: {said}",
            hint="Check --at, or set this machine's clock.",
        )


def _newest(connection: sqlite3.Connection, battery: str | None = None) -> tuple[datetime, str]:
    """The newest reading's moment and battery; a companion's clock says nothing of this one."""
    guests = "SELECT b.name FROM battery b JOIN vehicle v ON b.vehicle = v.name WHERE v.guest_of <> ''"
    where, values = (f"AND battery NOT IN ({guests})", ()) if battery is None else ("AND battery = ?", (battery,))
    query = f"SELECT max(taken_at), battery FROM reading WHERE removed_at IS NULL {where}"
    found, of = connection.execute(query, values).fetchone()
    return datetime.fromisoformat(found or "0001-01-01"), of or ""


def too_late(newest: datetime | None, *, by_clock: datetime) -> bool:
    """Whether the newest of some readings is later than the clock can be wrong by."""
    return newest is not None and newest > by_clock + SLACK
