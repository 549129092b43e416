"""What a trip took, and what was put back. The kit's counts change with it, in the same transaction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData
from kitlist.kit import Rod, entry, plain
from kitlist.kit.checked import Answer
from kitlist.store import changes, checked_off, rod_events, rows
from kitlist.store.opening import Store
from kitlist.trips.check_off import KINDS
from kitlist.trips.used import Linked, Use, amount_of

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.writer import Writer

_COLUMNS = "trip, kind, thing, used, put_back, unit, used_on, back_on"


@dataclass(frozen=True, slots=True)
class UseKept:
    """What the store keeps of one trip."""

    uses: tuple[Use, ...]
    linked: tuple[Linked, ...]

    @property
    def any(self) -> bool:
        """Whether anything was recorded."""
        return bool(self.uses or self.linked)


def of_trip(store: Store, trip: str) -> UseKept:
    """What was recorded of a trip."""
    with store.viewing() as connection:
        query = f"SELECT {_COLUMNS} FROM trip_use WHERE trip = ? AND put_back > 0 ORDER BY id"
        uses = connection.execute(query, (trip,)).fetchall()
        linked = connection.execute(
            "SELECT trip, battery, linked_on, strings FROM linked_battery WHERE trip = ? ORDER BY linked_on, rowid",
            (trip,),
        ).fetchall()
    return UseKept(
        tuple(_use(row) for row in uses),
        tuple(
            Linked(trip=of, battery=battery, linked_on=date.fromisoformat(day), strings=strings)
            for of, battery, day, strings in linked
        ),
    )


def record(
    store: Store,
    trip: str,
    words: Sequence[str],
    *,
    linked: Sequence[str] = (),
    strings: int = 1,
    on: date,
    by: str = "",
    at: datetime | None = None,
) -> int:
    """Keep what was used, `NAME=2`, `NAME=8L`, `NAME=damaged` or `NAME=missing`, all of it or nothing.

    Returns how many things. Counts go down, a packet's history has the use, damage goes with the check-off.
    Raises BadData, NotFound.
    """
    with store.writing() as change:
        return record_within(change, trip, words, linked=linked, strings=strings, on=on, by=by, at=at)


def record_within(
    change: Writer,
    trip: str,
    words: Sequence[str],
    *,
    linked: Sequence[str] = (),
    strings: int = 1,
    on: date,
    by: str = "",
    at: datetime | None = None,
) -> int:
    """`record` inside an open change."""
    from kitlist.store.tables import LinkedBatteryRow

    found: list[tuple[str, Any, str]] = []
    for word in words:
        name, equals, text = word.rpartition("=")
        if not equals:
            raise BadData(f"{word[:40]!r} is not NAME=AMOUNT", hint='"general rods=5" "fire water=8L" "helmet=damaged"')
        found.append((*_thing(change.connection, name), text.strip()))
    for kind, thing, text in found:
        if text.casefold() in ("damaged", "missing"):
            if not by or at is None:
                raise BadData("who noted the damage is not said", hint="--by NAME")
            answer = Answer(text.casefold())
            checked_off.insert(change, trip, [(kind, thing.name, answer, 0)], by=by, at=at)
        else:
            _take(change, trip, kind, thing, amount_of(text, thing), on)
    full = [names.resolve(name, rows.names_of(change.connection, "battery"), what="battery") for name in linked]
    if full and len(full) % strings:
        raise BadData(f"{len(full)} batteries do not make {strings} equal strings")
    for name in full:
        change.insert_if_new(LinkedBatteryRow(trip=trip, battery=name, linked_on=on, strings=strings))
    return len(found)


def put_back(store: Store, trip: str, wanted: Sequence[str], *, on: date) -> tuple[Use, ...]:
    """Put back what was used, of the named things or, without names, of all; counts go up again. Raises NotFound."""
    from kitlist.store.tables import TripUseRow

    with store.writing() as change:
        connection = change.connection
        query = f"SELECT {_COLUMNS}, id FROM trip_use WHERE trip = ? AND back_on IS NULL ORDER BY id"
        waiting = [(_use(row[:-1]), row[-1]) for row in connection.execute(query, (trip,))]
        known = list(dict.fromkeys(use.name for use, _ in waiting))
        full = {names.resolve(name, known, what="thing to put back") for name in wanted} or set(known)
        done = [(use, number) for use, number in waiting if use.name in full]
        for use, number in done:
            thing = changes.find(connection, use.kind, use.name)
            field = "volume_l" if use.unit else "count"
            _change(change, use.kind, thing, **{field: getattr(thing, field) + _number(use.put_back, use.unit)})
            change.update(TripUseRow, {"id": number}, back_on=on)
    return tuple(use for use, _ in done)


def _thing(connection: sqlite3.Connection, name: str) -> tuple[str, Any]:
    """The stowed thing of a name, of whatever kind."""
    kinds: dict[str, str] = {}
    for kind in KINDS:
        for known in rows.names_of(connection, kind):
            kinds.setdefault(known, kind)
    full = names.resolve(name, kinds, what="stowed thing")
    return kinds[full], changes.find(connection, kinds[full], full)


def _take(change: Writer, trip: str, kind: str, thing: Any, amount: tuple[float, str], on: date) -> None:
    from kitlist.store.tables import TripUseRow

    used, unit = amount
    if kind == "rod":
        take_rods(change, trip, thing, int(used), on, said_by="used")
        return
    field = "volume_l" if unit else "count"
    recorded = getattr(thing, field)
    there = recorded if unit else _found_count(change.connection, kind, thing)
    if used > there:
        litres = not unit and getattr(thing, "volume_l", None) is not None
        raise BadData(
            f"{used:g}{' L' if unit else ''} of {thing.name}: {there:g} {'is' if there == 1 else 'are'} recorded",
            hint=f"If {used:g} litres were meant, write {used:g}L." if litres else "Count what is left.",
        )
    left = _number(there - used, unit)
    _change(change, kind, thing, **{field: left})
    back = recorded - left
    change.insert(
        TripUseRow(trip=trip, kind=kind, thing=thing.name, used=used, put_back=back, unit=unit, used_on=on, said=used)
    )


def take_rods(change: Writer, trip: str | None, rod: Any, count: int, on: date, *, said_by: str) -> int:
    """Take rods off their packet, and return how many: what a weld and `used` both say of one trip counts once.

    Welds say rods one weld at a time, `used` says them in heaps; the larger of the two sums is what was burned.
    Raises BadData where the packet has not so many.
    """
    from kitlist.store.tables import TripUseRow

    said = {"used": 0.0, "weld": 0.0}
    if trip is not None:
        found = change.connection.execute(
            "SELECT said_by, sum(said) FROM trip_use WHERE trip = ? AND kind = 'rod' AND thing = ? GROUP BY said_by",
            (trip, rod.name),
        )
        said |= dict(found)
    before = max(said.values())
    off = int(max(before, said[said_by] + count) - before) if any(said.values()) else count
    there = _found_count(change.connection, "rod", rod)
    if off > there:
        raise BadData(
            f"{off} of {rod.name}: {there} {'is' if there == 1 else 'are'} recorded", hint="Count what is left."
        )
    back = 0
    if off:
        back = int(rod.count) - (there - off)
        rod_events.taken(change, rod, count=off, left=there - off, on=on)
    if trip is not None:
        change.insert(
            TripUseRow(
                trip=trip,
                kind="rod",
                thing=rod.name,
                used=off,
                put_back=back,
                unit="",
                used_on=on,
                said=count,
                said_by=said_by,
            )
        )
    return off


@dataclass(frozen=True, slots=True)
class RodsUsed:
    """Rods that somebody said were used: what is left, on which trip it counts (None: on none), how many it took off
    now; the others had been said before, by a weld of that trip."""

    rod: Rod
    trip: str | None
    off: int


def used_rods(store: Store, name: str, count: int, *, on: date, trip: str | None = None) -> RodsUsed:
    """`count` rods of a packet were burnt or spoiled on a day: on the trip named, else on the one under way then.

    On a trip they are counted once with what its welds said. Raises BadData where there are not so many.
    """
    with store.writing() as change:
        rod = changes.find(change.connection, "rod", name)
        if not 1 <= count <= rod.count:
            raise BadData(f"{count} rods of {rod.name}: it holds {rod.count}", hint="Count what is left and edit it.")
        own = _under_way(change.connection, on) if trip is None else changes.find(change.connection, "trip", trip).name
        off = take_rods(change, own, rod, count, on, said_by="used")
        return RodsUsed(changes.find(change.connection, "rod", rod.name), own, off)


def _under_way(connection: sqlite3.Connection, on: date) -> str | None:
    """The trip under way on a day; of several the one that started last."""
    found = connection.execute(
        "SELECT name FROM trip WHERE starts_on <= ? AND ends_on >= ? AND removed_at IS NULL "
        "ORDER BY starts_on DESC, name",
        (on.isoformat(), on.isoformat()),
    ).fetchone()
    return None if found is None else str(found[0])


def _found_count(connection: sqlite3.Connection, kind: str, thing: Any) -> int:
    """How many there were by the newest answer that holds, else as recorded."""
    for answer in checked_off.newest(connection):
        if (answer.kind, answer.name, answer.expected) == (kind, thing.name, thing.count):
            return min(answer.count, int(thing.count)) if answer.answer is Answer.COUNTED else int(thing.count)
    return int(thing.count)


def _change(change: Writer, kind: str, thing: Any, **changed: Any) -> None:
    now = entry.build(kind, {name: plain(getattr(thing, name)) for name in thing.__slots__} | changed)
    changes.write(change, kind, thing.name, now)


def _number(value: float, unit: str) -> float | int:
    return round(value, 3) if unit else int(value)


def _use(row: Sequence[Any]) -> Use:
    trip, kind, thing, used, back, unit, used_on, back_on = row
    return Use(
        trip=trip,
        kind=kind,
        name=thing,
        used=used,
        put_back=back,
        unit=unit,
        used_on=date.fromisoformat(used_on),
        back_on=None if back_on is None else date.fromisoformat(back_on),
    )
