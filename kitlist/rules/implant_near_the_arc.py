"""implant-near-the-arc: somebody who must not weld or stand near, and whose physician nobody has asked."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import answer, noted
from kitlist.base.sources import Source, Tag
from kitlist.kit import Trip
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_NO_GAP = ("contact lens", "contact lenses", "contacts", "glasses", "spectacles", "nobody", "no one", "none")


def check(case: Case) -> Iterator[Gap]:
    """A gap for whoever is named, until the physician's answer is written down; a note after that."""
    said, asked = _named(case.trip), answer(case.trip.keep_away_asked)
    if not said:
        return
    yield Gap(
        subject="crew",
        what=f"Must not weld or stand near: {said}" + (f"; the physician's answer: {asked}" if asked else ""),
        remedy="Off the arc, the leads and the bank until the physician who looks after the implant has agreed: ask, "
        "and write the answer down. Leads side by side, never round the body; nobody leans over them."
        if not asked
        else "Read it out before the first arc; leads side by side, never round the body.",
        command="" if asked else f"kitlist trip edit {quoted(case.trip.name)} keep-away-asked=ANSWER",
        known=bool(asked),
        severity=Severity.NOTE if asked else None,
    )


def _named(trip: Trip) -> str:
    """Who must keep away: whoever the trip names for it, but for lenses alone, or whose implant the crew's line names.

    Contact lenses beside a pacemaker are a pacemaker.
    """
    said = answer(trip.keep_away)
    if noted("implant", said) or (said and not any(word in said.casefold() for word in _NO_GAP)):
        return said
    return next((text.strip() for text in (trip.crew, trip.note) if noted("implant", text)), "")


RULE = Rule(
    name="implant-near-the-arc",
    title="Somebody who must keep away from the arc",
    severity=Severity.FIX,
    doing=Doing.ASK,
    why="A few hundred amperes beside the body can stop or pace a pacemaker, a defibrillator or a pump.",
    remedy="The physician decides, not the crew. Contact lenses are no reason: no arc welds them to an eye.",
    sources=(
        Source(Tag.SECOND_HAND, "AWS Safety Fact Sheet 16 and TWI: a doctor has agreed first"),
        Source(Tag.SECOND_HAND, "a machine maker's manual: leads side by side, never round the body"),
    ),
    check=check,
    good=lambda: example.with_trip(keep_away="Ada: contact lenses"),
    bad=lambda: example.with_trip(keep_away="Ada: pacemaker"),
)
