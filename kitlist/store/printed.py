"""What was printed: papers are numbered, so that a stale one in a glovebox can be told from a new one."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from kitlist.store.opening import Store

if TYPE_CHECKING:
    from kitlist.store.tables import PrintedRow


def revision_of(store: Store, *, paper: str, trip: str, content_hash: str) -> int:
    """The revision of a paper of this content, printed or about to be: the same content keeps its own."""
    with store.reading() as session:
        last = _last(session, paper, trip)
    if last is None:
        return 1
    return last.revision if last.content_hash == content_hash else last.revision + 1


def remember(store: Store, *, paper: str, trip: str, content_hash: str, revision: int, on: date) -> None:
    """Keep that a paper was printed; printing the same content again adds nothing."""
    from kitlist.store.tables import PrintedRow

    with store.writing() as session:
        last = _last(session, paper, trip)
        if last is None or last.content_hash != content_hash:
            session.add(PrintedRow(paper=paper, trip=trip, content_hash=content_hash, revision=revision, printed_on=on))


def _last(session: Any, paper: str, trip: str) -> PrintedRow | None:
    from sqlmodel import col, select

    from kitlist.store.tables import PrintedRow

    rows = select(PrintedRow).where(PrintedRow.paper == paper, PrintedRow.trip == trip)
    found: PrintedRow | None = session.exec(rows.order_by(col(PrintedRow.revision).desc()).limit(1)).first()
    return found
