"""0076: a pocket page is remembered like a sheet and a card, so that one of an older kit is noticed.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

PRINTED = """
    CREATE TABLE new_printed (
        id INTEGER PRIMARY KEY,
        paper TEXT NOT NULL CHECK (paper IN ('sheet', 'card', 'pocket')),
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        content_hash TEXT NOT NULL CHECK (length(content_hash) = 8),
        revision INTEGER NOT NULL CHECK (revision >= 1),
        printed_on TEXT NOT NULL CHECK (printed_on IS date(printed_on)),
        bank TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(bank)),
        basis TEXT NOT NULL DEFAULT '' CHECK (length(basis) IN (0, 16)),
        lines TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(lines))
    ) STRICT
"""


def forward(db: Database) -> None:
    """Make the table anew with the third kind of paper; what was printed stays, row by row."""
    db.execute(PRINTED)
    db.execute("INSERT INTO new_printed SELECT * FROM printed")
    db.execute("DROP TABLE printed")
    db.execute("ALTER TABLE new_printed RENAME TO printed")
    db.execute("CREATE INDEX printed_newest ON printed (trip, paper, revision DESC)")
