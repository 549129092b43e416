"""0013: the journal: every command that changed the store, and every row that it changed, before and after.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

STATEMENTS = (
    """
    CREATE TABLE journal (
        id INTEGER PRIMARY KEY,
        at TEXT NOT NULL CHECK (datetime(at) IS at),
        words TEXT NOT NULL CHECK (length(words) <= 500),
        who TEXT NOT NULL CHECK (length(who) <= 120),
        undoes INTEGER,
        undone_by INTEGER,
        lasting INTEGER NOT NULL CHECK (lasting IN (0, 1)),
        size INTEGER NOT NULL CHECK (size >= 0)
    ) STRICT
    """,
    """
    CREATE TABLE journal_change (
        id INTEGER PRIMARY KEY,
        journal INTEGER NOT NULL REFERENCES journal (id) ON DELETE CASCADE,
        what TEXT NOT NULL CHECK (what <> ''),
        before TEXT CHECK (before IS NULL OR json_valid(before)),
        after TEXT CHECK (after IS NULL OR json_valid(after)),
        first_row INTEGER,
        last_row INTEGER CHECK (last_row >= first_row)
    ) STRICT
    """,
    "CREATE INDEX journal_change_of ON journal_change (journal)",
)


def forward(db: Database) -> None:
    """Create the journal; it begins empty, for nobody wrote down what was changed before."""
    for statement in STATEMENTS:
        db.execute(statement)
