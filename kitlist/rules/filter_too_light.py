"""filter-too-light: a helmet or spare filter that is under the strictest minimum for the current to be expected."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.terms import GearKind
from kitlist.kit import Gear
from kitlist.outlook.hardware import least_shade
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import COVERS_FACE
from kitlist.welding.rods.shades import AS_NZS, EN_169, GUIDE, MOST_A, OSHA, advised_shade


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed face cover or spare filter too light, or of unknown shade, at the band's 90 % amps."""
    highest_a = case.outlook.highest_a
    if highest_a is None or highest_a <= 0:
        return
    least = least_shade(case.limits, current_a=highest_a)
    advised = max(advised_shade(current_a=min(highest_a, MOST_A)), least.shade)
    limit = f"{least.shade} at the least for up to {highest_a:.0f} A ({least.rule}), {advised} advised"
    for gear in case.kit.gear:
        if gear.what not in (*COVERS_FACE, GearKind.SPARE_FILTER) or gear.count == 0 or gear.sound is False:
            continue
        if gear.shade is None:
            yield Gap(
                subject=gear.name,
                what=f"{gear.name}: its shade is not known; {limit}",
                remedy="Read it off the filter, and write it down.",
                command=f"kitlist gear edit {quoted(gear.name)} shade=NUMBER",
                required=least.shade,
                unit="shade",
                known=False,
            )
        elif gear.shade < least.shade:
            yield Gap(
                subject=gear.name,
                what=f"{gear.name}: shade {gear.shade:g}; {limit}",
                remedy=f"Fit a filter of shade {least.shade} or darker, {advised} to start with, or leave it at home.",
                measured=gear.shade,
                required=least.shade,
                unit="shade",
            )


def _helmet(shade: float) -> Gear:
    return Gear(name="helmet", what=GearKind.HELMET, shade=shade, sound=True, count=2)


RULE = Rule(
    name="filter-too-light",
    title="Filter too light",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="The current decides the shade, and a bank of batteries without ballast gives more than a rod's usual current.",
    remedy="Never under the strictest minimum at the highest current to be expected. Start dark, then lighten.",
    sources=(OSHA, AS_NZS, EN_169, GUIDE),
    check=check,
    numbers=("shade_region",),
    mark="too light",
    good=lambda: example.without_gear(*COVERS_FACE, also=(_helmet(11),)),
    bad=lambda: example.without_gear(*COVERS_FACE, also=(_helmet(10),)),
    acceptable=False,
)
