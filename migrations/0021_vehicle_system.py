"""0021: the system of a vehicle, how its starting batteries are joined, its alternator; a panel's or charger's watts.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

COLUMNS = (
    "ALTER TABLE vehicle ADD COLUMN system_v INTEGER NOT NULL DEFAULT 12 CHECK (system_v IN (12, 24))",
    "ALTER TABLE vehicle ADD COLUMN start_batteries TEXT NOT NULL DEFAULT 'single' "
    "CHECK (start_batteries IN ('single', 'twin', 'pair'))",
    "ALTER TABLE vehicle ADD COLUMN starts_on_one INTEGER CHECK (starts_on_one IN (0, 1))",
    "ALTER TABLE vehicle ADD COLUMN alternator_a REAL CHECK (alternator_a BETWEEN 10 AND 500)",
    "ALTER TABLE tool ADD COLUMN power_w REAL CHECK (power_w BETWEEN 1 AND 5000)",
)


def forward(db: Database) -> None:
    """Add the columns; every vehicle so far was taken for one of 12 V with one starting battery."""
    for statement in COLUMNS:
        db.execute(statement)
