"""0062: an answer of a check-off may be that a thing was left at home; and the day a battery last welded elsewhere.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

KINDS = ("gear", "lead", "ballast", "clamp", "rod", "tool", "item")
LISTED = "', '".join(KINDS)
CHECK_OFF = f"""
    CREATE TABLE new_check_off (
        id INTEGER PRIMARY KEY,
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        kind TEXT NOT NULL CHECK (kind IN ('{LISTED}')),
        thing TEXT NOT NULL COLLATE NOCASE CHECK (thing <> '' AND length(thing) <= 120),
        answer TEXT NOT NULL CHECK (answer IN ('there', 'missing', 'damaged', 'counted', 'home')),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 5000),
        expected INTEGER NOT NULL CHECK (expected BETWEEN 0 AND 5000),
        checked_by TEXT NOT NULL CHECK (checked_by <> '' AND length(checked_by) <= 120),
        checked_at TEXT NOT NULL,
        superseded INTEGER NOT NULL DEFAULT 0 CHECK (superseded IN (0, 1)),
        undone_at TEXT
    ) STRICT
"""


def forward(db: Database) -> None:
    """Make the table anew because it lists the answers; the triggers that name it are put back as they were."""
    triggers = [
        (name, sql)
        for name, sql in db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        if "check_off" in sql
    ]
    for name, _ in triggers:
        db.execute(f"DROP TRIGGER {name}")
    db.execute(CHECK_OFF)
    db.execute("INSERT INTO new_check_off SELECT * FROM check_off")
    db.execute("DROP TABLE check_off")
    db.execute("ALTER TABLE new_check_off RENAME TO check_off")
    db.execute("CREATE INDEX check_off_newest ON check_off (trip, id DESC) WHERE undone_at IS NULL")
    for _, sql in triggers:
        db.execute(sql)
    db.execute("ALTER TABLE battery ADD COLUMN welded_on TEXT CHECK (welded_on IS date(welded_on))")
