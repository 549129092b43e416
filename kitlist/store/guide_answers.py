"""What the guided start has asked already, in order: it goes on where it was stopped."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from kitlist.store.opening import Store

if TYPE_CHECKING:
    from kitlist.store.writer import Writer


def answers(store: Store) -> dict[str, str]:
    """Every question that was answered or passed over, in the order of the answers."""
    with store.viewing() as connection:
        return dict(connection.execute("SELECT question, answer FROM guide_answer ORDER BY position"))


def keep_within(change: Writer, before: Mapping[str, str], now: Mapping[str, str]) -> None:
    """Keep what is new among the answers, and forget what is asked again, in the change that the answer makes."""
    for question in [question for question in before if question not in now]:
        change.delete("guide_answer", {"question": question})
    (last,) = change.connection.execute("SELECT coalesce(max(position), 0) FROM guide_answer").fetchone()
    fresh = [question for question in now if question not in before]
    for position, question in enumerate(fresh, start=int(last) + 1):
        change.insert_values("guide_answer", {"position": position, "question": question, "answer": now[question]})
