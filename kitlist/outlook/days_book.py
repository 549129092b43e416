"""The day's book: the trip's repairs one after the other from its bank, in the best order, down to the reserve."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.measures import counted
from kitlist.kit import Kit, Trip
from kitlist.outlook import Outlook
from kitlist.outlook.recharging import ChargesNeeded, charges_needed
from kitlist.outlook.repairs import Cell, RepairOutlook
from kitlist.physics.bank.book import BookJob, BookLine, days_book, in_order
from kitlist.welding.repairs.parts import RepairClass


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One repair in its turn: its line of the book, the rods' name, and the charging before it (None: none, or no
    way)."""

    line: BookLine
    rod: str
    charging: ChargesNeeded | None

    @property
    def words(self) -> str:
        """In one line: what it takes and leaves, or where the reserve is met and what is put back before it."""
        line = self.line
        said = f"{line.job.name}: {counted(line.job.rods, 'rod')} {self.rod}, {line.job.takes_ah:.1f} Ah"
        if not line.broken:
            return f"{said}; leaves {line.left_ah:.1f} Ah"
        back = f"put {line.put_back_ah:.1f} Ah back before it"
        by = f", {self.charging.words}" if self.charging else ", each battery alone"
        return f"{said}; the reserve is met after {counted(line.can, 'rod')}, {line.short} short: {back}{by}"


@dataclass(frozen=True, slots=True, kw_only=True)
class DayBook:
    """All of it. `spare_ah` is what is sure over the reserve through the whole bank; `left_out` each repair that is not
    in it, with the reason."""

    spare_ah: float
    turns: tuple[Turn, ...]
    left_out: tuple[tuple[str, str], ...]

    @property
    def words(self) -> str:
        """What it begins from and what all of it takes, in one line."""
        return (
            f"Several in a row, in this order: {self.spare_ah:.0f} Ah are sure over the reserve, all of them take "
            f"{self.total_ah:.0f} Ah (volts read again go before this sum)"
        )

    @property
    def left_out_words(self) -> tuple[str, ...]:
        """Each repair that is not in it, with the reason."""
        return tuple(f"{name}: not in it, {why}" for name, why in self.left_out)

    @property
    def total_ah(self) -> float:
        """What all of them take, at the high end."""
        return sum(turn.line.job.takes_ah for turn in self.turns)

    @property
    def first_broken(self) -> Turn | None:
        """The repair at which the reserve is met, if one is."""
        return next((turn for turn in self.turns if turn.line.broken), None)


def day_book(kit: Kit, trip: Trip, outlook: Outlook) -> DayBook | None:
    """The book of the trip's repairs on its bank; None without a bank, or where its charge is not known.

    Each with the rod chosen for it. What bears load brings you home, and goes first; of the rest the thickest rods.
    """
    chosen: dict[str, tuple[RepairOutlook, Cell]] = {}
    left_out = []
    for repair in outlook.repairs:
        best = repair.best
        if repair.repair_class is RepairClass.NEVER:
            left_out.append((repair.repair.name, "it must never be welded"))
        elif best is None:
            left_out.append((repair.repair.name, "no packed rod is for it"))
        elif best.needs is None or best.rod.lasting is None:
            left_out.append((repair.repair.name, "what it takes is not known"))
        else:
            chosen[repair.repair.name] = (repair, best)
    spare_ah = _spare_ah(outlook, [cell for _, cell in chosen.values()])
    if spare_ah is None:
        return None
    jobs = in_order([_job(repair, cell) for repair, cell in chosen.values()])
    turns = tuple(
        Turn(line=line, rod=chosen[line.job.name][1].rod.words, charging=_charging(kit, trip, outlook, line, spare_ah))
        for line in days_book(jobs, spare_ah=spare_ah)
    )
    return DayBook(spare_ah=spare_ah, turns=turns, left_out=tuple(left_out))


def _spare_ah(outlook: Outlook, cells: list[Cell]) -> float | None:
    """Sure charge over what is kept, by the rod whose load leaves least; None where it is not known."""
    if outlook.bank is None or not cells:
        return None
    each = [cell.rod.lasting.spare_ah(outlook.bank.batteries, sure=True) for cell in cells if cell.rod.lasting]
    known = [max(0.0, ah) for ah in each if ah is not None]
    return min(known) if len(known) == len(cells) else None


def _job(repair: RepairOutlook, cell: Cell) -> BookJob:
    if cell.needs is None or cell.rod.lasting is None:
        raise AssertionError(f"{repair.repair.name} takes nothing that is known")  # left out by day_book
    return BookJob(
        name=repair.repair.name,
        rods=cell.needs.rods.to_pack,
        charge_ah=cell.rod.lasting.charge_ah.high,
        rod_mm=cell.rod.rod.diameter_mm,
        brings_home=repair.repair.load_bearing is True,
    )


def _charging(kit: Kit, trip: Trip, outlook: Outlook, line: BookLine, spare_ah: float) -> ChargesNeeded | None:
    return charges_needed(kit, trip, outlook, total_ah=spare_ah + line.put_back_ah, one_charge_ah=spare_ah)
