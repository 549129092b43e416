"""The readiness of a trip straight from a store: what every face begins with."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kitlist.kit import Kit, Trip
    from kitlist.readiness import Readiness
    from kitlist.store import Store


def judged(store: Store, trip: str | None, *, on: date) -> Readiness:
    """The readiness of a trip by any unambiguous start of its name, else of the next trip."""
    from kitlist.readiness import assess

    kit, meant = packed(store, trip, on=on)
    return assess(kit, meant, on=on)


def packed(store: Store, trip: str | None, *, on: date) -> tuple[Kit, Trip]:
    """The kit for a trip, and the trip: by any unambiguous start of its name, else the next one."""
    from kitlist.base import names
    from kitlist.kit import next_trip
    from kitlist.store.snapshot import snapshot, trips

    known = trips(store)
    name = next_trip(known, on=on).name if trip is None else names.resolve(trip, [t.name for t in known], what="trip")
    kit = snapshot(store, trip=name)
    return kit, next(t for t in kit.trips if t.name == name)
