"""What happens to a packet of rods: opened, used, baked. The packet changes and its history keeps the event."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from kitlist.base.errors import BadData
from kitlist.base.terms import RodStorage
from kitlist.kit import Rod, entry, plain
from kitlist.store import changes
from kitlist.store.opening import Store

if TYPE_CHECKING:
    from kitlist.store.writer import Writer


@dataclass(frozen=True, slots=True)
class RodEvent:
    """One thing that happened to a packet."""

    what: str
    happened_on: date
    count: int | None


def opened(store: Store, name: str, *, on: date, storage: RodStorage = RodStorage.CARTON) -> Rod:
    """The packet was opened and is kept in `storage` from now on. Raises BadData where it was open already."""
    with store.writing() as change:
        rod = changes.find(change.connection, "rod", name)
        if rod.opened_on is not None:
            raise BadData(f"{rod.name} was opened on {rod.opened_on}", hint="kitlist rod edit changes the date.")
        if storage is RodStorage.SEALED:
            raise BadData("a packet that was opened is not sealed", hint="--into dry-tube, carton or loose")
        return _happened(change, rod, "opened", on, opened_on=on, storage=storage)


def taken(change: Writer, rod: Rod, *, count: int, left: int, on: date) -> Rod:
    """`count` rods of the packet were used and `left` remain, inside an open write."""
    return _happened(change, rod, "used", on, used_count=count, count=left)


def baked(store: Store, name: str, *, on: date) -> Rod:
    """The packet was baked: its hours in open air begin again. Whether it may be used is for the rules to say."""
    with store.writing() as change:
        rod = changes.find(change.connection, "rod", name)
        exposed_h = None if rod.exposed_h is None else 0.0
        return _happened(change, rod, "baked", on, bakes=rod.bakes + 1, opened_on=on, exposed_h=exposed_h)


def history(store: Store, name: str) -> tuple[RodEvent, ...]:
    """What happened to a packet, oldest first."""
    with store.viewing() as connection:
        rod = changes.find(connection, "rod", name)
        query = "SELECT what, happened_on, count FROM rod_event WHERE rod = ? ORDER BY happened_on, id"
        found = connection.execute(query, (rod.name,))
        return tuple(RodEvent(what, date.fromisoformat(happened_on), count) for what, happened_on, count in found)


def baked_on(store: Store, name: str) -> tuple[date, ...]:
    """The days on which a packet was baked, oldest first."""
    return tuple(event.happened_on for event in history(store, name) if event.what == "baked")


def _happened(change: Writer, rod: Rod, what: str, on: date, *, used_count: int | None = None, **changed: Any) -> Rod:
    """Write the event and the changed packet in the same transaction."""
    from kitlist.store.tables import RodEventRow

    now: Rod = entry.build("rod", {name: plain(getattr(rod, name)) for name in rod.__slots__} | changed)
    changes.write(change, "rod", rod.name, now)
    change.insert(RodEventRow(rod=rod.name, what=what, happened_on=on, count=used_count, note=""))
    return now
