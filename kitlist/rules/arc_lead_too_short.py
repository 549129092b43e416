"""arc-lead-too-short: a holder or work lead that does not take the arc far enough from the batteries."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import LeadUse
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each arc lead under the distance, packed extensions counted in."""
    least_m = case.limits.arc_distance_m
    packed = [lead for lead in case.kit.leads if lead.count > 0]
    more_m = sum((lead.length_m or 0.0) * lead.count for lead in packed if lead.use is LeadUse.EXTENSION)
    for lead in packed:
        if (
            lead.use in (LeadUse.HOLDER, LeadUse.WORK)
            and lead.length_m is not None
            and lead.length_m + more_m < least_m
        ):
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: {lead.length_m + more_m:g} m; the arc is {least_m:g} m or more from every battery",
                remedy=f"A lead of {least_m:g} m at the least, better 5 m; or an extension with insulated connectors.",
                measured=lead.length_m + more_m,
                required=least_m,
                unit="m",
            )


RULE = Rule(
    name="arc-lead-too-short",
    title="Arc leads too short to keep away from the batteries",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Hydrogen over a battery and sparks from an arc need metres between them, and wind.",
    remedy="3 m or more between arc and every battery, the bank crosswind.",
    sources=(PRACTICE,),
    check=check,
    numbers=("arc_distance_m",),
    mark="too short",
    good=lambda: example.with_lead("holder lead", length_m=3.0),
    bad=lambda: example.with_lead("holder lead", length_m=2.9),
)
