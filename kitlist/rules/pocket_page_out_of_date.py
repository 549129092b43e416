"""pocket-page-out-of-date: a page on a phone whose steps and volts are those of another kit or bank."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.card_out_of_date import holds, with_paper
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the newest page of this trip shows other steps than are right for its bank today."""
    pages = [paper for paper in case.kit.printed if paper.paper == "pocket" and paper.trip == case.trip.name]
    page = max(pages, key=lambda one: one.revision, default=None)
    if page is None or not case.trip.bank:
        return
    if page.strings != case.trip.strings:
        bank = "; ".join(", ".join(string) for string in page.strings)
        why = f"shows another bank: {bank}" if bank else "was made before a bank was chosen"
    elif not holds(case, page):
        why = "no longer shows this kit: batteries, links, rods or rules have changed"
    else:
        return
    yield Gap(
        subject="pocket page",
        what=f"Pocket page {page.content_hash} (revision {page.revision}, made {page.printed_on}) {why}",
        remedy="Make it anew, carry it to the phone, and delete the old one there.",
        command="kitlist print pocket",
    )


RULE = Rule(
    name="pocket-page-out-of-date",
    title="Pocket page on the phone out of date",
    severity=Severity.FIX,
    doing=Doing.PRINT,
    mark="out of date",
    why="The page reckons with the kit that it was made from and shows its steps. If batteries, leads, rods or the "
    "bank have changed since, its order, volts and rods are those of another kit.",
    remedy="Make the page anew after every change of batteries, leads, rods or the bank.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: with_paper("pocket", example.whole(), example.with_reading("north-main", volts_v=12.80)),
    bad=lambda: with_paper(
        "pocket", example.whole(), example.with_kit(rods=(example.rod("thick rods", designation="E7014"),))
    ),
)
