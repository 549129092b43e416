"""gear-unsound: protective gear or a tool that is broken, or gear that nobody has looked over."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import noted
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed

_LOOKED_AT = (
    GearKind.HELMET,
    GearKind.HELMET_AUTO,
    GearKind.HAND_SHIELD,
    GearKind.SPARE_FILTER,
    GearKind.SAFETY_GLASSES,
    GearKind.GLOVES,
    GearKind.JACKET,
    GearKind.APRON,
    GearKind.SLEEVES,
)


def check(case: Case) -> Iterator[Gap]:
    """A gap for gear known to be unsound, for what a note says is broken, and one for all that nobody looked over."""
    for thing in case.kit.gear:
        if thing.sound is False and thing.count > 0:
            yield Gap(
                subject=thing.name,
                what=f"{thing.name}: unsound, and counts as not packed",
                remedy="Replace it, or take it out of the bag so that nobody reaches for it.",
            )
        elif thing.count > 0 and thing.what in _LOOKED_AT and noted("gear damage", thing.note):
            yield Gap(
                subject=thing.name,
                what=f"{thing.name}: its note says '{thing.note}'"
                + (", and it is written down as sound" if thing.sound else ""),
                remedy="Look at it in daylight: replace it, or put its note right.",
                command=f"kitlist gear edit {quoted(thing.name)} sound=ANSWER note=WORDS",
                known=False,
            )
    for tool in case.kit.tools:
        if tool.count > 0 and noted("tool damage", tool.note):
            yield Gap(
                subject=tool.name,
                what=f"{tool.name}: its note says '{tool.note}'",
                remedy="Try it before the trip: mend it, replace it, or put its note right.",
                command=f"kitlist tool edit {quoted(tool.name)} note=WORDS",
                known=False,
            )
    unseen = [t.name for t in case.kit.gear if t.sound is None and t.count > 0 and t.what in _LOOKED_AT]
    if unseen:
        yield Gap(
            subject=unseen[0],
            what=f"Nobody has looked over {listed(unseen)}",
            remedy="Filter whole, no light through the shell, no holes, dry; then write it down.",
            command=f"kitlist gear edit {quoted(unseen[0])} sound=ANSWER",
            also=tuple(unseen[1:]),
            measured=len(unseen),
            required=0,
            unit="pieces not looked over",
            known=False,
            severity=Severity.NOTE,
        )


RULE = Rule(
    name="gear-unsound",
    title="Gear unsound or not looked over",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="A hairline in the filter lets the arc through, and a hole in a glove lets the current through.",
    remedy="Look it all over in daylight before the trip.",
    sources=(PRACTICE,),
    check=check,
    mark="unsound",
    good=example.whole,
    bad=lambda: example.with_kit(
        gear=(*example.whole().kit.gear, example.gear("old gloves", GearKind.GLOVES, sound=False))
    ),
)
