"""fire-rules-not-asked: nobody has asked whether hot work is allowed."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.days import said
from kitlist.base.noted import answer
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import FireRules
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap until the answer of the authority is written down."""
    if case.trip.fire_rules is FireRules.NOT_ASKED:
        yield Gap(
            subject="fire rules",
            what="Nobody has asked about fire rules where the trip goes",
            remedy="Ask the fire authority of every place the trip passes, and write down the answer and the day.",
            command=f"kitlist trip edit {quoted(case.trip.name)} fire-rules=ANSWER fire-rules-asked-on=DATE",
            known=False,
        )
        return
    asked, most_days = case.trip.fire_rules_asked_on, case.limits.fire_rules_asked_within_days
    if asked is None or asked > case.on or (case.trip.starts_on - asked).days > most_days:
        when = "on a day that nobody wrote down" if asked is None else f"on {said(asked)}"
        yield Gap(
            subject="fire rules",
            what=f"The fire rules were asked about {when}; they change by the day",
            remedy=f"Ask again within {most_days:g} days of departure, and on every day on which you might weld.",
            command=f"kitlist trip edit {quoted(case.trip.name)} fire-rules=ANSWER fire-rules-asked-on=DATE",
            known=False,
        )
    if case.trip.fire_answer.strip() and not answer(case.trip.fire_answer):
        yield Gap(
            subject="fire rules",
            what=f"The fire rules are written down as {case.trip.fire_rules}, and their answer is: "
            f"{case.trip.fire_answer.strip()}",
            remedy="Ask until somebody answers, and write the answer down in the authority's own words.",
            command=f"kitlist trip edit {quoted(case.trip.name)} fire-answer=WORDS",
            known=False,
        )
    elif case.trip.fire_rules is FireRules.WITH_CONDITIONS and not case.trip.fire_answer.strip():
        yield Gap(
            subject="fire rules",
            what="Hot work is allowed with conditions, and nobody has written down which",
            remedy="Write the conditions down in the authority's own words: they stand on the sheet.",
            command=f"kitlist trip edit {quoted(case.trip.name)} fire-answer=WORDS",
            known=False,
        )


RULE = Rule(
    name="fire-rules-not-asked",
    title="Fire rules not asked",
    severity=Severity.FIX,
    doing=Doing.ASK,
    why="Rules differ by state, country, park and day. Ask, never assume.",
    remedy="Ask the authority of every place the trip passes, and write down the answer.",
    sources=(PRACTICE,),
    check=check,
    numbers=("fire_rules_asked_within_days",),
    good=lambda: example.with_trip(fire_rules=FireRules.WITH_CONDITIONS, fire_answer="before noon, pump at hand"),
    bad=lambda: example.with_trip(fire_rules=FireRules.NOT_ASKED, fire_rules_asked_on=None),
)
