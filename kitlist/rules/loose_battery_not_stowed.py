"""loose-battery-not-stowed: a loose battery that travels with no bag or box to hold it."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import BatteryPlace
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each loose battery without a bag."""
    for battery in case.kit.travelling(case.trip):
        if battery.place is BatteryPlace.LOOSE and battery.bag is None:
            yield Gap(
                subject=battery.name,
                what=f"{battery.name} travels loose, and where it is held is not written down",
                remedy="Strap it upright in a box or tray, posts capped, away from people, and write down where.",
                command=f"kitlist battery edit {quoted(battery.name)} bag=BAG",
                known=False,
            )


def _loose(bag: str | None) -> Example:
    battery = example.battery("loose", None, place=BatteryPlace.LOOSE, bag=bag)
    kit = example.whole().kit
    return example.with_kit(batteries=(*kit.batteries, battery), readings=(*kit.readings, example.reading("loose")))


RULE = Rule(
    name="loose-battery-not-stowed",
    title="A loose battery without a place",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="A loose battery in a roll-over is 20 kg of acid with two live posts.",
    remedy="Strapped upright, posts capped, caps tight, not in the cab.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: _loose(example.BAG),
    bad=lambda: _loose(None),
)
