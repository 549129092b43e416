"""battery-inside: a battery of the bank that sits where people breathe and leads do not reach."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import noted
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import BatterySite
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each battery of the bank that sits in cabin or boot, by its field or by its note."""
    for outlook in case.outlook.bank_batteries:
        battery = outlook.battery
        told = battery.sits is BatterySite.UNKNOWN and noted("battery inside", battery.note)
        if battery.sits.inside or told:
            where = f"sits {battery.sits.words}" if battery.sits.inside else f"is noted as '{battery.note}'"
            yield Gap(
                subject=battery.name,
                what=f"{battery.name} {where}: its gas collects there, and links have to reach it",
                remedy="Lift it out into the open before it is linked, doors and windows open, an hour after "
                "its charge; or choose another battery. Then accept the gap with that.",
                command=f"kitlist accept battery-inside --for {quoted(case.trip.name)} --by NAME "
                f'--reason "WHAT IS DONE ABOUT IT" --until {case.trip.ends_on.isoformat()}',
            )


RULE = Rule(
    name="battery-inside",
    title="A battery of the bank inside the vehicle",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="Hydrogen from 4 % burns with a bang, and a link joined under a seat sparks in it.",
    remedy="Out in the open, or vented to the outside; the last joint never at its post.",
    sources=(Source(Tag.SECOND_HAND, "IEC 62485-2: 4 % by volume"), PRACTICE),
    check=check,
    mark="inside",
    good=lambda: example.with_battery("north-second", sits=BatterySite.TRAY),
    bad=lambda: example.with_battery("north-second", sits=BatterySite.UNDER_SEAT),
)
