"""0030: what lay behind a weld and who took it away, who allowed a part, who keeps away, where a battery sits, splices.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

TEXTS = (
    ("repair", "cleared"),
    ("repair", "cleared_by"),
    ("repair", "allowed_by"),
    ("trip", "keep_away"),
    ("trip", "keep_away_asked"),
)
SITES = "'bonnet', 'tray', 'chassis', 'boot', 'cabin', 'under-seat', 'unknown'"


def forward(db: Database) -> None:
    """Add the columns; of everything so far nobody wrote any of it down."""
    for table, column in TEXTS:
        db.execute(f"ALTER TABLE {table} ADD COLUMN {column} TEXT NOT NULL DEFAULT '' CHECK (length({column}) <= 120)")
    db.execute(f"ALTER TABLE battery ADD COLUMN sits TEXT NOT NULL DEFAULT 'unknown' CHECK (sits IN ({SITES}))")
    db.execute("ALTER TABLE lead ADD COLUMN splice_m REAL CHECK (splice_m BETWEEN 0 AND 60)")
    db.execute("ALTER TABLE lead ADD COLUMN splice_insulated INTEGER CHECK (splice_insulated IN (0, 1))")
