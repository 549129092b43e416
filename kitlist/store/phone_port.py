"""The port that the phone page listens on, kept so that what a phone holds back is in reach again after a restart.

A browser keeps what it holds back by address and port: on another port it is out of reach.
"""

from __future__ import annotations

from kitlist.store.opening import Store


def kept(store: Store) -> int | None:
    """The port of the last run; None before the first."""
    with store.viewing() as connection:
        found = connection.execute("SELECT port FROM phone_port").fetchone()
    return int(found[0]) if found else None


def keep(store: Store, port: int) -> None:
    """Remember the port of this run."""
    with store.writing() as change:  # not a row that is noted: no command of an owner's is there to be taken back
        change.connection.execute("INSERT OR REPLACE INTO phone_port (id, port) VALUES (1, ?)", (port,))
