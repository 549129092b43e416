"""What kind of doing a gap asks, and by when: `next`, the sheet and `restock` sort by it, never by a rule's name."""

from __future__ import annotations

from datetime import date, timedelta
from enum import StrEnum

from kitlist.base.sources import PRACTICE, Figure
from kitlist.outlook.charging import CHARGE_DAYS_BEFORE

GET_DAYS_BEFORE = Figure("what is missing is bought before the start", 14, "days", PRACTICE)
MEND_DAYS_BEFORE = Figure("the rest is mended before the start", 7, "days", PRACTICE)
ASK_DAYS_BEFORE = Figure("fire rules are asked before the start", 7, "days", PRACTICE)
CHARGED_DAYS_BEFORE = Figure("batteries are charged before the start", CHARGE_DAYS_BEFORE, "days", PRACTICE)
LAST_DAYS_BEFORE = Figure("rods are baked, volts read, papers printed before the start", 1, "days", PRACTICE)


class Doing(StrEnum):
    """The kind of doing that closes a gap, in the order of its days."""

    GET = "get"  # a shop: nothing else closes it
    CHECK = "check"  # somebody looks, measures, counts, and writes it down
    MEND = "mend"  # hands, a change of the bank, of a lead or of the plan
    ASK = "ask"  # another person answers: an authority, a physician, somebody of the crew
    CHARGE = "charge"
    READ = "read"
    BAKE = "bake"
    PRINT = "print"

    @property
    def days_before(self) -> Figure:
        """How many days before the start it is done at the latest; common practice."""
        return _DAYS[self]

    def due_on(self, starts_on: date) -> date:
        """The last day for it before a start.

        >>> Doing.GET.due_on(date(2027, 5, 15)).isoformat()
        '2027-05-01'
        """
        return starts_on - timedelta(days=self.days_before.value)


_DAYS = {
    Doing.GET: GET_DAYS_BEFORE,
    Doing.CHECK: MEND_DAYS_BEFORE,
    Doing.MEND: MEND_DAYS_BEFORE,
    Doing.ASK: ASK_DAYS_BEFORE,
    Doing.CHARGE: CHARGED_DAYS_BEFORE,
    Doing.READ: LAST_DAYS_BEFORE,
    Doing.BAKE: LAST_DAYS_BEFORE,
    Doing.PRINT: LAST_DAYS_BEFORE,
}
