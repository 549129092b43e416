"""battery-may-freeze: a travelling battery so low that its acid may freeze on this trip."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.measures import number, told_apart
from kitlist.base.sources import Source, Tag
from kitlist.base.terms import BatteryPlace
from kitlist.outlook import BatteryOutlook
from kitlist.physics.battery.standing import freezing_point, may_freeze
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery whose low bound of charge freezes: stop in the bank, fix elsewhere."""
    coldest_c = case.trip.coldest_c
    for name, battery in case.outlook.batteries_to_read.items():
        if coldest_c is None or not freezes(battery, coldest_c):
            continue
        low = battery.charge.soc_ratio.low if battery.charge.soc_ratio else 0.0
        freezes_c = freezing_point(soc_ratio=low)
        places = len(number(coldest_c, "°C").partition(".")[2])  # as finely as the cold was said
        acid, expected = told_apart(freezes_c, coldest_c, places=places)
        yield Gap(
            subject=name,
            what=f"{name} may freeze: at {low * 100:.0f} % its acid freezes at {acid} °C, {expected} °C is expected",
            remedy="Charge it full before the cold. Never charge, load or jump a frozen battery.",
            command=f"kitlist volts {quoted(name)} VOLTS --rested HOURS --temp DEGREES",
            measured=coldest_c,
            required=round(freezes_c, 1),
            unit="°C",
            severity=None if name in case.trip.bank else Severity.FIX,
        )


def freezes(battery: BatteryOutlook, coldest_c: float | None) -> bool:
    """Whether a battery of known charge may freeze on the trip."""
    soc = battery.charge.soc_ratio
    return coldest_c is not None and soc is not None and may_freeze(soc_ratio=soc, coldest_c=coldest_c) is True


def _cold(coldest_c: float) -> Example:
    """The whole kit in the cold, with no more rods than its batteries then give."""
    few = example.with_kit(rods=(example.rod("thick rods", count=3),))
    return replace(few, trip=replace(few.trip, coldest_c=coldest_c))


def _loose(coldest_c: float) -> Example:
    """The same with a loose battery, nearly flat."""
    case = _cold(coldest_c)
    flat = example.battery("loose", None, place=BatteryPlace.LOOSE, bag=example.BAG)
    kit = replace(
        case.kit,
        batteries=(*case.kit.batteries, flat),
        readings=(*case.kit.readings, example.reading("loose", volts_v=11.95)),
    )
    return replace(case, kit=kit)


RULE = Rule(
    name="battery-may-freeze",
    title="A battery that may freeze",
    severity=Severity.STOP,
    doing=Doing.CHARGE,
    why=("A flat battery freezes a little below zero, splits its case, and may burst when it is charged or loaded."),
    remedy="Charge it: a full battery freezes nowhere people go.",
    sources=(Source(Tag.READ, "TM 5-4210-230-14&P-1, Table 2"),),
    check=check,
    good=lambda: _cold(-12),
    bad=lambda: _loose(-12),
)
