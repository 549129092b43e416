"""What was printed: papers are numbered, so that a stale one in a glovebox can be told from a new one."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from kitlist.kit.printed import PrintedPaper
from kitlist.store import checked_off
from kitlist.store.opening import Store

if TYPE_CHECKING:
    import sqlite3

    from kitlist.trips.check_off import Line

Strings = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class _Row:
    """One print as the store has it."""

    number: int
    content_hash: str
    revision: int
    printed_on: str
    bank: str
    lines: str


@dataclass(frozen=True, slots=True)
class Before:
    """A print before this one: its revision, its day, and the digests of its lines."""

    revision: int
    printed_on: date
    lines: frozenset[str]


@dataclass(frozen=True, slots=True)
class Numbering:
    """The revision that a paper has, or is about to get, and the newest print before it that said something else."""

    revision: int
    before: Before | None


def numbering(store: Store, *, paper: str, trip: str, content_hash: str, strings: Strings = ()) -> Numbering:
    """Number a paper of this content. Printed again unchanged it keeps its number; a trip's cards share one count."""
    with store.viewing() as connection:
        rows = _rows(connection, paper, trip)
    own = [row for row in rows if row.bank in (_bank(strings), "[]")]
    if own and own[0].content_hash == content_hash:
        return Numbering(own[0].revision, _before(own[1:]))
    return Numbering(rows[0].revision + 1 if rows else 1, _before(own))


def remember(
    store: Store,
    *,
    paper: str,
    trip: str,
    content_hash: str,
    revision: int,
    on: date,
    lines: frozenset[str] = frozenset(),
    strings: Strings = (),
    basis: str = "",
    numbered: Sequence[Line] = (),
) -> None:
    """Keep that a paper was printed, and which thing each number on it is, all together.

    Printing the same revision again adds nothing but a basis not kept before.
    """
    from kitlist.store.tables import PrintedRow

    bank, said = _bank(strings), json.dumps(sorted(lines))
    with store.writing() as change:
        checked_off.remember_numbers(change, content_hash=content_hash, trip=trip, numbered=numbered)
        for row in _rows(change.connection, paper, trip):
            if row.revision == revision and row.content_hash == content_hash:
                change.update(PrintedRow, {"id": row.number}, bank=bank, basis=basis, lines=said)
                break
        else:
            change.insert(
                PrintedRow(
                    paper=paper,
                    trip=trip,
                    content_hash=content_hash,
                    revision=revision,
                    printed_on=on,
                    bank=bank,
                    basis=basis,
                    lines=said,
                )
            )


def newest(connection: sqlite3.Connection, trip: str | None = None) -> tuple[PrintedPaper, ...]:
    """The newest print of each trip's sheet and of its card for each bank, as the kit holds them."""
    where, values = ("WHERE trip = ?", (trip,)) if trip is not None else ("", ())
    rows = connection.execute(
        f"SELECT paper, trip, bank, content_hash, printed_on, basis, max(revision) FROM printed {where} "
        "GROUP BY trip, paper, bank ORDER BY trip, paper, bank",
        values,
    )
    papers = [
        PrintedPaper(
            paper=paper,
            trip=of_trip,
            content_hash=content_hash,
            revision=revision,
            printed_on=date.fromisoformat(printed_on),
            strings=tuple(tuple(string) for string in json.loads(bank)),
            basis=basis,
        )
        for paper, of_trip, bank, content_hash, printed_on, basis, revision in rows
    ]
    return tuple(paper for paper in papers if not _superseded(paper, papers))


def _superseded(paper: PrintedPaper, papers: list[PrintedPaper]) -> bool:
    """Whether a card whose bank was never kept has been printed anew since."""
    unknown = paper.paper == "card" and not paper.strings
    return unknown and any(p.paper == "card" and p.trip == paper.trip and p.revision > paper.revision for p in papers)


def _before(rows: list[_Row]) -> Before | None:
    """The newest of them that kept its lines."""
    kept = next((row for row in rows if row.lines != "[]"), None)
    if kept is None:
        return None
    return Before(kept.revision, date.fromisoformat(kept.printed_on), frozenset(json.loads(kept.lines)))


def _bank(strings: Strings) -> str:
    return json.dumps(strings, ensure_ascii=False)


def _rows(connection: sqlite3.Connection, paper: str, trip: str) -> list[_Row]:
    """All prints of a trip's paper, the newest revision first."""
    found = connection.execute(
        "SELECT id, content_hash, revision, printed_on, bank, lines FROM printed "
        "WHERE trip = ? AND paper = ? ORDER BY revision DESC",
        (trip, paper),
    )
    return [_Row(*row) for row in found]
