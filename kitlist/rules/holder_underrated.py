"""holder-underrated: a holder or work clamp rated for less than the likely current, or of unknown rating."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import ClampKind, Fitting
from kitlist.kit import Clamp, Lead
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap for each holder and work clamp, fitted or loose, under the likely current."""
    current_a = case.outlook.likely_a
    if not current_a:
        return
    ends = [*_fitted(case), *_loose(case)]
    unsaid = [(thing, word) for thing, word in ends if thing.rating_a is None]
    if unsaid:
        first = unsaid[0][0]
        noun = "lead" if isinstance(first, Lead) else "clamp"
        yield Gap(
            subject=first.name,
            what=f"Rating not known of {listed([_called(thing, word) for thing, word in unsaid])}; "
            f"about {current_a:.0f} A is likely",
            remedy="Read it off handle and jaw, and write it down.",
            command=f"kitlist {noun} edit {quoted(first.name)} rating=AMPS",
            also=tuple(thing.name for thing, _ in unsaid[1:]),
            required=round(current_a),
            unit="A",
            known=False,
            severity=Severity.NOTE,
        )
    for thing, word in ends:
        if thing.rating_a is not None and thing.rating_a < round(current_a):
            yield Gap(
                subject=thing.name,
                what=f"{_called(thing, word)}: rated {thing.rating_a:g} A, about {current_a:.0f} A is likely",
                remedy="Pack one of a higher rating; until then one rod, then rest until it is cool to the glove.",
                measured=thing.rating_a,
                required=round(current_a),
                unit="A",
            )


def _called(thing: Lead | Clamp, word: str) -> str:
    return thing.name if word in thing.name else f"{thing.name} ({word})"


def _fitted(case: Case) -> Iterator[tuple[Lead | Clamp, str]]:
    for lead in case.kit.leads:
        for end, word in ((Fitting.HOLDER, "holder"), (Fitting.WORK_CLAMP, "work clamp")):
            if lead.count > 0 and end in (lead.end_a, lead.end_b):
                yield lead, word


def _loose(case: Case) -> Iterator[tuple[Lead | Clamp, str]]:
    for clamp in case.kit.clamps:
        if clamp.count > 0 and clamp.what in (ClampKind.HOLDER, ClampKind.WORK_CLAMP):
            yield clamp, str(clamp.what).replace("-", " ")


RULE = Rule(
    name="holder-underrated",
    title="Holder or work clamp underrated",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="An undersize holder overheats in the hand, and a small work clamp decides how poor the weld is.",
    remedy="An insulated holder and a work clamp for the current of this bank, 200 A or more.",
    sources=(
        Source(Tag.READ, "US A-A-51161B: 150 and 200 A holders for rods to 4.0 mm"),
        PRACTICE,
    ),
    check=check,
    mark="underrated",
    good=lambda: example.with_lead("holder lead", rating_a=203),
    bad=lambda: example.with_lead("holder lead", rating_a=202),
)
