"""0024: the ballast strip that was in the circuit of a practice weld.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Add the column; no practice weld so far was made with a strip that the kit knew."""
    db.execute("ALTER TABLE bead ADD COLUMN ballast TEXT COLLATE NOCASE REFERENCES ballast (name) ON UPDATE CASCADE")
