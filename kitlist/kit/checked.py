"""An answer given while going through the bags, as the kit remembers it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Answer(StrEnum):
    """What was found: there and sound, missing, damaged, or so many sound ones counted; or left at home on purpose."""

    THERE = "there"
    MISSING = "missing"
    DAMAGED = "damaged"
    COUNTED = "counted"
    HOME = "home"


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedOff:
    """One answer: of how many recorded (`expected`) how many are there and sound (`count`), by whom and when."""

    trip: str
    kind: str
    name: str
    answer: Answer
    count: int
    expected: int
    checked_by: str
    checked_at: datetime

    @property
    def short(self) -> bool:
        """Whether fewer are there and sound than are recorded."""
        return self.count < self.expected

    @property
    def words(self) -> str:
        """What was found, in words.

        >>> from datetime import datetime
        >>> CheckedOff(trip="t", kind="gear", name="masks", answer=Answer.COUNTED, count=2, expected=4,
        ...            checked_by="Ada", checked_at=datetime(2027, 3, 4, 8)).words
        '2 of 4'
        """
        if self.answer is Answer.COUNTED:
            return f"{self.count} of {self.expected}"
        return "left at home" if self.answer is Answer.HOME else str(self.answer)
