"""rod-polarity-not-known: a packed rod whose designation leaves its polarity open."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.designation.polarity import A3_0


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed rod with a designation that states no polarity."""
    for rod in case.outlook.rods:
        if rod.designation is not None and not rod.designation.polarities:
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name} ({rod.words}): the designation does not state its polarity",
                remedy="Read the packet for DC+ or DC−; write a designation that states it (E6013, E4313), "
                "or leave the rods at home.",
                command=f"kitlist rod edit {quoted(rod.rod.name)} designation=WORDS",
                known=False,
            )


RULE = Rule(
    name="rod-polarity-not-known",
    title="A rod that does not say its polarity",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why=(
        "A rod on the wrong pole spatters, sticks and does not melt in; the card cannot print a polarity that"
        " nobody knows."
    ),
    remedy="HOLDER TO + or HOLDER TO −, from the packet, written down before the trip.",
    sources=(
        A3_0,
        Source(Tag.SECOND_HAND, "ISO 2560-A states current by recovery digit, not polarity"),
    ),
    check=check,
    mark="polarity?",
    mark_not_known="polarity?",
    good=example.whole,
    bad=lambda: example.with_kit(rods=(example.rod("thick rods", designation="E 42 0 RR 12"),)),
)
