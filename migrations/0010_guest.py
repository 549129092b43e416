"""0010: whose a companion's vehicle is; empty for the kit's own.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Add the column; every vehicle so far is the kit's own."""
    db.execute("ALTER TABLE vehicle ADD COLUMN guest_of TEXT NOT NULL DEFAULT '' CHECK (length(guest_of) <= 60)")
