"""0004: what a printed paper said: its lines, to mark changes on the next one; a card's bank and what it was made from.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

COLUMNS = (
    "ALTER TABLE printed ADD COLUMN bank TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(bank))",
    "ALTER TABLE printed ADD COLUMN basis TEXT NOT NULL DEFAULT '' CHECK (length(basis) IN (0, 16))",
    "ALTER TABLE printed ADD COLUMN lines TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(lines))",
)


def forward(db: Database) -> None:
    """Widen the memory of what was printed; papers printed before have no lines, bank or basis."""
    for statement in COLUMNS:
        db.execute(statement)
    db.execute("CREATE INDEX printed_newest ON printed (trip, paper, revision DESC)")
