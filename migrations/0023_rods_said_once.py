"""0023: who said that a thing was used, so that a rod which a weld took off is not taken off again by `used`.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

KINDS = ("gear", "lead", "ballast", "clamp", "rod", "tool", "item")
LISTED = "', '".join(KINDS)

TRIP_USE = f"""
    CREATE TABLE new_trip_use (
        id INTEGER PRIMARY KEY,
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        kind TEXT NOT NULL CHECK (kind IN ('{LISTED}')),
        thing TEXT NOT NULL COLLATE NOCASE CHECK (thing <> '' AND length(thing) <= 120),
        used REAL NOT NULL CHECK (used >= 0),
        put_back REAL NOT NULL CHECK (put_back >= 0),
        unit TEXT NOT NULL CHECK (unit IN ('', 'l')),
        used_on TEXT NOT NULL CHECK (used_on IS date(used_on)),
        back_on TEXT CHECK (back_on IS date(back_on)),
        said REAL NOT NULL CHECK (said > 0),
        said_by TEXT NOT NULL CHECK (said_by IN ('used', 'weld'))
    ) STRICT
"""


def forward(db: Database) -> None:
    """Make the table anew; all that was kept so far was said by `used`, and taken off as it was said."""
    triggers = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND sql LIKE '%trip_use%'")
    kept = [(name, sql) for name, sql in triggers.fetchall()]
    for name, _ in kept:
        db.execute(f"DROP TRIGGER {name}")
    db.execute(TRIP_USE)
    db.execute("INSERT INTO new_trip_use SELECT *, used, 'used' FROM trip_use")
    db.execute("DROP TABLE trip_use")
    db.execute("ALTER TABLE new_trip_use RENAME TO trip_use")
    db.execute("CREATE INDEX trip_use_of ON trip_use (trip)")
    for _, sql in kept:
        db.execute(sql)
