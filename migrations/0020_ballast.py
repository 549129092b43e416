"""0020: ballast strips, the one that belongs to a trip's bank, and their place in the bags.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

KINDS = ("gear", "lead", "ballast", "clamp", "rod", "tool", "item")
LISTED = "', '".join(KINDS)

BALLAST = """
    CREATE TABLE ballast (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        metal TEXT CHECK (metal IN ('stainless', 'mild')),
        width_mm REAL CHECK (width_mm BETWEEN 3 AND 200),
        thickness_mm REAL CHECK (thickness_mm BETWEEN 0.3 AND 12),
        length_m REAL CHECK (length_m BETWEEN 0.1 AND 50),
        measured_mohm REAL CHECK (measured_mohm BETWEEN 1 AND 1000),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 1000),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
"""
CHECK_OFF = f"""
    CREATE TABLE new_check_off (
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
"""
SHEET_ITEM = f"""
    CREATE TABLE new_sheet_item (
        content_hash TEXT NOT NULL CHECK (length(content_hash) = 8),
        number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 9999),
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        kind TEXT NOT NULL CHECK (kind IN ('{LISTED}')),
        thing TEXT NOT NULL COLLATE NOCASE CHECK (thing <> '' AND length(thing) <= 120),
        PRIMARY KEY (content_hash, number)
    ) STRICT
"""
TRIP_USE = f"""
    CREATE TABLE new_trip_use (
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
"""


def forward(db: Database) -> None:
    """Create the table; three others are made anew because each lists the kinds that lie in a bag."""
    db.execute(BALLAST)
    db.execute("ALTER TABLE trip ADD COLUMN ballast TEXT COLLATE NOCASE REFERENCES ballast (name) ON UPDATE CASCADE")
    triggers = [
        (name, sql)
        for name, sql in db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        if any(table in sql for table in ("check_off", "sheet_item", "trip_use"))
    ]
    for name, _ in triggers:
        db.execute(f"DROP TRIGGER {name}")
    for table, statement in (("check_off", CHECK_OFF), ("sheet_item", SHEET_ITEM), ("trip_use", TRIP_USE)):
        db.execute(statement)
        db.execute(f"INSERT INTO new_{table} SELECT * FROM {table}")
        db.execute(f"DROP TABLE {table}")
        db.execute(f"ALTER TABLE new_{table} RENAME TO {table}")
    db.execute("CREATE INDEX check_off_newest ON check_off (trip, id DESC) WHERE undone_at IS NULL")
    db.execute("CREATE INDEX trip_use_of ON trip_use (trip)")
    for _, sql in triggers:
        db.execute(sql)
    db.execute("""
        CREATE TRIGGER ballast_renamed AFTER UPDATE OF name ON ballast WHEN OLD.name <> NEW.name BEGIN
            UPDATE check_off SET thing = NEW.name WHERE kind = 'ballast' AND thing = OLD.name;
            UPDATE sheet_item SET thing = NEW.name WHERE kind = 'ballast' AND thing = OLD.name;
            UPDATE trip_use SET thing = NEW.name WHERE kind = 'ballast' AND thing = OLD.name;
        END
        """)
