"""rod-not-known: a packet that cannot be judged, by its designation or its size."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.no_usable_rod import none_usable


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed rod whose designation or current range is not known."""
    if none_usable(case):
        return  # no-usable-rod says what to do
    for rod in case.outlook.rods:
        if rod.not_known:
            yield Gap(
                subject=rod.rod.name,
                what=f"{rod.rod.name} ({rod.words}) cannot be judged: {rod.not_known[0]}",
                remedy="Read the packet again, or leave the rods at home.",
                command=f"kitlist rod edit {quoted(rod.rod.name)} designation=WORDS diameter=MM",
                known=False,
            )


RULE = Rule(
    name="rod-not-known",
    title="A rod that cannot be judged",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="Covering, polarity and current all follow from the designation; a rod without one is scrap in the dark.",
    remedy="Write down what the packet says, or leave the rods at home.",
    sources=(Source(Tag.MEMORY, "AWS A5.1"), Source(Tag.SECOND_HAND, "ISO 2560")),
    check=check,
    mark="not known",
    good=example.whole,
    bad=lambda: example.with_kit(rods=(*example.whole().kit.rods, example.rod("mystery", designation="X99"))),
)
