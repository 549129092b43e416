"""battery-under-floor: a travelling battery with less charge than it must keep."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.span import Span
from kitlist.outlook import BatteryOutlook
from kitlist.rules import example
from kitlist.rules.battery_may_freeze import freezes
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.rulebook import COLD_BELOW_C


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery under what it must keep at departure: stop in the bank, fix elsewhere."""
    for name, battery in case.outlook.batteries_to_read.items():
        soc = battery.charge.soc_ratio
        chosen = name in case.trip.bank
        kept = battery.reserve_ratio if chosen else battery.floor_ratio  # engine-may-not-start looks after the others
        if soc is None or freezes(battery, case.trip.coldest_c):
            continue  # charge-not-known, battery-may-freeze
        if chosen and battery.never_cranks:
            yield _nothing_to_give(name, soc.best)
        elif soc.low < kept and (chosen or battery.crank is None or battery.crank.cranks is not False):
            yield _under(battery, soc, kept, chosen=chosen)


def _nothing_to_give(name: str, soc_ratio: float) -> Gap:
    return Gap(
        subject=name,
        what=f"{name} has nothing to give: even full it does not start its engine in the cold",
        remedy="Take another battery in its place; have this one load-tested or replaced.",
        command="kitlist bank",
        measured=round(soc_ratio * 100),
        required=100,
        unit="%",
    )


def _under(battery: BatteryOutlook, soc: Span, kept: float, *, chosen: bool) -> Gap:
    name, under, more = battery.battery.name, soc.best < kept, kept > battery.floor_ratio
    digits = int(under and round(soc.best * 100) == round(kept * 100))  # never 60 % under a floor of 60 %
    floor = (
        f"it keeps {kept * 100:.{digits}f} % {battery.reserve_for}"
        if more
        else f"floor {kept * 100:.{digits}f} % at {with_unit(battery.coldest_c, '°C')}"
    )
    return Gap(
        subject=name,
        what=f"{name} {'will be' if under else 'may be'} under its {'reserve' if more else 'floor'} at departure: "
        f"{_band(soc, digits)}, {floor}",
        remedy="Charge it alone, rest it 6 h or more, read it again."
        if under
        else "Charge it, or read it again after a longer rest with the battery's temperature written down.",
        command=f"kitlist volts {quoted(name)} VOLTS --rested HOURS --temp DEGREES",
        measured=round(soc.best * 100, digits or None),
        required=round(kept * 100, digits or None),
        unit="%",
        severity=Severity.NOTE if not under else None if chosen else Severity.FIX,
    )


def _band(soc: Span, digits: int) -> str:
    return f"{soc.best * 100:.{digits}f} % ({soc.low * 100:.0f} to {soc.high * 100:.0f})"


RULE = Rule(
    name="battery-under-floor",
    title="Battery under its floor",
    severity=Severity.STOP,
    doing=Doing.CHARGE,
    why="The engine must still start in the cold after welding. 50 % is kept warm; cold leaves less of the capacity, "
    "so that 63 % is kept at 0 °C and 80 % at −18 °C; 75 % where the bank takes every starting battery; more where its "
    "engine needs it. A battery under that has nothing to give.",
    remedy="Charge it alone before departure.",
    sources=(
        PRACTICE,
        COLD_BELOW_C.source,
        Source(Tag.READ, "capacity in the cold: TM 10-6140-200-14; TM 5-4210-230-14&P-1, Table 3"),
        Source(Tag.SECOND_HAND, "BCI open-circuit table"),
    ),
    check=check,
    numbers=("floor_warm_ratio", "floor_cold_ratio", "cold_below_c", "every_starter_ratio"),
    good=example.whole,
    bad=lambda: example.with_reading("south-main", volts_v=12.15),
)
