"""holder-not-insulated: a loose holder that is not fully insulated."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import ClampKind, Fitting
from kitlist.kit import Clamp
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed loose holder that is known to be bare, or not said to be insulated."""
    for clamp in case.kit.clamps:
        if clamp.what is ClampKind.HOLDER and clamp.count > 0 and not clamp.insulated:
            yield Gap(
                subject=clamp.name,
                what=f"{clamp.name} is {'bare' if clamp.insulated is False else 'not said to be fully insulated'}",
                remedy="Leave it at home; pack a fully insulated holder."
                if clamp.insulated is False
                else "Look it over, jaw covers and handle, and write down what you find.",
                command=f"kitlist clamp edit {quoted(clamp.name)} insulated=ANSWER" if clamp.insulated is None else "",
                known=clamp.insulated is not None,
                severity=None if clamp.insulated is False else Severity.FIX,
            )


def _holder(insulated: bool) -> Example:
    holder = Clamp(
        name="spare holder",
        what=ClampKind.HOLDER,
        joins_a=Fitting.LUG_M8,
        joins_b=Fitting.HOLDER,
        rating_a=300,
        insulated=insulated,
        bag=example.BAG,
    )
    return example.with_kit(clamps=(holder,))


RULE = Rule(
    name="holder-not-insulated",
    title="A bare holder",
    severity=Severity.STOP,
    doing=Doing.GET,
    why=("A bare holder laid on the vehicle is a dead short through the bodywork, and one in a wet hand a shock."),
    remedy="Insulated holders only.",
    sources=(
        Source(Tag.READ, "NAVEDTRA 14250: insulated holders only"),
        PRACTICE,
    ),
    check=check,
    mark="bare",
    good=lambda: _holder(True),
    bad=lambda: _holder(False),
)
