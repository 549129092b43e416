"""0009: how far an accepted gap fell short, so that one which has become worse counts again.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Add the column."""
    db.execute("ALTER TABLE acceptance ADD COLUMN short_by REAL CHECK (short_by >= 0)")
