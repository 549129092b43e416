"""0031: the current under which a lead's plug may be pulled.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Add the column; of every lead so far nobody wrote it down."""
    db.execute("ALTER TABLE lead ADD COLUMN plug_breaks_a REAL CHECK (plug_breaks_a BETWEEN 10 AND 5000)")
