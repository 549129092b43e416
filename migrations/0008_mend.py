"""0008: repairs that were made in the field, the looks at them, and how they were put right.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLES = (
    """
    CREATE TABLE mend (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        part TEXT NOT NULL CHECK (part <> '' AND length(part) <= 120),
        welded_on TEXT NOT NULL CHECK (welded_on IS date(welded_on)),
        vehicle TEXT COLLATE NOCASE REFERENCES vehicle (name) ON UPDATE CASCADE,
        spot TEXT NOT NULL CHECK (length(spot) <= 120),
        trip TEXT COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        rod TEXT COLLATE NOCASE REFERENCES rod (name) ON UPDATE CASCADE,
        current_a REAL CHECK (current_a BETWEEN 10 AND 1000),
        photo TEXT NOT NULL CHECK (length(photo) <= 120),
        sound_at_5_km INTEGER CHECK (sound_at_5_km IN (0, 1)),
        sound_at_50_km INTEGER CHECK (sound_at_50_km IN (0, 1)),
        sound_after_a_day INTEGER CHECK (sound_after_a_day IN (0, 1)),
        settled TEXT CHECK (settled IN ('repaired', 'replaced')),
        settled_on TEXT CHECK (settled_on IS date(settled_on)),
        settled_by TEXT NOT NULL CHECK (length(settled_by) <= 120),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at),
        CHECK ((settled IS NULL) = (settled_on IS NULL) AND (settled IS NULL) = (settled_by = ''))
    ) STRICT
    """,
    """
    CREATE TABLE mend_battery (
        mend TEXT NOT NULL COLLATE NOCASE REFERENCES mend (name) ON UPDATE CASCADE ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 999),
        battery TEXT NOT NULL COLLATE NOCASE REFERENCES battery (name) ON UPDATE CASCADE,
        PRIMARY KEY (mend, position),
        UNIQUE (mend, battery)
    ) STRICT
    """,
)


def forward(db: Database) -> None:
    """Create the register of repairs made."""
    for statement in TABLES:
        db.execute(statement)
