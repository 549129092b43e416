"""One read of the store into the frozen kit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from kitlist.fields import fields_of
from kitlist.kit import KINDS, PLURALS, Kit
from kitlist.store.opening import Store

if TYPE_CHECKING:
    from sqlmodel import Session, SQLModel

READINGS_KEPT = 12  # the newest readings of each battery that a judgement looks at


def snapshot(store: Store, *, trip: str | None = None) -> Kit:
    """The whole kit; with `trip`, the batteries and readings of that trip's vehicles and the loose ones only."""
    from sqlmodel import or_, select

    from kitlist.store.tables import BatteryRow, TripVehicleRow

    with store.reading() as session:
        parts: dict[str, tuple[Any, ...]] = {}
        for kind in KINDS:
            if kind in ("reading", "battery", "trip", "bead"):
                continue
            parts[PLURALS[kind]] = rows_to_kit(kind, _living(session, kind))
        batteries = select(BatteryRow).where(BatteryRow.removed_at.is_(None))  # type: ignore[union-attr]
        if trip is not None:
            going = select(TripVehicleRow.vehicle).where(TripVehicleRow.trip == trip)
            batteries = batteries.where(or_(BatteryRow.vehicle.is_(None), BatteryRow.vehicle.in_(going)))  # type: ignore
        parts["batteries"] = rows_to_kit("battery", session.exec(batteries.order_by("name")).all())
        parts["readings"] = rows_to_kit("reading", _newest(session, [b.name for b in parts["batteries"]]))
        for kind in ("trip", "bead"):
            parts[PLURALS[kind]] = rows_to_kit(kind, _living(session, kind), lists=lists_of(session, kind))
    return Kit(**parts)


def trips(store: Store) -> tuple[Any, ...]:
    """The trips alone, for finding the one that is meant."""
    with store.reading() as session:
        return rows_to_kit("trip", _living(session, "trip"), lists=lists_of(session, "trip"))


def _living(session: Session, kind: str) -> Sequence[SQLModel]:
    from sqlmodel import select

    from kitlist.store.tables import ROWS

    row: Any = ROWS[kind]
    return session.exec(select(row).where(row.removed_at.is_(None)).order_by(row.name)).all()


def _newest(session: Session, batteries: list[str]) -> list[SQLModel]:
    """The newest readings of each battery, newest first, each through the index."""
    from sqlmodel import col, select

    from kitlist.store.tables import ReadingRow

    found: list[SQLModel] = []
    for name in batteries:
        newest = select(ReadingRow).where(ReadingRow.battery == name, col(ReadingRow.removed_at).is_(None))
        found += session.exec(newest.order_by(col(ReadingRow.taken_at).desc()).limit(READINGS_KEPT)).all()
    return found


def lists_of(session: Session, kind: str) -> dict[str, dict[str, tuple[str, ...]]]:
    """The lists of every thing of one kind: name -> field -> members in order."""
    from sqlmodel import select

    from kitlist.store.tables import LISTS, MEMBERS

    found: dict[str, dict[str, list[str]]] = {}
    for field, row in LISTS.get(kind, {}).items():
        table: Any = row
        owner = getattr(table, kind)
        for line in session.exec(select(table).order_by(owner, table.position)):
            member = getattr(line, MEMBERS[field])
            found.setdefault(getattr(line, kind), {}).setdefault(field, []).append(member)
    return {name: {f: tuple(members) for f, members in lists.items()} for name, lists in found.items()}


def rows_to_kit(
    kind: str, rows: Iterable[SQLModel], *, lists: dict[str, dict[str, tuple[str, ...]]] | None = None
) -> tuple[Any, ...]:
    """Rows of one kind as the kit's dataclasses."""
    cls = KINDS[kind]
    columns = [(f.name, _reader(f.type)) for f in fields_of(cls) if f.type is not tuple]
    things = []
    for row in rows:
        values = {name: read(getattr(row, name)) for name, read in columns}
        things.append(cls(**values, **(lists or {}).get(values.get("name", ""), {})))
    return tuple(things)


def _reader(kind: Any) -> Any:
    if isinstance(kind, type) and (issubclass(kind, StrEnum) or kind is bool):
        return lambda value: None if value is None else kind(value)
    return lambda value: value
