"""When batteries were last linked to weld. Read alone: a judgement asks it each time, and needs nothing that writes."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from kitlist.kit import Battery
from kitlist.store.opening import Store

if TYPE_CHECKING:
    import sqlite3


def welded_on(store: Store, battery: str) -> tuple[date, ...]:
    """The days on which a battery was linked to weld, on any trip."""
    with store.viewing() as connection:
        found = connection.execute("SELECT DISTINCT linked_on FROM linked_battery WHERE battery = ?", (battery,))
        return tuple(date.fromisoformat(day) for (day,) in found)


def last_welded(connection: sqlite3.Connection, batteries: Sequence[Battery]) -> tuple[tuple[str, date], ...]:
    """Each battery that was ever linked to weld, with the last day of it: on a trip of this kit, or as was said."""
    found = connection.execute("SELECT battery, max(linked_on) FROM linked_battery GROUP BY battery")
    days = {str(battery): date.fromisoformat(day) for battery, day in found}
    for battery in batteries:
        if battery.welded_on is not None:
            days[battery.name] = max(battery.welded_on, days.get(battery.name, battery.welded_on))
    return tuple(days.items())
