"""0007: what a trip took: things used, to be put back, and batteries that were linked.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

KINDS = ("gear", "lead", "clamp", "rod", "tool", "item")
LISTED = "', '".join(KINDS)

STATEMENTS = (
    f"""
    CREATE TABLE trip_use (
        id INTEGER PRIMARY KEY,
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        kind TEXT NOT NULL CHECK (kind IN ('{LISTED}')),
        thing TEXT NOT NULL COLLATE NOCASE CHECK (thing <> '' AND length(thing) <= 120),
        used REAL NOT NULL CHECK (used > 0),
        put_back REAL NOT NULL CHECK (put_back > 0),
        unit TEXT NOT NULL CHECK (unit IN ('', 'l')),
        used_on TEXT NOT NULL CHECK (used_on IS date(used_on)),
        back_on TEXT CHECK (back_on IS date(back_on))
    ) STRICT
    """,
    "CREATE INDEX trip_use_of ON trip_use (trip)",
    """
    CREATE TABLE linked_battery (
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        battery TEXT NOT NULL COLLATE NOCASE REFERENCES battery (name) ON UPDATE CASCADE,
        linked_on TEXT NOT NULL CHECK (linked_on IS date(linked_on)),
        strings INTEGER NOT NULL CHECK (strings BETWEEN 1 AND 4),
        PRIMARY KEY (trip, battery, linked_on)
    ) STRICT
    """,
    *(
        f"""
        CREATE TRIGGER {kind}_renamed_use AFTER UPDATE OF name ON {kind} WHEN OLD.name <> NEW.name BEGIN
            UPDATE trip_use SET thing = NEW.name WHERE kind = '{kind}' AND thing = OLD.name;
        END
        """
        for kind in KINDS
    ),
)


def forward(db: Database) -> None:
    """Create both tables; a thing that is renamed keeps its uses."""
    for statement in STATEMENTS:
        db.execute(statement)
