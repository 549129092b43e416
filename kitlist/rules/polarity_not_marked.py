"""polarity-not-marked: a lead of the circuit that says nowhere which way round it goes."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import LeadUse, Mark
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed

_MARKED = (LeadUse.LINK, LeadUse.HOLDER, LeadUse.WORK, LeadUse.EXTENSION)


def check(case: Case) -> Iterator[Gap]:
    """One gap that names every packed lead of the circuit without a mark."""
    leads = [lead.name for lead in case.kit.leads if lead.use in _MARKED and lead.count > 0 and lead.mark is Mark.NONE]
    if leads:
        yield Gap(
            subject=leads[0],
            what=f"No polarity mark on {listed(leads)}",
            remedy="Tape or sleeve both ends: one colour and one sign for +, another for −. Never trust colour alone.",
            command=f"kitlist lead edit {quoted(leads[0])} mark=MARK",
            measured=len(leads),
            required=0,
            unit="leads unmarked",
        )


RULE = Rule(
    name="polarity-not-marked",
    title="Leads without a polarity mark",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why=(
        "A link put on backwards shorts two batteries through a lead: a thousand amperes and more, in the "
        "dark, at arm's length."
    ),
    remedy="Mark both ends of every lead with a sign that can be read by a red lamp.",
    sources=(PRACTICE,),
    check=check,
    mark="no mark",
    mark_not_known="no mark",
    good=example.whole,
    bad=lambda: example.with_lead("work lead", mark=Mark.NONE),
)
