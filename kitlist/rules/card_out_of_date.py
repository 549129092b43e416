"""card-out-of-date: a printed card that no longer shows the kit it lies in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.errors import KitlistError
from kitlist.base.sources import PRACTICE
from kitlist.kit.printed import PrintedPaper
from kitlist.outlook.card import FORMAT, card_facts, for_bank
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each card of this trip that a crew could still reach for and that shows another kit or bank."""
    cards = [paper for paper in case.kit.printed if paper.paper == "card" and paper.trip == case.trip.name]
    chosen = case.trip.strings
    if cards and chosen and all(card.strings and card.strings != chosen for card in cards):
        newest = max(cards, key=lambda card: card.revision)
        yield Gap(
            subject="card",
            what=f"No printed card shows the chosen bank; card {newest.content_hash} of {newest.printed_on} "
            f"shows {_bank(newest)}",
            remedy="Print the card of this bank, and keep apart or destroy the other.",
            command="kitlist print card",
        )
    for card in cards:
        if case.trip.bank and _travels(case, card) and not holds(case, card):
            yield Gap(
                subject="card",
                what=f"Card {card.content_hash} (revision {card.revision}, printed {card.printed_on}) {_why(card)}",
                remedy="Print it anew, and destroy the old one in the glovebox.",
                command=f"kitlist print card{_option(card, chosen)}",
                severity=None if card.strings in ((), chosen) else Severity.NOTE,
                known=bool(card.basis),
            )


def _why(card: PrintedPaper) -> str:
    """Why it holds no more; a card of an earlier layout has a digest of its own kind, compared with nothing."""
    if card.basis and not card.basis.startswith(f"{FORMAT}:"):
        return "is of an earlier layout: the order of its steps has been mended since"
    return "no longer shows this kit: batteries, links, rods or rules have changed"


def holds(case: Case, card: PrintedPaper) -> bool:
    """Whether a card would be printed just so today; one whose basis was never kept counts as not."""
    trip = for_bank(case.trip, card.strings) if card.strings else case.trip
    try:
        return card.basis == card_facts(case.kit, trip, on=case.on).basis
    except KitlistError:
        return False


def _travels(case: Case, card: PrintedPaper) -> bool:
    """Whether its bank could still be linked; a card of batteries that stay at home misleads nobody at the arc."""
    return all(name in case.outlook.batteries for string in card.strings for name in string)


def _bank(card: PrintedPaper) -> str:
    return "; ".join(", ".join(string) for string in card.strings)


def _option(card: PrintedPaper, chosen: tuple[tuple[str, ...], ...]) -> str:
    if card.strings in ((), chosen):
        return ""
    strings = f" --strings {len(card.strings)}" if len(card.strings) > 1 else ""
    bank = quoted(",".join(name for string in card.strings for name in string))
    return f" --bank {bank}{strings}"


def with_paper(paper: str, then: Example, now: Example) -> Example:
    """The kit of now with a card or a pocket page that was printed of the kit of then."""
    kept = PrintedPaper(
        paper=paper,
        trip=then.trip.name,
        content_hash="0a1b2c3d",
        revision=1,
        printed_on=then.on,
        strings=then.trip.strings,
        basis=card_facts(then.kit, then.trip, on=then.on).basis,
    )
    return replace(now, kit=replace(now.kit, printed=(kept,)))


RULE = Rule(
    name="card-out-of-date",
    title="Card in the glovebox out of date",
    severity=Severity.FIX,
    doing=Doing.PRINT,
    mark="out of date",
    why="A laminated card is trusted without a second look. If batteries, leads, rods or rules have changed since, its "
    "order, volts and shade are those of another kit.",
    remedy="Print the card anew after every change of batteries, leads, rods or rules, and destroy the old one.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: with_paper("card", example.whole(), example.with_reading("north-main", volts_v=12.80)),
    bad=lambda: with_paper(
        "card", example.whole(), example.with_kit(rods=(example.rod("thick rods", designation="E7014"),))
    ),
)
