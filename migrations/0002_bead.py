"""0002: practice welds with their meter readings, and the batteries they were welded from.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLES = (
    """
    CREATE TABLE bead (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        welded_on TEXT NOT NULL CHECK (welded_on IS date(welded_on)),
        bank_strings INTEGER NOT NULL CHECK (bank_strings BETWEEN 1 AND 4),
        rod TEXT COLLATE NOCASE REFERENCES rod (name) ON UPDATE CASCADE,
        rest_v REAL NOT NULL CHECK (rest_v BETWEEN 8 AND 60),
        bank_v REAL NOT NULL CHECK (bank_v BETWEEN 5 AND 60),
        current_a REAL NOT NULL CHECK (current_a BETWEEN 10 AND 1000),
        holder_v REAL CHECK (holder_v BETWEEN 5 AND 60),
        meter_accuracy_ratio REAL CHECK (meter_accuracy_ratio BETWEEN 0 AND 0.1),
        clamp_accuracy_ratio REAL CHECK (clamp_accuracy_ratio BETWEEN 0 AND 0.1),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE bead_battery (
        bead TEXT NOT NULL COLLATE NOCASE REFERENCES bead (name) ON UPDATE CASCADE ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 999),
        battery TEXT NOT NULL COLLATE NOCASE REFERENCES battery (name) ON UPDATE CASCADE,
        PRIMARY KEY (bead, position),
        UNIQUE (bead, battery)
    ) STRICT
    """,
)


def forward(db: Database) -> None:
    """Create the tables of practice welds."""
    for statement in TABLES:
        db.execute(statement)
