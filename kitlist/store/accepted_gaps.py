"""Gaps that somebody accepts for a trip: kept under a name of their own, taken back, accepted again."""

from __future__ import annotations

from collections.abc import Sequence

from kitlist.base import names
from kitlist.kit import Acceptance
from kitlist.store import changes, rows
from kitlist.store.opening import Store


def accept(store: Store, taken: Sequence[Acceptance]) -> None:
    """Keep acceptances, all of them together; one of the same name is replaced, also one that was taken back."""
    with store.writing() as change:
        for one in taken:
            change.noting.by(one.accepted_by)
            if one.name in rows.names_of(change.connection, "acceptance", where="1"):
                changes.mark_removed(change, "acceptance", one.name, None)
                changes.write(change, "acceptance", one.name, one)
            else:
                changes.insert(change, "acceptance", one)


def take_back(store: Store, *, rule: str, trip: str, subject: str = "") -> tuple[str, ...]:
    """Take back every acceptance of a rule for a trip, or the one about a subject; returns what each was about."""
    with store.writing() as change:
        kept = rows.things(change.connection, "acceptance")
        gone = [a for a in kept if a.rule == rule and a.trip == trip]
        if subject and gone:
            meant = names.resolve(subject, dict.fromkeys(a.subject for a in gone), what=f"accepted gap of {rule}")
            gone = [a for a in gone if a.subject == meant]
        for one in gone:
            changes.mark_removed(change, "acceptance", one.name, changes.now())
    return tuple(one.subject for one in gone)
