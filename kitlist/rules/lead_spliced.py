"""lead-spliced: a splice, tape or a bare spot in an arc lead within reach of whoever holds the rod."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import noted
from kitlist.base.sources import Source, Tag
from kitlist.base.terms import LeadUse
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_ARC = (LeadUse.HOLDER, LeadUse.EXTENSION)
_CARRIES = (*_ARC, LeadUse.WORK, LeadUse.LINK)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed holder lead or extension with an uninsulated splice that near, or a note of one.

    A note of wear counts on links and work lead too: a bare spot on any of them lies on steel.
    """
    least_m = case.limits.splice_distance_m
    for lead in case.kit.leads:
        if lead.count == 0 or lead.use not in _CARRIES:
            continue
        if (
            lead.use in _ARC
            and lead.splice_m is not None
            and lead.splice_m < least_m
            and lead.splice_insulated is not True
        ):
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: a splice or bare spot {lead.splice_m:g} m off the holder; none under {least_m:g} m",
                remedy="Cut it out, or join it with an insulated connector of its size; a worn lead stays at home.",
                command=f"kitlist lead edit {quoted(lead.name)} splice=METRES",
                measured=lead.splice_m,
                required=least_m,
                unit="m",
            )
        elif lead.use not in _ARC:
            if lead.splice_insulated is not True and noted("lead worn", lead.note):
                yield Gap(
                    subject=lead.name,
                    what=f"{lead.name}: its note says '{lead.note}': a worn lead is not used",
                    remedy="Cut the spot out, or insulate it like the cable; else the lead stays at home.",
                    command=f"kitlist lead edit {quoted(lead.name)} splice-insulated=ANSWER",
                    known=False,
                )
        elif lead.splice_m is None and (noted("lead join", lead.note) or noted("lead worn", lead.note)):
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: its note says '{lead.note}'; how far from the holder that is nobody has said",
                remedy=f"Measure it: none within {least_m:g} m of the holder unless it is insulated like the cable.",
                command=f"kitlist lead edit {quoted(lead.name)} splice=METRES splice-insulated=ANSWER",
                required=least_m,
                unit="m",
                known=False,
            )


RULE = Rule(
    name="lead-spliced",
    title="A splice near the holder",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="The last metres run over the welder's arm and leg; a bare spot there burns, or shocks where one is wet.",
    remedy="Whole cable from the holder on; splices further back, insulated like the cable.",
    sources=(Source(Tag.READ, "WAC 296-155-405, as 29 CFR 1926.351(b)"),),
    check=check,
    numbers=("splice_distance_m",),
    mark="spliced",
    good=lambda: example.with_lead("holder lead", splice_m=3.0),
    bad=lambda: example.with_lead("holder lead", splice_m=2.9),
)
