"""A day's book: several repairs in a row from one bank, what each leaves over the reserve, where the rods run out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Source, Tag, sourced

_LEVEL = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class BookJob:
    """One repair as the book has it: rods it takes, ampere-hours of one at the high end, what stands for its order.

    `brings_home`: without it nobody drives on. `rod_mm` its rod's diameter.
    """

    name: str
    rods: int
    charge_ah: float
    rod_mm: float = 0.0
    brings_home: bool = False

    @property
    def takes_ah(self) -> float:
        """What the whole repair takes through the bank, Ah at the high end."""
        return self.rods * self.charge_ah


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLine:
    """One repair in its turn: rods that the bank surely still gives it, rods short, and what is left over, Ah.

    `put_back_ah` is what must go back into the bank before it, 0 where it can begin at once.
    """

    job: BookJob
    can: int
    short: int
    left_ah: float
    put_back_ah: float

    @property
    def broken(self) -> bool:
        """Whether the reserve is met before it is done."""
        return self.short > 0


@sourced(PRACTICE)
def in_order(jobs: Sequence[BookJob]) -> tuple[BookJob, ...]:
    """What brings you home first; then the thickest rods, as a full bank runs hottest; else as they were given.

    >>> jobs = (BookJob(name="rack", rods=2, charge_ah=1.5, rod_mm=2.5),
    ...         BookJob(name="spring", rods=4, charge_ah=2.46, rod_mm=3.2, brings_home=True),
    ...         BookJob(name="drawbar", rods=6, charge_ah=3.5, rod_mm=4.0))
    >>> [job.name for job in in_order(jobs)]
    ['spring', 'drawbar', 'rack']
    """
    return tuple(sorted(jobs, key=lambda job: (not job.brings_home, -job.rod_mm)))


@sourced(Source(Tag.DERIVED, "low bound of the charge, less rods at their high end, down to the reserve"))
def days_book(jobs: Sequence[BookJob], *, spare_ah: float) -> tuple[BookLine, ...]:
    """The book of repairs in the order given, from `spare_ah` over the reserve through the whole bank, its low bound.

    A repair that breaks takes what rods it can; before it, so much must be put back that it can be finished. Whatever
    comes after is counted as if that had been put back.

    >>> four, six = BookJob(name="a", rods=4, charge_ah=2.46), BookJob(name="b", rods=6, charge_ah=1.5)
    >>> [(line.can, line.short) for line in days_book((four, six, four), spare_ah=27.125)]
    [(4, 0), (6, 0), (3, 1)]
    """
    if not 0.0 <= spare_ah <= 1000.0:
        raise OutOfRange(f"{spare_ah:g} Ah over the reserve is outside 0 to 1000 Ah")
    lines, left_ah = [], spare_ah
    for job in jobs:
        if job.rods < 0 or job.charge_ah <= 0.0:
            raise OutOfRange(f"{job.name}: {job.rods} rods of {job.charge_ah:g} Ah are outside 0 rods up and over 0 Ah")
        can = min(job.rods, floor(left_ah / job.charge_ah + _LEVEL))
        put_back_ah = max(0.0, job.takes_ah - left_ah) if can < job.rods else 0.0
        left_ah = max(0.0, left_ah + put_back_ah - job.takes_ah)
        lines.append(BookLine(job=job, can=can, short=job.rods - can, left_ah=left_ah, put_back_ah=put_back_ah))
    return tuple(lines)


def charges_in(*, total_ah: float, spare_ah: float, one_charge_ah: float) -> int:
    """How often the bank is charged before everything is done; each charge puts back `one_charge_ah` at most.

    >>> charges_in(total_ah=60.0, spare_ah=27.0, one_charge_ah=27.0)
    2
    """
    if one_charge_ah <= 0.0:
        raise OutOfRange(f"a charge of {one_charge_ah:g} Ah is not over 0")
    return max(0, ceil((total_ah - spare_ah) / one_charge_ah - _LEVEL))
