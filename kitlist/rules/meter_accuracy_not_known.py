"""meter-accuracy-not-known: a voltmeter whose accuracy nobody wrote down."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed voltmeter has a known accuracy."""
    meters = tools(case.kit, ToolKind.VOLTMETER)
    if meters and all(meter.accuracy_ratio is None for meter in meters):
        yield Gap(
            subject=meters[0].name,
            what=f"{meters[0].name}: its accuracy is not known; 0.5 % or better is wanted",
            remedy="Look it up in its papers, DC volts, and write it down.",
            command=f"kitlist tool edit {quoted(meters[0].name)} accuracy=PERCENT",
            required=0.5,
            unit="%",
            known=False,
        )


RULE = Rule(
    name="meter-accuracy-not-known",
    title="Meter of unknown accuracy",
    severity=Severity.NOTE,
    doing=Doing.CHECK,
    why=(
        "0.76 V is all there is between full and flat: a meter that is 0.5 % off shows 8 % of charge too much"
        " or too little."
    ),
    remedy="A meter of 0.5 % or better.",
    sources=(
        PRACTICE,
        Source(Tag.DERIVED, "±0.5 % of 12.6 V against 7.6 mV per 1 % of charge"),
    ),
    check=check,
    good=lambda: example.with_tool(ToolKind.VOLTMETER, accuracy_ratio=0.01),
    bad=lambda: example.with_tool(ToolKind.VOLTMETER, accuracy_ratio=None),
)
