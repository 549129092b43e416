"""starting-batteries-not-clear: as many starting batteries are recorded of a vehicle as it does not have."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import StartBatteries
from kitlist.outlook.starters import starters_of, vehicles_of
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.starting_pair_parted import with_two


def check(case: Case) -> Iterator[Gap]:
    """A gap for each vehicle of the trip whose starting batteries do not fit how they are said to be joined."""
    for vehicle in vehicles_of(case.kit, case.trip):
        own, wanted = starters_of(case.kit, vehicle), vehicle.start_batteries.how_many
        if not own or len(own) == wanted:
            continue
        two = vehicle.start_batteries is StartBatteries.SINGLE
        yield Gap(
            subject=vehicle.name,
            what=f"{vehicle.name}: {len(own)} starting {'batteries are' if len(own) > 1 else 'battery is'} recorded, "
            f"{wanted} by how they are joined ({vehicle.start_batteries})",
            remedy="Look under the bonnet: side by side they are twins; with a bridge from one's + to the other's − "
            "they are a pair, and the vehicle is 24 V."
            if two
            else "Record the other one too: the engine starts on both.",
            command=f"kitlist vehicle edit {quoted(vehicle.name)} start-batteries=HOW"
            if two
            else f"kitlist battery add NAME vehicle={quoted(vehicle.name)} chemistry=KIND c20=CAPACITY",
            measured=len(own),
            required=wanted,
            unit="batteries",
            known=False,
            severity=None if any(battery.name in case.trip.bank for battery in own) else Severity.FIX,
        )


def _two_on_one() -> Example:
    made = with_two(StartBatteries.TWIN)
    return replace(
        made, kit=replace(made.kit, vehicles=tuple(replace(v, start_batteries=_ONE) for v in made.kit.vehicles))
    )


_ONE = StartBatteries.SINGLE

RULE = Rule(
    name="starting-batteries-not-clear",
    title="How a vehicle's starting batteries are joined is not clear",
    severity=Severity.STOP,
    doing=Doing.CHECK,
    why="A bridge left on puts one battery across a link; and an engine that starts on two does not start on one.",
    remedy="Say how they are joined, and record every one of them.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: with_two(StartBatteries.TWIN),
    bad=_two_on_one,
)
