"""current-not-known: a bank whose current cannot be predicted, because something in its circuit is not written down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import shades_waiting


def check(case: Case) -> Iterator[Gap]:
    """A gap that lists what is missing, where no other rule speaks of it already."""
    bank = case.outlook.bank
    if bank is None:
        return
    missing = [str(missing) for missing in bank.not_known if missing.lack.to_write_down]
    if missing:
        yield Gap(
            subject="bank",
            what=f"The welding current cannot be predicted; not known: {', '.join(missing)}"
            + (shades_waiting(case) if case.outlook.highest_a is None else ""),
            remedy="Measure it or read it off the label, and write it down.",
            command="kitlist lead edit NAME area=AREA length=LENGTH",
            known=False,
        )


def _bad() -> Example:
    leads = tuple(replace(x, area_mm2=None) if x.name == "work lead" else x for x in example.whole().kit.leads)
    return example.with_kit(leads=leads)


RULE = Rule(
    name="current-not-known",
    title="Current not known",
    severity=Severity.STOP,
    doing=Doing.CHECK,
    why="Without it nobody can say whether there is an arc, whether the rods burn through, or which filter is enough.",
    remedy="Write down area and length of every lead, capacity and cranking rating of every battery.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=_bad,
)
