"""0006: going through the bags before a trip, answer by answer, and the numbers of the lines on a printed sheet.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

KINDS = ("gear", "lead", "clamp", "rod", "tool", "item")
LISTED = "', '".join(KINDS)

STATEMENTS = (
    f"""
    CREATE TABLE check_off (
        id INTEGER PRIMARY KEY,
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        kind TEXT NOT NULL CHECK (kind IN ('{LISTED}')),
        thing TEXT NOT NULL COLLATE NOCASE CHECK (thing <> '' AND length(thing) <= 120),
        answer TEXT NOT NULL CHECK (answer IN ('there', 'missing', 'damaged', 'counted')),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 5000),
        expected INTEGER NOT NULL CHECK (expected BETWEEN 0 AND 5000),
        checked_by TEXT NOT NULL CHECK (checked_by <> '' AND length(checked_by) <= 120),
        checked_at TEXT NOT NULL,
        superseded INTEGER NOT NULL DEFAULT 0 CHECK (superseded IN (0, 1)),
        undone_at TEXT
    ) STRICT
    """,
    "CREATE INDEX check_off_newest ON check_off (trip, id DESC) WHERE undone_at IS NULL",
    f"""
    CREATE TABLE sheet_item (
        content_hash TEXT NOT NULL CHECK (length(content_hash) = 8),
        number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 9999),
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        kind TEXT NOT NULL CHECK (kind IN ('{LISTED}')),
        thing TEXT NOT NULL COLLATE NOCASE CHECK (thing <> '' AND length(thing) <= 120),
        PRIMARY KEY (content_hash, number)
    ) STRICT
    """,
    *(
        f"""
        CREATE TRIGGER {kind}_renamed AFTER UPDATE OF name ON {kind} WHEN OLD.name <> NEW.name BEGIN
            UPDATE check_off SET thing = NEW.name WHERE kind = '{kind}' AND thing = OLD.name;
            UPDATE sheet_item SET thing = NEW.name WHERE kind = '{kind}' AND thing = OLD.name;
        END
        """
        for kind in KINDS
    ),
)


def forward(db: Database) -> None:
    """Create both tables; a thing that is renamed keeps its answers."""
    for statement in STATEMENTS:
        db.execute(statement)
