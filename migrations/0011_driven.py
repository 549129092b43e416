"""0011: when a vehicle's engine last ran; readings of its batteries from before it count no more.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Add the column; of every vehicle so far it is not known."""
    db.execute(
        "ALTER TABLE vehicle ADD COLUMN driven_at TEXT CHECK (driven_at IS NULL OR datetime(driven_at) IS NOT NULL)"
    )
