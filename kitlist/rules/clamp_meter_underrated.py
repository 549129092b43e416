"""clamp-meter-underrated: a clamp meter whose range ends below the current to be expected."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed clamp meter is known to reach the highest current to be expected."""
    packed, highest_a = tools(case.kit, ToolKind.CLAMP_METER), case.outlook.highest_a
    if not packed or not highest_a:
        return
    ranges = [meter.rating_a for meter in packed if meter.rating_a is not None]
    if not ranges:
        yield Gap(
            subject=packed[0].name,
            what=f"{packed[0].name}: its range is not known; up to {highest_a:.0f} A direct current is to be expected",
            remedy="Read it off the meter, direct current and not alternating, and write it down.",
            command=f"kitlist tool edit {quoted(packed[0].name)} rating-a=AMPS",
            required=round(highest_a),
            unit="A",
            known=False,
        )
    elif max(ranges) < highest_a:
        yield Gap(
            subject=packed[0].name,
            what=f"{packed[0].name}: to {max(ranges):g} A; up to {highest_a:.0f} A is to be expected",
            remedy="Pack one that reads direct current to 400 A or more.",
            measured=max(ranges),
            required=round(highest_a),
            unit="A",
        )


RULE = Rule(
    name="clamp-meter-underrated",
    title="A clamp meter that does not reach",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why="A meter off its scale says nothing just when the current is highest.",
    remedy="Direct current to 400 A.",
    sources=(PRACTICE,),
    check=check,
    mark="short range",
    good=lambda: example.with_tool(ToolKind.CLAMP_METER, rating_a=400),
    bad=lambda: example.with_tool(ToolKind.CLAMP_METER, rating_a=100),
)
