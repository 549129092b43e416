"""0022: the welds of a trip: which bank, how many rods, volts before and after.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLES = (
    """
    CREATE TABLE weld (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        welded_on TEXT NOT NULL CHECK (welded_on IS date(welded_on)),
        rods INTEGER NOT NULL CHECK (rods BETWEEN 0 AND 500),
        bank_strings INTEGER NOT NULL CHECK (bank_strings BETWEEN 1 AND 4),
        trip TEXT COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        repair TEXT COLLATE NOCASE REFERENCES repair (name) ON UPDATE CASCADE,
        rod TEXT COLLATE NOCASE REFERENCES rod (name) ON UPDATE CASCADE,
        ballast TEXT COLLATE NOCASE REFERENCES ballast (name) ON UPDATE CASCADE,
        before_v REAL CHECK (before_v BETWEEN 8 AND 60),
        after_v REAL CHECK (after_v BETWEEN 8 AND 60),
        after_rested_h REAL CHECK (after_rested_h BETWEEN 0 AND 9000),
        bank_v REAL CHECK (bank_v BETWEEN 5 AND 60),
        current_a REAL CHECK (current_a BETWEEN 10 AND 1000),
        holder_v REAL CHECK (holder_v BETWEEN 5 AND 60),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE weld_battery (
        weld TEXT NOT NULL COLLATE NOCASE REFERENCES weld (name) ON UPDATE CASCADE ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 999),
        battery TEXT NOT NULL COLLATE NOCASE REFERENCES battery (name) ON UPDATE CASCADE,
        PRIMARY KEY (weld, position),
        UNIQUE (weld, battery)
    ) STRICT
    """,
)


def forward(db: Database) -> None:
    """Create the record of welds."""
    for statement in TABLES:
        db.execute(statement)
