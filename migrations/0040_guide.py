"""0040: the answers of the guided start, so that it goes on where it was stopped.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Make the table; it begins empty."""
    db.execute(
        """
        CREATE TABLE guide_answer (
            position INTEGER PRIMARY KEY,
            question TEXT NOT NULL UNIQUE CHECK (length(question) BETWEEN 1 AND 300),
            answer TEXT NOT NULL
        ) STRICT
        """
    )
