"""battery-failing: a travelling battery worn near its end, or losing charge faster than it should."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.errors import KitlistError
from kitlist.base.sources import Source, Tag
from kitlist.base.terms import DAMAGED
from kitlist.outlook import BatteryOutlook
from kitlist.outlook.battery import when_read
from kitlist.physics.battery.resistance import Basis, Wear, wear
from kitlist.physics.battery.standing import Standing, carry_forward
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery that is damaged, worn by its resistance, or falling faster than it should."""
    for name, battery in case.outlook.batteries_to_read.items():
        signs = [*_damaged(case, battery), *_worn(battery), *_falling(case, battery)]
        if signs:
            yield Gap(
                subject=name,
                what=f"{name} is failing: {'; '.join(signs)}",
                remedy="Replace it before leaving; do not charge or jump it."
                if battery.battery.condition in DAMAGED
                else "Have it load-tested, or replace it before leaving; keep it out of the bank.",
            )


def _damaged(case: Case, battery: BatteryOutlook) -> Iterator[str]:
    """What the eye sees on one outside the bank; in the bank it is refused."""
    if battery.battery.condition in DAMAGED and battery.battery.name not in case.trip.bank:
        yield f"it is {battery.battery.condition}"


def _worn(battery: BatteryOutlook) -> Iterator[str]:
    """A measured resistance over what a battery in good order of this rating has."""
    resistance, rating = battery.resistance, battery.rating
    if resistance is None or rating is None or rating.current_a is None or resistance.basis is not Basis.TESTER:
        return
    ohm = resistance.new_ohm.best
    verdict = wear(full_25_ohm=ohm, cca_sae_a=rating.current_a.best)
    if verdict is not Wear.GOOD:
        word = "worn" if verdict is Wear.WORN else "worn out"
        yield f"{word}, {ohm * 1000:.1f} mΩ where {3800 / rating.current_a.best:.1f} is good for its rating"


def _falling(case: Case, battery: BatteryOutlook) -> Iterator[str]:
    """A fall between its two newest rested readings that neither self-discharge nor a parked vehicle explains."""
    newest = battery.reading
    if newest is None or not battery.charge_when_read.known or battery.charge_when_read.soc_ratio is None:
        return
    at_rest = (r for r in case.kit.readings_of[battery.battery.name] if not r.load_a and r.taken_at < newest.taken_at)
    older = next(at_rest, None)
    if older is None:
        return
    was = when_read(battery.battery, older)
    days = (newest.taken_at - older.taken_at).total_seconds() / 86400
    known = [t for t in (newest.battery_temp_c, older.battery_temp_c) if t is not None]
    try:
        left = carry_forward(
            was,
            days=days,
            chemistry=battery.battery.chemistry,
            standing=Standing.DISCONNECTED if battery.battery.stays_connected is False else Standing.CONNECTED,
            mean_temp_c=sum(known) / len(known) if known else 20.0,
            capacity_ah=battery.battery.c20_ah,
        ).soc_ratio
    except KitlistError:
        return
    now = battery.charge_when_read.soc_ratio
    if left is not None and now.high < left.low:
        yield (
            f"from {older.volts_v:.2f} to {newest.volts_v:.2f} V in {days:.0f} days, "
            f"{now.best * 100:.0f} % where {left.low * 100:.0f} % at the least should be left"
        )


RULE = Rule(
    name="battery-failing",
    title="A battery that is failing",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why=(
        "A weak battery is the one that leaves its vehicle standing on a cold morning, and it drags a bank "
        "down with it."
    ),
    remedy="Test or replace it at home.",
    sources=(
        Source(Tag.DERIVED, "half-CCA load test, TM 5-4210-230-14&P-1, Table 5"),
        Source(Tag.PRACTICE, "self-discharge, and 20 to 50 mA of a parked vehicle"),
    ),
    check=check,
    mark="failing",
    good=lambda: example.with_battery("south-main", tester_mohm=4.7),
    bad=lambda: example.with_battery("south-main", tester_mohm=4.8),
)
