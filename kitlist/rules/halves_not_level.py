"""halves-not-level: two starting batteries read so far apart that the fuller one is harmed where they are joined."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.terms import StartBatteries
from kitlist.outlook.starters import Halves, halves, vehicles_of
from kitlist.physics.bank.pairs import (
    ALTERNATOR_24_V,
    BRIDGE_BACK_V,
    BRIDGE_CAMP_V,
    TAKES_CHARGE_V,
    TWIN_BACK_V,
    Rejoin,
)
from kitlist.physics.battery.gas import hydrogen_l
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.starting_pair_parted import with_two


def check(case: Case) -> Iterator[Gap]:
    """A gap for each vehicle of the trip whose two are not level; halves of 24 V to a tenth of a volt a note."""
    newest = {name: battery.reading for name, battery in case.outlook.batteries.items()}
    for vehicle in vehicles_of(case.kit, case.trip):
        found = halves(case.kit, vehicle, newest)
        if found is None or found.may is Rejoin.BACK:
            continue
        if vehicle.start_batteries is StartBatteries.TWIN:
            yield _twins(found)
            continue
        camp = found.may is Rejoin.CAMP_ONLY
        sees_v = ALTERNATOR_24_V.value - TAKES_CHARGE_V.value
        yield Gap(
            subject=found.lower.battery,
            also=(found.higher.battery,),
            what=f"{vehicle.name}: its halves are {found.apart_v:.2f} V apart, {found.higher.battery} over "
            f"{found.lower.battery}; {BRIDGE_BACK_V.value:g} V at the most under the alternator",
            remedy="To camp only; charge each alone today, then read both on one meter after rest."
            if camp
            else f"Not under the alternator: the fuller half sees about {sees_v:.0f} V, and each ampere-hour that the "
            f"other still takes makes {hydrogen_l(surplus_ah=1.0):.1f} l of hydrogen in it. Charge each alone, then "
            "read both on one meter after rest.",
            measured=found.apart_v,
            required=BRIDGE_CAMP_V.value if not camp else BRIDGE_BACK_V.value,
            unit="V",
            severity=Severity.NOTE if camp else None,
        )


def _twins(found: Halves) -> Gap:
    return Gap(
        subject=found.lower.battery,
        also=(found.higher.battery,),
        what=f"{found.vehicle.name}: its twins are {found.apart_v:.2f} V apart, {found.higher.battery} over "
        f"{found.lower.battery}; {TWIN_BACK_V.value:g} V at the most side by side",
        remedy="Part them; charge the lower one alone, then read both on one meter after rest.",
        measured=found.apart_v,
        required=TWIN_BACK_V.value,
        unit="V",
    )


def twins_apart(higher_v: float) -> Example:
    """The whole kit with a vehicle of twins, one at 12.82 V and the other at `higher_v`."""
    made = with_two(StartBatteries.TWIN)
    readings = tuple(replace(r, volts_v=higher_v) if r.battery == "west-other" else r for r in made.kit.readings)
    return replace(made, kit=replace(made.kit, readings=readings))


def apart(higher_v: float) -> Example:
    """The whole kit with a 24 V vehicle, one half at 12.82 V and the other at `higher_v`."""
    made = with_two(StartBatteries.PAIR)
    readings = tuple(replace(r, volts_v=higher_v) if r.battery == "west-other" else r for r in made.kit.readings)
    return replace(made, kit=replace(made.kit, readings=readings))


RULE = Rule(
    name="halves-not-level",
    title="Two starting batteries that are not level",
    severity=Severity.FIX,
    doing=Doing.CHARGE,
    why="28 V over two unequal halves gives the full one about 15 V: it gases hydrogen while the other stays empty.",
    remedy="Each half charged alone, then both read on one meter.",
    sources=(BRIDGE_BACK_V.source, BRIDGE_CAMP_V.source, TWIN_BACK_V.source, ALTERNATOR_24_V.source),
    check=check,
    mark="not level",
    good=lambda: apart(12.87),
    bad=lambda: apart(12.95),
)
