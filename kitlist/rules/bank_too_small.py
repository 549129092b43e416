"""bank-too-small: more rods packed than the bank can burn down to its reserve."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the packed rods together take more charge than the bank has to spare: fix, stop where none burns."""
    bank = case.outlook.bank
    if bank is None:
        return
    burnable = [rod for rod in case.outlook.rods if rod.burn is not None and rod.endurance is not None]
    spare_ah, weakest = _spare(case)
    if not burnable or spare_ah is None:
        return
    needed_ah = sum(rod.rod.count * rod.burn.charge_ah.best for rod in burnable if rod.burn)
    if needed_ah <= spare_ah:
        return
    enough = "; ".join(f"{rod.endurance.rods} of {rod.rod.count} {rod.words}" for rod in burnable if rod.endurance)
    yield Gap(
        subject="bank",
        what=f"The bank is too small for the rods packed: they take {needed_ah:.0f} Ah, {weakest} has "
        f"{spare_ah:.0f} Ah above its reserve. It burns, one kind at a time: {enough}.",
        remedy="Recharge between repairs, each battery alone; or take a larger battery in place of the smallest.",
        measured=round(spare_ah, 1),
        required=round(needed_ah, 1),
        unit="Ah",
        severity=Severity.FIX if any(rod.endurance.rods for rod in burnable if rod.endurance) else None,
    )


def _spare(case: Case) -> tuple[float | None, str]:
    """The least charge above its reserve of any battery in the bank, Ah through the whole bank, and whose it is."""
    strings = max(1, len(case.trip.strings))
    spare = [(b.spare_ah, b.battery.name) for b in case.outlook.bank_batteries]
    known = [(ah * strings, name) for ah, name in spare if ah is not None]
    return min(known) if known and len(known) == len(spare) else (None, "")


RULE = Rule(
    name="bank-too-small",
    title="Bank too small for the rods packed",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Each 3.2 mm rod takes about 2 Ah from every battery of the string, and the engines must start afterwards.",
    remedy="Know how many rods the bank gives, and plan to recharge.",
    sources=(PRACTICE, Source(Tag.DERIVED, "charge of a rod from its mass and grams deposited per ampere-hour, ±20 %")),
    check=check,
    good=example.whole,
    bad=lambda: example.with_kit(rods=(example.rod("thick rods", count=40),)),
)
