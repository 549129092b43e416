"""spare-link-does-not-fit: enough links by number, but one of those in use has no second that fits its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Fitting, LeadUse
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.links_too_few import links_needed, links_packed
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """One gap that names the links without a fitting spare."""
    joining = case.outlook.joining
    wanted = links_needed(case.trip) + case.limits.spare_links
    if joining is None or not joining.without_spare or links_packed(case.kit) < wanted or case.limits.spare_links < 1:
        return
    yield Gap(
        subject=joining.without_spare[0],
        what=f"No spare fits in place of {listed(list(joining.without_spare))}: the others have wrong ends or lengths",
        remedy="Change the spare's ends, or pack a post clamp that takes its lug; try it in each place.",
        measured=0,
        required=case.limits.spare_links,
        unit="fitting spares",
    )


def _spare(length_m: float) -> Example:
    """One link that reaches from vehicle to vehicle, and two of another length."""
    whole = example.with_lead("link", count=1)
    others = example.lead("short link", LeadUse.LINK, Fitting.POST_CLAMP, length_m=length_m, count=2)
    return replace(whole, kit=replace(whole.kit, leads=(*whole.kit.leads, others)))


RULE = Rule(
    name="spare-link-does-not-fit",
    title="The spare link does not fit",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="A spare that is too short, or has lugs where posts are, is weight and nothing else.",
    remedy="Try the spare in the place of every link.",
    sources=(PRACTICE,),
    check=check,
    mark="no spare",
    good=lambda: _spare(2.0),
    bad=lambda: _spare(1.9),
    numbers=("spare_links",),
)
