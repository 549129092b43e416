"""rod-strikes-poorly: a packed rod whose covering wants more volts than the bank has at rest."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Covering, RodStorage
from kitlist.physics.bank.verdict import Fit
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.short_arc_only import only_short_arc
from kitlist.welding.rods.striking import Striking, strikes


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed rod that does not strike from the bank (fix) or only just (note)."""
    bank = case.outlook.bank
    if bank is None or bank.rested_v is None or not 10 <= bank.rested_v <= 60:
        return
    no_arc = all(rod.fit is Fit.NO_ARC for rod in case.outlook.rods if rod.fit is not None)
    for rod in case.outlook.rods:
        if rod.designation is None or (no_arc and rod.fit is Fit.NO_ARC):
            continue  # arc-out-of-reach says what to do where no rod holds an arc
        found = strikes(rod.designation.covering, rested_v=bank.rested_v)
        if found.striking is Striking.EASY or (found.striking is Striking.MARGINAL and only_short_arc(case)):
            continue  # of a rod that is held with a short arc only, short-arc-only says it once for the bank
        packed = _packed_rutile(case)
        word = "is marginal" if found.striking is Striking.MARGINAL else "does not strike"
        yield Gap(
            subject=rod.rod.name,
            what=f"{rod.rod.name} ({rod.words}) {word} at {bank.rested_v:.1f} V; {found.strike_v:g} V strikes it "
            f"({found.words})",
            remedy=_remedy(rod.designation.covering, packed),
            measured=round(bank.rested_v, 1),
            required=found.strike_v,
            unit="V",
            severity=Severity.NOTE if found.striking is Striking.MARGINAL else None,
            doing=Doing.MEND if packed else None,  # nobody is sent to a shop for more of what does not strike
        )


def _packed_rutile(case: Case) -> str:
    """The first packed rod of the covering that strikes from the least volts and that this bank welds with."""
    rutile = (r for r in case.outlook.rods if r.welds and r.designation and r.designation.covering is Covering.RUTILE)
    return next((rod.words for rod in rutile), "")


def _remedy(covering: Covering, packed: str) -> str:
    """E6013 is the cure for every covering but its own: what is packed of it is taken first."""
    if covering is Covering.RUTILE:
        return (
            "Hold it very short, 1 to 2 mm, and try it on scrap first; or link one more battery where that is allowed."
        )
    glazed = " Break the glazed tip off, gloved, before each restrike." if covering is Covering.BASIC else ""
    cure = f"Weld with {packed}, which is packed" if packed else "Pack E6013 for this bank"
    return f"{cure}, or link one more battery where that is allowed.{glazed}"


RULE = Rule(
    name="rod-strikes-poorly",
    title="A rod that this bank hardly strikes",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=("A rod that will not restrike is stuck and knocked until its covering falls off, and the break stays open."),
    remedy="Rutile first; basic from 36 V; cellulosic is marginal on three batteries and useless on two.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: example.with_kit(
        rods=(example.rod("thick rods", designation="E7018", storage=RodStorage.SEALED, opened_on=None),)
    ),
    bad=lambda: example.with_kit(rods=(example.rod("thick rods", designation="E6011"),)),
)
