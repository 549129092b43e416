"""May these batteries be linked to weld? One predicate over a bank, asked by planner, rules, commands and papers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.terms import Chemistry
from kitlist.kit import Trip
from kitlist.kit.limits import Limits
from kitlist.outlook.ballasts import needs_ballast
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.refusal import Refusal
from kitlist.physics import figures
from kitlist.physics.battery.charge import kinds_of, ocv_points

NEW_FULL_V = 12.80
"""Volts of a full, rested battery of no known table: AGM's and gel's."""


class Bar(StrEnum):
    """What bars a bank."""

    ONE_BATTERY = "one battery never holds an arc"
    BATTERY = "a battery that may not be in a bank"
    WET = "too many volts for the wet"
    WET_NOT_SAID = "too many volts, and nobody has said whether it may be wet"
    BALLAST = "four in series without a ballast strip"
    APART = "parallel strings too far apart in volts"
    MIXED = "parallel strings of unlike chemistry"


@dataclass(frozen=True, slots=True, kw_only=True)
class BankBar:
    """One thing that bars a bank, and what it takes to say it: volts and their limit, or the battery and its reason."""

    bar: Bar
    battery: str = ""
    refusal: Refusal | None = None
    volts_v: float | None = None
    limit_v: float | None = None

    @property
    def for_good(self) -> bool:
        """Whether it bars the bank whatever is charged or read: it then has no card, no steps, no arithmetic."""
        if self.bar is Bar.APART:
            return False
        return self.refusal is None or self.refusal.why.for_good

    @property
    def for_today(self) -> bool:
        """Whether no step to link is shown today. Strings apart are levelled by charging; the card has them metered
        before they are joined, and holds no reading, so that it is made all the same."""
        return self.for_good or self.bar is Bar.APART

    def __str__(self) -> str:
        """As a sentence without its stop.

        >>> str(BankBar(bar=Bar.WET, volts_v=38.4, limit_v=35.0))
        'too many volts for the wet: 38.4 V full, 35 V at the most'
        """
        if self.bar is Bar.BATTERY:
            return f"{self.battery}: {self.refusal}"
        if self.volts_v is None or self.limit_v is None:
            return str(self.bar)
        if self.bar is Bar.APART:
            return f"{self.bar}: {self.volts_v:.2f} V, {self.limit_v:g} V at the most"
        return f"{self.bar}: {self.volts_v:.1f} V full, {self.limit_v:g} V at the most"


def full_v(chemistry: Chemistry) -> float:
    """Volts of a full, rested battery at 25 °C; of unknown kind the most."""
    if chemistry is Chemistry.LITHIUM:
        return NEW_FULL_V
    return max(ocv_points(kind)[-1][1] for kind in kinds_of(chemistry))


def most_v(trip: Trip, limits: Limits) -> float | None:
    """What a full bank may show on the trip; None where somebody has said that the welding stays dry."""
    return None if trip.wet is False else limits.wet_limit_v


def barred(
    trip: Trip, batteries: Mapping[str, BatteryOutlook], *, limits: Limits, ballast: bool = False
) -> tuple[BankBar, ...]:
    """Everything that bars the trip's bank; nothing where it may be linked as far as the bank itself goes."""
    return tuple(_barred(trip, batteries, limits, ballast))


def _barred(trip: Trip, batteries: Mapping[str, BatteryOutlook], limits: Limits, ballast: bool) -> Iterator[BankBar]:
    strings = [[batteries[name] for name in string if name in batteries] for string in trip.strings]
    if sum(map(len, strings)) == 1:
        yield BankBar(bar=Bar.ONE_BATTERY)
    for battery in (one for string in strings for one in string):
        if refusal := battery.not_now:
            yield BankBar(bar=Bar.BATTERY, battery=battery.battery.name, refusal=refusal)
    volts_v = max((sum(full_v(one.battery.chemistry) for one in string) for string in strings), default=0.0)
    allowed_v = most_v(trip, limits)
    if allowed_v is not None and volts_v > allowed_v:
        bar = Bar.WET if trip.wet else Bar.WET_NOT_SAID
        yield BankBar(bar=bar, volts_v=volts_v, limit_v=allowed_v)
    if needs_ballast(max(map(len, strings), default=0)) and not ballast:
        yield BankBar(bar=Bar.BALLAST)
    if len(strings) > 1:
        yield from _parallel(strings)


def _parallel(strings: Sequence[Sequence[BatteryOutlook]]) -> Iterator[BankBar]:
    """Parallel strings: of one kind, and level when they are joined."""
    if len({one.battery.chemistry for string in strings for one in string}) > 1:
        yield BankBar(bar=Bar.MIXED)
    rested = [[_rested_v(one) for one in string] for string in strings]
    if all(volts is not None for string in rested for volts in string):
        sums = [sum(volts for volts in string if volts is not None) for string in rested]
        apart_v, limit_v = max(sums) - min(sums), figures.PARALLEL_GAP_V.value
        if apart_v > limit_v + 1e-9:
            yield BankBar(bar=Bar.APART, volts_v=apart_v, limit_v=limit_v)


def _rested_v(battery: BatteryOutlook) -> float | None:
    """Rested volts at 25 °C as they are now; None where no reading shows them."""
    return battery.charge.ocv_25_v.best if battery.charge.ocv_25_v else None
