"""The readiness of a trip straight from a store: what every face begins with."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from kitlist.base.terms import Units

if TYPE_CHECKING:
    from kitlist.kit import Kit, Trip
    from kitlist.readiness import Readiness
    from kitlist.rules import Gap
    from kitlist.store import Store


def judged(store: Store, trip: str | None, *, on: date) -> Readiness:
    """The readiness of a trip by any unambiguous start of its name, else of the next trip."""
    from kitlist.readiness import assess
    from kitlist.store import settings

    kit, meant = packed(store, trip, on=on)
    return in_units(assess(kit, meant, on=on), settings.of(store).units)


def in_units(readiness: Readiness, units: Units) -> Readiness:
    """The same with what its gaps say in the owner's units too; their numbers, which rules compare, stay metric."""
    if units is Units.METRIC:
        return readiness
    from kitlist.base.measures import spelled

    def said(gaps: tuple[Gap, ...]) -> tuple[Gap, ...]:
        return tuple(
            replace(gap, what=spelled(gap.what, units=units), remedy=spelled(gap.remedy, units=units)) for gap in gaps
        )

    return replace(readiness, gaps=said(readiness.gaps), accepted=said(readiness.accepted))


def packed(store: Store, trip: str | None, *, on: date) -> tuple[Kit, Trip]:
    """The kit for a trip, and the trip: by any unambiguous start of its name, else the next one."""
    from kitlist.base import names
    from kitlist.kit import next_trip
    from kitlist.store.snapshot import snapshot, trips

    known = trips(store)
    name = next_trip(known, on=on).name if trip is None else names.resolve(trip, [t.name for t in known], what="trip")
    kit = snapshot(store, trip=name)
    return kit, next(t for t in kit.trips if t.name == name)
