"""0061: the settings of the store: units beside the metric ones, paper, and who gives the commands.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database


def forward(db: Database) -> None:
    """Make the table; without its one row every setting is as it was before there were any."""
    db.execute(
        """
        CREATE TABLE setting (
            id INTEGER PRIMARY KEY CHECK (id = 1),
            units TEXT NOT NULL CHECK (units IN ('metric', 'imperial')),
            paper TEXT NOT NULL CHECK (paper IN ('A4', 'letter')),
            given_by TEXT NOT NULL CHECK (length(given_by) <= 120)
        ) STRICT
        """
    )
