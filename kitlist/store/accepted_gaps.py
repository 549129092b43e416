"""Gaps that somebody takes on for a trip: kept under a name of their own, taken back, taken on again."""

from __future__ import annotations

from collections.abc import Sequence

from kitlist.kit import Acceptance
from kitlist.store import changes
from kitlist.store.opening import Store


def accept(store: Store, taken: Sequence[Acceptance]) -> None:
    """Keep acceptances, all of them together; one of the same name is replaced, also one that was taken back."""
    with store.writing() as session:
        for one in taken:
            changes.raw(session).execute("UPDATE acceptance SET removed_at = NULL WHERE name = ?", (one.name,))
            if one.name in changes.living_names(session, "acceptance"):
                changes.write(session, "acceptance", one.name, one)
            else:
                changes.insert(session, "acceptance", one)


def take_back(store: Store, *, rule: str, trip: str) -> tuple[str, ...]:
    """Take back every acceptance of a rule for a trip; returns what each was about."""
    from kitlist.store.snapshot import snapshot

    gone = [a for a in snapshot(store).acceptances if a.rule == rule and a.trip == trip]
    for one in gone:
        changes.remove(store, "acceptance", one.name)
    return tuple(one.subject for one in gone)
