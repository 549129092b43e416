"""One read of the store into the frozen kit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kitlist.kit import KINDS, PLURALS, Kit
from kitlist.store import checked_off, papers_kept, rows, welded
from kitlist.store.opening import Store
from kitlist.store.own_rulebook import own_rulebook
from kitlist.trips.check_off import as_checked

if TYPE_CHECKING:
    import sqlite3

READINGS_KEPT = 12  # the newest readings of each battery that a judgement looks at


def snapshot(store: Store, *, trip: str | None = None) -> Kit:
    """The whole kit; with `trip`, the batteries and readings of that trip's vehicles and the loose ones only.

    With `trip`, things are as the newest check-off found them; without, as they are recorded.
    """
    with store.viewing() as connection:
        parts: dict[str, Any] = {
            PLURALS[kind]: rows.things(connection, kind) for kind in KINDS if kind not in ("battery", "reading")
        }
        going = "removed_at IS NULL"
        if trip is not None:
            going += " AND (vehicle IS NULL OR vehicle IN (SELECT vehicle FROM trip_vehicle WHERE trip = ?))"
        batteries = rows.things(connection, "battery", where=going, values=() if trip is None else (trip,))
        parts["batteries"] = batteries
        parts["readings"] = tuple(r for b in batteries for r in newest(connection, b.name))
        parts["printed"] = papers_kept.newest(connection, trip)
        parts["checked"] = checked_off.newest(connection, going=trip)
        parts["welded"] = welded.last_welded(connection, batteries)
    kit = Kit(**parts, rulebook=own_rulebook(store))
    return kit if trip is None else as_checked(kit)


def trips(store: Store) -> tuple[Any, ...]:
    """The trips alone, for finding the one that is meant."""
    with store.viewing() as connection:
        return rows.things(connection, "trip")


def newest(connection: sqlite3.Connection, battery: str, count: int = READINGS_KEPT) -> tuple[Any, ...]:
    """The newest readings of one battery, newest first, through the index."""
    where = "battery = ? AND removed_at IS NULL"
    order = f"taken_at DESC LIMIT {count}"
    return rows.things(connection, "reading", where=where, values=(battery,), order=order)
