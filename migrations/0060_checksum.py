"""0060: a checksum beside what was measured or read from a label: SQLite does not see a bit that flips in a number.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

import zlib

from sqlite_utils import Database

SUMMED = {
    "reading": (
        "volts_v", "taken_at", "rested_h", "battery_temp_c", "load_a", "charging", "quick_load", "meter_accuracy_ratio",
    ),
    "bead": ("rest_v", "bank_v", "current_a", "holder_v", "meter_accuracy_ratio", "clamp_accuracy_ratio"),
    "weld": ("before_v", "after_v", "after_rested_h", "bank_v", "current_a", "holder_v"),
    "battery": ("c20_ah", "cranking_a", "tester_mohm"),
    "lead": ("area_mm2", "length_m", "measured_mohm"),
}  # fmt: skip


def checksum(values: tuple[object, ...]) -> int:
    """The sum of a row as the store of that day kept it."""
    return zlib.crc32(repr(values).encode())


def forward(db: Database) -> None:
    """Add the column and sum what is there; nobody can say whether a bit of that has flipped already."""
    for table, columns in SUMMED.items():
        db.execute(f"ALTER TABLE {table} ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0")
        rows = db.execute(f"SELECT rowid, {', '.join(columns)} FROM {table}").fetchall()
        sums = [(checksum(row[1:]), row[0]) for row in rows]
        db.conn.executemany(f"UPDATE {table} SET checksum = ? WHERE rowid = ?", sums)
