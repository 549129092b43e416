"""spring-clamp-in-circuit: a link or arc lead that is held to a battery post by a spring clamp."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Fitting, LeadUse
from kitlist.kit import Lead
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

SPRING = (Fitting.SPRING_CLAMP, Fitting.SPRING_CLAMP_BONDED)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed link, arc lead or extension with a spring clamp at a post."""
    for lead in case.kit.leads:
        if lead.count > 0 and lead.use is not LeadUse.JUMPER and _at_a_post(lead):
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: a spring clamp would carry the welding current at a post: 1 to 5 mΩ, 22 to 112 W",
                remedy="Fit a bolted post clamp or a lug to it; a jumper set is for starting engines.",
                command=f"kitlist lead edit {quoted(lead.name)} end-a=FITTING end-b=FITTING",
            )


def _at_a_post(lead: Lead) -> bool:
    """A work lead may have one spring clamp, at the steel; every other is at a battery's post."""
    springs = sum(end in SPRING for end in (lead.end_a, lead.end_b))
    at_steel = lead.use is LeadUse.WORK and Fitting.WORK_CLAMP not in (lead.end_a, lead.end_b)
    return springs > int(at_steel)


RULE = Rule(
    name="spring-clamp-in-circuit",
    title="A spring clamp in the welding circuit",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="A spring clamp gets hot at welding current, and one that slips off sparks over a battery's vents.",
    remedy="Bolted clamps or lugs at every post.",
    sources=(PRACTICE,),
    check=check,
    mark="spring clamp",
    good=lambda: example.with_lead("link", end_a=Fitting.POST_CLAMP),
    bad=lambda: example.with_lead("link", end_a=Fitting.SPRING_CLAMP_BONDED),
)
