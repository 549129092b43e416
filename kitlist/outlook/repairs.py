"""The repairs to be ready for, against the packed rods on the chosen bank: the matrix, and the best rod for each."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.errors import KitlistError
from kitlist.base.noted import answer
from kitlist.base.terms import Position
from kitlist.kit import Kit, Repair, Trip
from kitlist.outlook import Outlook
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.rods import RodOutlook
from kitlist.physics.bank.verdict import Fit, hotter, judge
from kitlist.welding.repairs.needs import JobNeeds, job_needs
from kitlist.welding.repairs.parts import Part, RepairClass, allowed, part
from kitlist.welding.repairs.suitability import RodFit, fit, with_bank
from kitlist.welding.repairs.typical import Job, TypicalRepair, typical_repairs


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One rod for one repair. `needs` is None where the rod is not to be used, or what it takes is not known."""

    rod: RodOutlook
    fit: RodFit
    needs: JobNeeds | None

    @property
    def enough(self) -> bool | None:
        """Whether the packet has rods enough; None where it is not known how many it takes."""
        return None if self.needs is None else self.needs.rods.to_pack <= self.rod.rod.count


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairOutlook:
    """A repair against every packed rod. `part` is None where the part is in no table; `typical` a like repair."""

    repair: Repair
    part: Part | None
    not_known: str
    typical: TypicalRepair | None
    cells: tuple[Cell, ...]

    @property
    def repair_class(self) -> RepairClass | None:
        """Sound, get home, last resort or never; None where the part is not known."""
        return self.part.repair_class if self.part else None

    @property
    def best(self) -> Cell | None:
        """The rod to take: the best fit of those that may be used, and of these one with rods enough."""
        usable = [cell for cell in self.cells if cell.fit.suits.usable]
        return min(usable, key=lambda cell: (cell.fit.suits.rank, cell.enough is not True), default=None)


def repair_outlooks(kit: Kit, trip: Trip, outlook: Outlook) -> tuple[RepairOutlook, ...]:
    """Every repair that the trip is to be ready for, in its order."""
    by_name = {repair.name: repair for repair in kit.repairs}
    return tuple(repair_outlook(by_name[name], outlook) for name in trip.repairs if name in by_name)


def repair_outlook(repair: Repair, outlook: Outlook) -> RepairOutlook:
    """One repair against the rods of an outlook, whatever its own `repairs` say."""
    known, not_known = None, ""
    try:
        known = part(repair.part)
    except KitlistError as error:
        not_known = error.message
        if answer(repair.allowed_by):
            known = allowed(repair.part, answer(repair.allowed_by))
    job = as_job(repair)
    return RepairOutlook(
        repair=repair,
        part=known,
        not_known=not_known,
        typical=next((t for t in typical_repairs() if known is not None and t.job.part == known.name), None),
        cells=tuple(_cell(job, rod, outlook) for rod in outlook.rods if rod.designation is not None),
    )


def as_job(repair: Repair) -> Job:
    """A repair as welding sees it."""
    return Job(
        part=repair.part,
        steel=repair.steel,
        thickness_mm=repair.thickness_mm,
        joint=repair.joint,
        position=repair.position,
        leg_mm=repair.leg_mm,
        weld_length_mm=repair.weld_length_mm,
        load_bearing=repair.load_bearing,
        allowed_by=answer(repair.allowed_by),
    )


def _cell(job: Job, rod: RodOutlook, outlook: Outlook) -> Cell:
    if rod.designation is None:
        raise AssertionError(f"{rod.words} has no designation")  # left out by repair_outlook
    rod_mm = rod.rod.diameter_mm
    result = fit(job, rod.designation, rod_mm=rod_mm, packet=rod.packet, wired=said_polarity(outlook.rods))
    here = _here(rod, job.position, outlook.hot_limit_ratio)
    if here is not None and rod.likely_a is not None and rod.range is not None:
        result = with_bank(result, here, job=job, rod_mm=rod_mm, likely_a=rod.likely_a, top_a=rod.range.high_a)
    return Cell(rod=rod, fit=result, needs=_needs(job, rod, result))


def _here(rod: RodOutlook, position: Position, hot_limit_ratio: float) -> Fit | None:
    """How the bank runs the rod in the repair's own position, as hot as a full one where that is asked for."""
    if rod.band is None or rod.range is None:
        return None
    low_a, high_a = rod.range.low_a, rod.range.high_a
    held, full = (
        judge(band, range_low_a=low_a, range_high_a=high_a, position=position, hot_limit_ratio=hot_limit_ratio)
        for band in (rod.band, rod.full or rod.band)
    )
    return hotter(held, full)


def _needs(job: Job, rod: RodOutlook, result: RodFit) -> JobNeeds | None:
    """What the job takes at the bank's likely current, else at the rod's own."""
    if not result.suits.usable or rod.designation is None or result.current is None:
        return None
    current_a = rod.band.middle_a if rod.band is not None and rod.band.middle_a > 0 else result.current.start_a
    try:
        return job_needs(
            job,
            rod.designation,
            rod_mm=rod.rod.diameter_mm,
            length_mm=rod.rod.length_mm,
            current_a=min(current_a, 600.0),
        )
    except KitlistError:
        return None
