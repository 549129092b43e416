"""Answers of going through the bags, each on disk before the next is asked; and the numbers of printed sheets."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from kitlist.base.errors import BadData, NotFound
from kitlist.kit.checked import Answer, CheckedOff
from kitlist.store import rows
from kitlist.store.opening import Store
from kitlist.trips import check_off

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.tables import CheckOffRow
    from kitlist.store.writer import Writer

_COLUMNS = "trip, kind, thing, answer, count, expected, checked_by, checked_at"
GivenAnswer = tuple[str, str, Answer, int]


def newest(
    connection: sqlite3.Connection, trip: str | None = None, *, going: str | None = None
) -> tuple[CheckedOff, ...]:
    """The newest answer about each thing that was not undone, oldest first.

    With `trip`, those that hold for its check-off; without, those of any trip, asked again since or not, but what was
    left at home: that holds for the trip that is `going` alone.
    """
    where, values = ("AND superseded = 0 AND trip = ?", (trip,)) if trip is not None else ("", ())
    if trip is None:
        where, values = "AND (answer <> 'home' OR trip IS ?)", (going or "",)
    found = connection.execute(
        f"SELECT {_COLUMNS}, max(id) FROM check_off WHERE undone_at IS NULL {where} "
        "GROUP BY kind, thing ORDER BY max(id)",
        values,
    )
    return tuple(
        CheckedOff(
            trip=of_trip,
            kind=kind,
            name=thing,
            answer=Answer(answer),
            count=count,
            expected=expected,
            checked_by=by,
            checked_at=datetime.fromisoformat(at),
        )
        for of_trip, kind, thing, answer, count, expected, by, at, _ in found
    )


def progress(store: Store, trip: str) -> tuple[check_off.Line, ...]:
    """Every line of a trip's check-off with its answer, from one view of the store."""
    from kitlist.kit import PLURALS, Kit

    with store.viewing() as connection:
        parts: dict[str, Any] = {PLURALS[kind]: rows.things(connection, kind) for kind in ("bag", *check_off.KINDS)}
        answers = newest(connection, trip)
    return check_off.lines(Kit(**parts), answers)


def record(store: Store, trip: str, told: Iterable[GivenAnswer], *, by: str, at: datetime) -> tuple[CheckedOff, ...]:
    """Keep answers, all of them or none: (kind, name, answer, count). Raises BadData, NotFound."""
    with store.writing() as change:
        return insert(change, trip, told, by=by, at=at)


def insert(change: Writer, trip: str, told: Iterable[GivenAnswer], *, by: str, at: datetime) -> tuple[CheckedOff, ...]:
    """Insert answers inside an open write."""
    from kitlist.store import changes  # what reads alone, as a judgement does, needs nothing that writes

    by = _name(by)
    change.noting.by(by)
    kept = []
    for kind, name, answer, count in told:
        thing = changes.find(change.connection, kind, name)
        kept.append(
            CheckedOff(
                trip=trip,
                kind=kind,
                name=thing.name,
                answer=answer,
                count=check_off.counted(thing, answer, count),
                expected=thing.count,
                checked_by=by,
                checked_at=at,
            )
        )
    for answered in kept:
        change.insert(_row(answered))
    return tuple(kept)


def undo(store: Store, trip: str, *, at: datetime, thing: tuple[str, str] | None = None) -> CheckedOff | None:
    """Take back the last answer of a trip, or the last about one thing, (kind, name); it stays in the history.

    None where there is none.
    """
    with store.writing() as change:
        return take_back(change, trip, at=at, thing=thing)


def take_back(change: Writer, trip: str, *, at: datetime, thing: tuple[str, str] | None = None) -> CheckedOff | None:
    """`undo` inside an open change."""
    from kitlist.store.tables import CheckOffRow

    connection = change.connection
    answers = [a for a in newest(connection, trip) if thing is None or (a.kind, a.name) == thing]
    if not answers:
        return None
    which, values = ("AND kind = ? AND thing = ?", thing) if thing else ("", ())
    (number,) = connection.execute(
        f"SELECT max(id) FROM check_off WHERE trip = ? AND superseded = 0 AND undone_at IS NULL {which}",
        (trip, *values),
    ).fetchone()
    change.update(CheckOffRow, {"id": number}, undone_at=at)
    return answers[-1]


def version(store: Store, trip: str) -> str:
    """A word that is another one whenever an answer of a trip was given, taken back or asked anew."""
    with store.viewing() as connection:
        last, undone, anew = connection.execute(
            "SELECT coalesce(max(id), 0), count(undone_at), coalesce(sum(superseded), 0) FROM check_off WHERE trip = ?",
            (trip,),
        ).fetchone()
    return f"{last}-{undone}-{anew}"


def begin_again(store: Store, trip: str) -> None:
    """Ask everything anew. What was found short stays short until it is answered again."""
    from kitlist.store.tables import CheckOffRow

    with store.writing() as change:
        change.update(CheckOffRow, {"trip": trip, "superseded": False}, superseded=True)


def last_by(store: Store, trip: str) -> str:
    """Who gave the last answer of a trip; "" where nobody has."""
    with store.viewing() as connection:
        found = connection.execute("SELECT checked_by FROM check_off WHERE trip = ? ORDER BY id DESC LIMIT 1", (trip,))
        return str((found.fetchone() or ("",))[0])


def remember_numbers(change: Writer, *, content_hash: str, trip: str, numbered: Sequence[check_off.Line]) -> None:
    """Keep which thing each number on a printed sheet is; a sheet that is printed again changes nothing."""
    from kitlist.store.tables import SheetItemRow

    for line in numbered:
        change.insert_if_new(
            SheetItemRow(content_hash=content_hash, number=line.number, trip=trip, kind=line.kind, thing=line.name)
        )


def sheets_of(store: Store, trip: str) -> tuple[str, ...]:
    """The hashes of the sheets that were printed of a trip, the newest first."""
    with store.viewing() as connection:
        found = connection.execute(
            "SELECT content_hash FROM sheet_item WHERE trip = ? GROUP BY content_hash ORDER BY max(rowid) DESC", (trip,)
        )
        return tuple(content_hash for (content_hash,) in found)


def sheet(store: Store, content_hash: str) -> tuple[str, dict[int, tuple[str, str]]]:
    """The trip of a printed sheet, and the thing behind each of its numbers. Raises NotFound for a sheet not kept."""
    with store.viewing() as connection:
        found = connection.execute(
            "SELECT trip, number, kind, thing FROM sheet_item WHERE content_hash = ?",
            (content_hash.strip().casefold(),),
        ).fetchall()
        known = [h for (h,) in connection.execute("SELECT DISTINCT content_hash FROM sheet_item LIMIT 6")]
    if not found:
        told = f"Sheets printed from this store: {', '.join(known)}." if known else "None was printed from this store."
        raise NotFound(f"no sheet printed here has the hash {content_hash[:20]!r}", hint=told)
    return found[0][0], {number: (kind, thing) for _, number, kind, thing in found}


def _name(by: str) -> str:
    from kitlist.kit import raw_values

    try:
        name = raw_values.one_line(by)
    except ValueError as error:
        raise BadData(f"who checked cannot be {by[:30]!r}: {error}") from None
    if not name:
        raise BadData("who checked is not said", hint="--by NAME")
    return name


def _row(answer: CheckedOff) -> CheckOffRow:
    from kitlist.store.tables import CheckOffRow

    return CheckOffRow(
        trip=answer.trip,
        kind=answer.kind,
        thing=answer.name,
        answer=str(answer.answer),
        count=answer.count,
        expected=answer.expected,
        checked_by=answer.checked_by,
        checked_at=answer.checked_at,
    )
