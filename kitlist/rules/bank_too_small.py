"""bank-too-small: a bank that does not give the rods that the repairs take, or those that are packed, on one charge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from kitlist.base.measures import counted, told_apart, with_unit
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.outlook.bank import BankOutlook
from kitlist.outlook.lasting import RodsInHand
from kitlist.outlook.rods import RodOutlook
from kitlist.physics.bank.endurance import Ending
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing

if TYPE_CHECKING:
    from kitlist.outlook.recharging import ChargesNeeded


def check(case: Case) -> Iterator[Gap]:
    """Stop where no rod is likely; fix where the repairs take more than is sure, or more is packed than is likely."""
    bank = case.outlook.bank
    kinds = [(rod, rod.rods) for rod in case.outlook.rods if rod.welds and rod.rods is not None]
    if bank is None or not kinds:
        return
    most, rods = max(kinds, key=lambda kind: kind[1].count)
    if rods.likely == 0:
        yield _none(rods)
    elif short := _short_for_repairs(case, bank, most, rods):
        yield short
    elif more := _packed_over(case, bank, kinds):
        yield more


def _none(rods: RodsInHand) -> Gap:
    """No rod is likely: of the charge, or of what the leads bear, which no fuller battery mends."""
    if rods.ended_by is Ending.LEAD_HEAT:
        what = "No rod burns to its end on these leads: they reach what their insulation bears before it does"
        remedy = "Take thicker leads: a fuller or larger battery changes nothing of it."
    else:
        on = f", {rods.on}" if rods.on else ""
        what = f"The bank is too small: it gives no rod down to what it keeps: {rods.ended_by}{on}"
        remedy = "Charge each battery full, alone; or take a larger or fuller one in place of the one that is named."
    return Gap(
        subject="bank",
        what=what,
        remedy=remedy,
        command="" if rods.ended_by is Ending.LEAD_HEAT else "kitlist bank",
        measured=0,
        required=1,
        unit="rods",
    )


def _short_for_repairs(case: Case, bank: BankOutlook, most: RodOutlook, rods: RodsInHand) -> Gap | None:
    """Where the trip's repairs together take more than is sure; without repairs one rod of the kind that gives most."""
    best = [repair.best for repair in case.outlook.repairs]
    chosen = [(cell.needs.rods.to_pack, cell.rod.lasting) for cell in best if cell and cell.needs and cell.rod.lasting]
    if not chosen:
        if rods.sure >= 1:
            return None
        return _fix(f"Not one rod is sure on one charge: {most.words}, {rods.count.words}", rods.sure, 1)
    needed_ah = sum(count * lasting.charge_ah.high for count, lasting in chosen)
    spare_ah = _least([lasting.spare_ah(bank.batteries, sure=True) for _, lasting in chosen])
    if spare_ah is None or needed_ah <= spare_ah + 1e-9:
        return None
    take, sure = told_apart(needed_ah, max(0.0, spare_ah), places=0)
    what = f"The bank is too small for the repairs on one charge: they take {take} Ah, {sure} Ah are sure"
    return _fix(what, spare_ah, needed_ah, "Ah")


def _fix(what: str, measured: float, required: float, unit: str = "rods") -> Gap:
    return Gap(
        subject="bank",
        what=what,
        remedy="Charge all full and read them again; recharge each alone between repairs, or take larger batteries.",
        command="kitlist bank",
        measured=round(max(0.0, measured), 1),
        required=round(required, 1),
        unit=unit,
        severity=Severity.FIX,
    )


def _least(spares: list[float | None]) -> float | None:
    """The least of them; None where one is not known: charge-not-known says so."""
    known = [spare for spare in spares if spare is not None]
    return min(known) if known and len(known) == len(spares) else None


def _packed_over(case: Case, bank: BankOutlook, kinds: list[tuple[RodOutlook, RodsInHand]]) -> Gap | None:
    """Where more is packed than one charge is likely to burn."""
    packed = [(rod.rod.count, rod.lasting) for rod, _ in kinds if rod.lasting]
    spare_ah = _least([lasting.spare_ah(bank.batteries, sure=False) for _, lasting in packed])
    packed_ah = sum(count * lasting.charge_ah.best for count, lasting in packed)
    if spare_ah is None or packed_ah <= spare_ah + 1e-9:
        return None
    take, likely = told_apart(packed_ah, max(0.0, spare_ah), places=0)
    from kitlist.outlook.recharging import charges_needed  # what charging takes, only where it is to be reckoned

    each = "; ".join(
        f"{rods.count.words} of {counted(rod.rod.count, 'rod')} {rod.words}"
        + (" in a row, then the leads must cool" if rods.ended_by is Ending.LEAD_HEAT else "")
        for rod, rods in kinds
    )
    again = charges_needed(case.kit, case.trip, case.outlook, total_ah=packed_ah, one_charge_ah=spare_ah)
    return Gap(
        subject="bank",
        what=f"The bank is too small for the rods packed: they take {take} Ah, "
        f"{likely} Ah are likely. It burns, one kind at a time: {each}",
        remedy=_charged(again)
        if again
        else "Recharge between repairs, each battery alone; or take a larger battery in place of the smallest.",
        measured=round(max(0.0, spare_ah), 1),
        required=round(packed_ah, 1),
        unit="Ah",
        severity=Severity.NOTE if again and again.fits else Severity.FIX,
    )


def _charged(again: ChargesNeeded) -> str:
    """How often and how long it is charged on the trip so that all of them burn; or that its days are too few."""
    from kitlist.outlook.recharging import CHARGING_H_A_DAY

    if not again.fits:
        return (
            f"They would take {again.words}: more than {with_unit(CHARGING_H_A_DAY.value, 'h')} in each day of it. "
            "Pack fewer, or take a larger battery in place of the smallest."
        )
    return f"They burn with {again.words}: each battery alone, unlinked."


RULE = Rule(
    name="bank-too-small",
    title="Bank too small for the rods packed",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Each 3.2 mm rod takes about 2 Ah from every battery of the string, cold takes its part of the capacity, and "
    "the engines must start afterwards.",
    remedy="Know how many rods the bank gives, and plan to recharge.",
    sources=(PRACTICE, Source(Tag.DERIVED, "charge of a rod from its mass and grams deposited per ampere-hour, ±20 %")),
    check=check,
    good=example.whole,
    bad=lambda: example.with_kit(rods=(example.rod("thick rods", count=40),)),
)
