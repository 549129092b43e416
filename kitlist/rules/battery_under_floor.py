"""battery-under-floor: a travelling battery with less charge than it must keep."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.outlook import BatteryOutlook
from kitlist.rules import example
from kitlist.rules.battery_may_freeze import freezes
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.rulebook import COLD_BELOW_C
from kitlist.sources import PRACTICE, Source, Tag


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery under its floor at departure: stop in the bank, fix elsewhere."""
    for name, battery in case.outlook.batteries_to_read.items():
        soc = battery.charge.soc_ratio
        if soc is None or soc.low >= battery.floor_ratio or freezes(battery, case.trip.coldest_c):
            continue  # battery-may-freeze says it where it does
        if name not in case.trip.bank and battery.crank is not None and battery.crank.cranks is False:
            continue  # engine-may-not-start says what that leads to
        under = soc.best < battery.floor_ratio
        yield Gap(
            subject=name,
            what=f"{name} {'will be' if under else 'may be'} under its floor at departure: {_band(battery)}, "
            f"floor {battery.floor_ratio * 100:.0f} %",
            remedy="Charge it alone, rest it 6 h or more, read it again."
            if under
            else "Charge it, or read it again after a longer rest with the battery's temperature written down.",
            command=f"kitlist volts {quoted(name)} VOLTS --rested 6h --temp DEGREES",
            measured=round(soc.best * 100),
            required=round(battery.floor_ratio * 100),
            unit="%",
            severity=Severity.NOTE if not under else None if name in case.trip.bank else Severity.FIX,
        )


def _band(battery: BatteryOutlook) -> str:
    soc = battery.charge.soc_ratio
    if soc is None:
        return "charge not known"
    return f"{soc.best * 100:.0f} % ({soc.low * 100:.0f} to {soc.high * 100:.0f})"


RULE = Rule(
    name="battery-under-floor",
    title="Battery under its floor",
    severity=Severity.STOP,
    why="The engine must still start in the cold after welding: 50 % is kept warm, 75 % where it may freeze. "
    "A battery already under that has nothing to give.",
    remedy="Charge it alone before departure.",
    sources=(PRACTICE, COLD_BELOW_C.source, Source(Tag.SECOND_HAND, "BCI open-circuit table")),
    check=check,
    numbers=("floor_warm_ratio", "floor_cold_ratio", "cold_below_c"),
    good=example.whole,
    bad=lambda: example.with_reading("south-main", volts_v=12.15),
)
