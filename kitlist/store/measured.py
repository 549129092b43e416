"""A checksum in each row of what was measured or read from a label.

SQLite's own check does not see a bit that flips in a stored number, and a voltage that is wrong by a tenth decides
between go and no go. What does not agree with its sum is told whenever it is read, before anything goes out.
References are left out: a battery that is renamed carries its readings along.
"""

from __future__ import annotations

import zlib
from collections.abc import Mapping
from typing import Any

SUMMED: dict[str, tuple[str, ...]] = {
    "reading": (
        "volts_v", "taken_at", "rested_h", "battery_temp_c", "load_a", "charging", "quick_load", "meter_accuracy_ratio",
    ),
    "bead": ("rest_v", "bank_v", "current_a", "holder_v", "meter_accuracy_ratio", "clamp_accuracy_ratio"),
    "weld": ("before_v", "after_v", "after_rested_h", "bank_v", "current_a", "holder_v"),
    "battery": ("c20_ah", "cranking_a", "tester_mohm"),
    "lead": ("area_mm2", "length_m", "measured_mohm"),
}  # fmt: skip
"""The columns that a row's sum is of, by table. Another column here needs a migration that sums anew."""

COLUMN = "checksum"


class WrongSum(Exception):
    """A row does not agree with its sum; says which thing, and the command that takes it out."""

    def __init__(self, message: str, *, way_out: str) -> None:
        super().__init__(message)
        self.way_out = way_out


def checksum(values: tuple[Any, ...]) -> int:
    """The sum of some columns; yes and no count as the 1 and 0 that the store gives back.

    >>> checksum((12.7, "2027-05-01", None, True)) == checksum((12.7, "2027-05-01", None, 1))
    True
    """
    return zlib.crc32(repr(values).replace("True", "1").replace("False", "0").encode())


def sum_of(table: str, row: Mapping[str, Any]) -> int:
    """The sum of a row given by column; a column that is not there counts as not known."""
    return checksum(tuple(row.get(column) for column in SUMMED[table]))
