"""Stickers from the procedure of a bank: what the card calls 1, 2 and 3 is so called on the battery and on the lead."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from kitlist.base.terms import Polarity
from kitlist.faces.paper import called
from kitlist.faces.paper.build_words import bank_words
from kitlist.faces.paper.document import Marks
from kitlist.faces.paper.stickers import Sticker, Stickers
from kitlist.kit import Kit, Trip
from kitlist.outlook.card import CardFacts, card_facts
from kitlist.outlook.procedure_words import wording


def build_stickers(kit: Kit, trip: Trip, *, on: date) -> Stickers:
    """The stickers. Raises PrintError where no bank is chosen, or it may not be linked: as the card, they last."""
    facts = card_facts(kit, trip, on=on)
    return Stickers(
        kit=facts.crew,
        bank=bank_words(facts.strings),
        stickers=(*_batteries(facts), *_leads(facts)),
        marks=Marks(printed_on=on),
        untyped=called.untyped(facts),
    )


def _batteries(facts: CardFacts) -> Iterator[Sticker]:
    bank = facts.procedure.bank
    short = called.told_apart([battery.name for battery in bank], called.STICKER)
    for battery in bank:
        yield Sticker(str(battery.number), short[battery.name])
        for sign in ("−", "+"):
            yield Sticker(f"{battery.number} {sign}", wording()["sticker"]["post"].format(name=short[battery.name]))


def _leads(facts: CardFacts) -> Iterator[Sticker]:
    """Both ends of every link and tie; of the holder's lead and the work lead the end that goes to the bank."""
    words, steps = wording()["sticker"], facts.procedure
    link = 0
    for string in steps.strings:
        for one, other in pairwise(string):
            link += 1
            for end in (f"{one.number} +", f"{other.number} −"):
                yield Sticker(end, words["link"].format(number=link))
    first = steps.strings[0]
    for place, string in enumerate(steps.strings[1:]):
        for tie, (one, other, sign) in enumerate(
            ((first[0], string[0], "−"), (first[-1], string[-1], "+")), start=2 * place + 1
        ):
            for battery in (one, other):
                yield Sticker(f"{battery.number} {sign}", words["tie"].format(number=tie))
    if steps.polarity is not None:
        plus, minus = f"{first[-1].number} +", f"{first[0].number} −"
        holder, work = (plus, minus) if steps.polarity is Polarity.DCEP else (minus, plus)
        yield Sticker(holder, words["holder"])
        yield Sticker(work, words["work"])
