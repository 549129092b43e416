"""arc-lead-missing: no rod holder, or no work clamp, on a lead or loose with a lead to go on."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ClampKind, Fitting, LeadUse
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing

_ENDS = (
    ("holder", LeadUse.HOLDER, Fitting.HOLDER, ClampKind.HOLDER),
    ("work clamp", LeadUse.WORK, Fitting.WORK_CLAMP, ClampKind.WORK_CLAMP),
)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each of holder and work clamp that is not packed with its lead."""
    for word, use, fitting, kind in _ENDS:
        leads = [lead for lead in case.kit.leads if lead.use is use and lead.count > 0]
        fitted = any(fitting in (lead.end_a, lead.end_b) for lead in leads)
        loose = any(clamp.what is kind and clamp.count > 0 for clamp in case.kit.clamps)
        if not leads or not (fitted or loose):
            missing = f"lead for the {word}" if not leads else word
            yield Gap(
                subject=missing,
                what=f"No {missing} is packed: 0 of 1",
                remedy=f"Pack a {word} of 200 A or more on a lead of 25 mm² or more.",
                measured=0,
                required=1,
                unit="pieces",
            )


RULE = Rule(
    name="arc-lead-missing",
    title="Holder or work clamp missing",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Without both there is no circuit, and a jumper clamp in place of a holder burns the hand.",
    remedy="Pack an insulated holder and a work clamp, each on its lead.",
    sources=(PRACTICE,),
    check=check,
    asks_for=(LeadUse.HOLDER, LeadUse.WORK),
    good=example.whole,
    bad=lambda: example.with_kit(leads=tuple(x for x in example.whole().kit.leads if x.use is not LeadUse.WORK)),
)
