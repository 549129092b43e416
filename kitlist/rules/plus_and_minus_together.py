"""plus-and-minus-together: holder lead and work lead, marked for different poles, stowed in one bag."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Mark
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """One gap for each bag that holds leads of both poles."""
    bags: dict[str, dict[Mark, str]] = {}
    for lead in case.kit.leads:
        if lead.count > 0 and lead.bag and lead.mark in (Mark.PLUS, Mark.MINUS):
            bags.setdefault(lead.bag, {}).setdefault(lead.mark, lead.name)
    for bag, poles in bags.items():
        if len(poles) == 2:
            yield Gap(
                subject=bag,
                what=f"{bag} holds a plus and a minus lead together: {listed(list(poles.values()))}",
                remedy="Stow them in separate bags or sleeves, and take out one pole at a time.",
                measured=2,
                required=1,
                unit="poles in one bag",
            )


RULE = Rule(
    name="plus-and-minus-together",
    title="Plus and minus leads in one bag",
    severity=Severity.NOTE,
    doing=Doing.MEND,
    why="Leads come out of one bag in a tangle, and one end finds its post while the other lies on the next.",
    remedy="One pole, one bag.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: example.with_lead("work lead", mark=Mark.BOTH_ENDS, bag=example.BAG),
    bad=lambda: example.with_lead("work lead", bag=example.BAG),
)
