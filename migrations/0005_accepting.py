"""0005: accepted gaps, owners' own items; ratings of fitted holders, helmets' cells, what insulates, what lies behind.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

STATEMENTS = (
    """
    CREATE TABLE item (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        must_carry INTEGER NOT NULL CHECK (must_carry BETWEEN 0 AND 1000),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 1000),
        expires_on TEXT CHECK (expires_on IS date(expires_on)),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE acceptance (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        rule TEXT NOT NULL CHECK (rule <> '' AND length(rule) <= 120),
        subject TEXT NOT NULL CHECK (subject <> '' AND length(subject) <= 120),
        severity TEXT NOT NULL CHECK (severity IN ('stop', 'fix', 'note')),
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        accepted_by TEXT NOT NULL CHECK (accepted_by <> '' AND length(accepted_by) <= 120),
        reason TEXT NOT NULL CHECK (reason <> '' AND length(reason) <= 120),
        accepted_on TEXT NOT NULL CHECK (accepted_on IS date(accepted_on)),
        until TEXT NOT NULL CHECK (until IS date(until)),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    "ALTER TABLE lead ADD COLUMN rating_a REAL CHECK (rating_a BETWEEN 10 AND 1000)",
    "ALTER TABLE gear ADD COLUMN cell_changed_on TEXT CHECK (cell_changed_on IS date(cell_changed_on))",
    "ALTER TABLE tool ADD COLUMN insulating INTEGER CHECK (insulating IN (0, 1))",
    "ALTER TABLE repair ADD COLUMN behind TEXT NOT NULL DEFAULT '' CHECK (length(behind) <= 120)",
)


def forward(db: Database) -> None:
    """Create the two tables and add the four columns."""
    for statement in STATEMENTS:
        db.execute(statement)
