"""0045: what phones have sent, each entry once by its word; and the port of the phone page.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Make the two tables; they begin empty."""
    db.execute(
        """
        CREATE TABLE pocket_taken (
            word TEXT PRIMARY KEY CHECK (length(word) BETWEEN 8 AND 40),
            kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 20),
            taken_at TEXT NOT NULL
        ) STRICT
        """
    )
    db.execute(
        """
        CREATE TABLE phone_port (
            id INTEGER PRIMARY KEY CHECK (id = 1),
            port INTEGER NOT NULL CHECK (port BETWEEN 1 AND 65535)
        ) STRICT
        """
    )
