"""0003: what happened to a packet of rods: opened, used, baked.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLE = """
    CREATE TABLE rod_event (
        id INTEGER PRIMARY KEY,
        rod TEXT NOT NULL COLLATE NOCASE REFERENCES rod (name) ON UPDATE CASCADE,
        what TEXT NOT NULL CHECK (what IN ('opened', 'used', 'baked')),
        happened_on TEXT NOT NULL CHECK (happened_on IS date(happened_on)),
        count INTEGER CHECK (count BETWEEN 0 AND 5000),
        note TEXT NOT NULL CHECK (length(note) <= 120)
    ) STRICT
"""


def forward(db: Database) -> None:
    """Create the history of rods."""
    db.execute(TABLE)
    db.execute("CREATE INDEX rod_event_newest ON rod_event (rod, happened_on DESC)")
