"""link-without-spare: just enough links, and none to lose."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.terms import LeadUse
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.links_too_few import links_needed, links_packed
from kitlist.rules.rulebook import SPARE_LINKS


def check(case: Case) -> Iterator[Gap]:
    """A gap where the links suffice but none is spare."""
    needed, packed = links_needed(case.trip), links_packed(case.kit)
    spare = case.limits.spare_links
    wanted = needed + spare
    if needed <= packed < wanted:
        yield Gap(
            subject="links",
            what=f"No spare link: {packed} packed, {needed} in use and {spare} spare make {wanted}",
            remedy=f"Pack {wanted - packed} more link, as long as the longest.",
            measured=packed,
            required=wanted,
            unit="links",
        )


def _bad() -> Example:
    leads = tuple(replace(lead, count=2) if lead.use is LeadUse.LINK else lead for lead in example.whole().kit.leads)
    return example.with_kit(leads=leads)


RULE = Rule(
    name="link-without-spare",
    title="No spare link",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="A clamp breaks or a lead is left behind, and the whole bag is useless. Pair and spare: n - 1 and one more.",
    remedy="Pack one link more than the bank needs.",
    sources=(SPARE_LINKS.source,),
    check=check,
    numbers=("spare_links",),
    mark="short",
    good=example.whole,
    bad=_bad,
)
