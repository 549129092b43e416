"""bag-stays-home: a bag whose place is a vehicle that does not go."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.noted import noted
from kitlist.base.sources import PRACTICE
from kitlist.kit import Bag, Kit
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import stowed


def check(case: Case) -> Iterator[Gap]:
    """A gap for each bag with something in it that rides in a vehicle that is not on this trip, or stands at home."""
    filled = {thing.bag for thing in stowed(case.kit)} | {battery.bag for battery in case.kit.batteries}
    for bag in case.kit.bags:
        vehicle = rides_in(bag, case.kit)
        if bag.name in filled and vehicle and vehicle not in case.trip.vehicles:
            yield Gap(
                subject=bag.name,
                what=f"{bag.name} rides in {vehicle}, and {vehicle} does not go",
                remedy="Move it into a vehicle that goes, and write down where; or take the vehicle along.",
                command=f"kitlist bag edit {quoted(bag.name)} place=WHERE",
            )
        elif bag.name in filled and not vehicle and noted("at home", bag.place):
            yield Gap(
                subject=bag.name,
                what=f"{bag.name} stands at home, in '{bag.place}', and in no vehicle that goes",
                remedy="Load it into a vehicle that goes, and write down where.",
                command=f"kitlist bag edit {quoted(bag.name)} place=WHERE",
            )


def rides_in(bag: Bag, kit: Kit) -> str:
    """The vehicle that a bag's place names, in whole words; "" where it names none, or two."""
    named = [
        vehicle.name
        for vehicle in kit.vehicles
        if re.search(rf"(?<!\w){re.escape(vehicle.name.casefold())}(?!\w)", bag.place.casefold())
    ]
    return named[0] if len(named) == 1 else ""


def _bag(place: str) -> Example:
    whole = example.whole()
    bags = tuple(replace(bag, place=place) if bag.name == example.BAG else bag for bag in whole.kit.bags)
    return example.with_kit(bags=bags, vehicles=(*whole.kit.vehicles, replace(whole.kit.vehicles[0], name="East")))


RULE = Rule(
    name="bag-stays-home",
    title="A bag in a vehicle that stays at home",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="A kit that is whole on paper is left on a shelf of the vehicle that did not come.",
    remedy="Every bag in a vehicle that goes, and its place written down.",
    sources=(PRACTICE,),
    check=check,
    mark="stays at home",
    good=lambda: _bag("South, tray"),
    bad=lambda: _bag("East, tray"),
)
