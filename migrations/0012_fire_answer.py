"""0012: whom to ask about fire rules, and the answer in its own words.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Add the columns; of every trip so far nobody wrote either down."""
    for column in ("fire_authority", "fire_answer"):
        db.execute(f"ALTER TABLE trip ADD COLUMN {column} TEXT NOT NULL DEFAULT '' CHECK (length({column}) <= 120)")
