"""links-too-few: fewer links than the bank needs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import LeadUse
from kitlist.kit import Kit, Trip
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def links_needed(trip: Trip) -> int:
    """Links that the trip's bank takes: one fewer than its batteries in a string, two more for each parallel string."""
    strings = trip.strings
    if not strings:
        return 0
    return sum(len(string) - 1 for string in strings) + 2 * (len(strings) - 1)


def links_packed(kit: Kit) -> int:
    """Links in the bags; jumper leads are not counted, being rated for seconds."""
    return sum(lead.count for lead in kit.leads if lead.use is LeadUse.LINK)


def check(case: Case) -> Iterator[Gap]:
    """A gap where the links do not reach from the first battery to the last."""
    needed, packed = links_needed(case.trip), links_packed(case.kit)
    if packed < needed:
        yield Gap(
            subject="links",
            what=f"{packed} links packed, {needed} needed for {len(case.trip.bank)} batteries",
            remedy=f"Pack {needed - packed + 1} more: the missing and a spare.",
            measured=packed,
            required=needed,
            unit="links",
        )


def _links(count: int) -> Example:
    leads = tuple(
        replace(lead, count=count) if lead.use is LeadUse.LINK else lead for lead in example.whole().kit.leads
    )
    return example.with_kit(leads=leads)


RULE = Rule(
    name="links-too-few",
    title="Too few links",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="A bank of three needs two links; with one there is no bank.",
    remedy="Pack a link between each pair of batteries, and one more.",
    sources=(PRACTICE,),
    check=check,
    mark="short",
    good=example.whole,
    bad=lambda: _links(1),
)
