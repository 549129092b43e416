"""From volts to rods and back: how many rods a battery gives down to what it keeps, sure and likely.

One function behind every face. Sure: the volts less all that they may be too high by, and thirsty rods. Likely: the
volts as read and rods of the usual thirst. Rods of a bank are the least over its batteries.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from math import ceil, floor

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Source, Tag, sourced
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics import figures
from kitlist.physics.battery.charge import Way, charge_at, doubt_v, fresh_v, kinds_of, ocv_points
from kitlist.physics.battery.cold import WARM_C, Floor
from kitlist.physics.battery.standing import NO_LOSS, Loss

SCREEN_V, PAPER_V = 0.01, 0.05
"""Steps to which volts are rounded up: on a screen, and on paper, where a pointer or a cold eye reads them."""
_DERIVED = Source(Tag.DERIVED, "ampere-hours from the table of rested volts to the floor in the cold")
_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class RodBattery:
    """One battery as rods are counted: `share_ratio` of the bank's current is its own; `floor` is what it keeps.

    `loss` is what standing since the reading took.
    """

    chemistry: Chemistry
    capacity_ah: float
    floor: Floor = field(default_factory=Floor)
    share_ratio: float = 1.0
    meter_ratio: float = figures.METER_RATIO.value
    loss: Loss = NO_LOSS


@sourced(_DERIVED, Source(Tag.READ, "TM 10-6140-200-14; TM 5-4210-230-14&P-1, Table 3"))
def spare_ratio(
    battery: RodBattery, *, volts_v: float, less_v: float = 0.0, temp_c: float, battery_temp_c: float | None = None
) -> float:
    """Charge over the floor, of full, that rested volts show once `less_v` is taken off; below 0 where it is under it.

    With something taken off, standing is taken to have cost the most that it may have; without, what is likely.

    `temp_c` is the coldest of the trip, `battery_temp_c` the battery's own when it was read (None: 25 °C). The least
    over both raised together until the battery is at 25 °C: so, at equal volts, a colder one never shows more.

    >>> full = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
    >>> round(spare_ratio(full, volts_v=12.65, temp_c=25.0), 3)
    0.5
    """
    own_c = WARM_C if battery_temp_c is None else battery_temp_c
    slope = figures.OCV_SLOPE.value
    loss = battery.loss
    left, drained = (
        (loss.left_ratio.low, loss.drained_ratio.high) if less_v else (loss.left_ratio.best, loss.drained_ratio.best)
    )

    def spare(at_c: float, just_under: bool = False) -> float:
        """With the trip's coldest at `at_c`, and the battery warmer by as much."""
        volts_25_v = volts_v + slope * (WARM_C - own_c - (at_c - temp_c))
        charge = charge_at(volts_25_v=volts_25_v, chemistry=battery.chemistry, less_v=less_v)
        return charge * left - drained - battery.floor.at(at_c, just_under=just_under)

    reach_k = max(0.0, WARM_C - own_c)
    found = [spare(at_c, under) for at_c, under in battery.floor.turns(temp_c, temp_c + reach_k)]
    if reach_k > 0.0:
        # Between the floor's turns the charge bends at the points of its table, and where it is fresh off charge.
        top = fresh_v(battery.chemistry)
        bends = [top, *(v + less_v for kind in kinds_of(battery.chemistry) for _, v in ocv_points(kind))]
        over_k = ((volts_v - bend) / slope + WARM_C - own_c for bend in bends)
        found += [spare(temp_c + over) for over in over_k if 0.0 < over < reach_k]
    return min(found)


@sourced(_DERIVED)
def rods_shown(
    battery: RodBattery,
    *,
    volts_v: float,
    charge_ah: float,
    less_v: float = 0.0,
    temp_c: float,
    battery_temp_c: float | None = None,
) -> int:
    """Whole rods of `charge_ah` each that rested volts show, down to the floor.

    >>> full = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
    >>> rods_shown(full, volts_v=12.65, charge_ah=2.05, temp_c=25.0)
    17
    """
    if charge_ah <= 0.0 or battery.capacity_ah <= 0.0:
        raise OutOfRange(f"a rod of {charge_ah:g} Ah from a battery of {battery.capacity_ah:g} Ah: both must be over 0")
    if battery.share_ratio <= 0.0:
        return MOST_RODS
    spare = spare_ratio(battery, volts_v=volts_v, less_v=less_v, temp_c=temp_c, battery_temp_c=battery_temp_c)
    return rods_of(spare, capacity_ah=battery.capacity_ah, charge_ah=charge_ah * battery.share_ratio)


MOST_RODS = 500
"""More than anybody burns: where nothing else ends them."""


def rods_of(spare: float, *, capacity_ah: float, charge_ah: float) -> int:
    """Whole rods in a spare charge, of full; never under 0.

    >>> rods_of(0.4, capacity_ah=70.0, charge_ah=2.46)
    11
    """
    return min(MOST_RODS, max(0, floor(spare * capacity_ah / charge_ah + _HAIR)))


@dataclass(frozen=True, slots=True, order=True)
class SureLikely:
    """Rods that are sure, and that are likely."""

    sure: int
    likely: int

    @property
    def words(self) -> str:
        """As every face says it: 7 sure, likely 12."""
        return f"{self.sure} sure, likely {self.likely}"


def rods_by_volts(
    battery: RodBattery,
    *,
    volts_v: float,
    charge_ah: Span,
    way: Way,
    temp_c: float,
    battery_temp_c: float | None = None,
) -> SureLikely:
    """Rods that a reading shows: sure by its doubt and the thirstiest rod, likely by the volts as they are.

    >>> flooded = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
    >>> rod = Span(1.64, 2.05, 2.46)
    >>> rods_by_volts(flooded, volts_v=12.65, charge_ah=rod, way=Way.RESTED, temp_c=0.0, battery_temp_c=0.0).words
    '8 sure, likely 12'
    """
    doubt = doubt_v(chemistry=battery.chemistry, way=way, meter_ratio=battery.meter_ratio)
    seen = {"volts_v": volts_v, "temp_c": temp_c}
    sure = rods_shown(battery, **seen, charge_ah=charge_ah.high, less_v=doubt, battery_temp_c=battery_temp_c)
    likely = rods_shown(battery, **seen, charge_ah=charge_ah.best, battery_temp_c=battery_temp_c)
    return SureLikely(sure, max(sure, likely))


def full_reads_v(chemistry: Chemistry, *, battery_temp_c: float) -> float:
    """What a full, rested battery reads at its own temperature, V; of unknown kind the least.

    >>> round(full_reads_v(Chemistry.AGM, battery_temp_c=-6.0), 3)
    12.761
    """
    top_v = min(ocv_points(kind)[-1][1] for kind in kinds_of(chemistry))
    return top_v - figures.OCV_SLOPE.value * (WARM_C - battery_temp_c)


@cache
def volts_for(
    battery: RodBattery, *, rods: int, charge_ah: float, way: Way, temp_c: float, battery_temp_c: float | None = None
) -> float:
    """Rested volts at which so many rods are sure, V; infinity where no reading shows them.

    >>> flooded = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
    >>> round(volts_for(flooded, rods=3, charge_ah=2.46, way=Way.BLED, temp_c=25.0), 2)
    12.46
    """
    own_c = WARM_C if battery_temp_c is None else battery_temp_c
    doubt = doubt_v(chemistry=battery.chemistry, way=way, meter_ratio=battery.meter_ratio)
    needed = rods * charge_ah * battery.share_ratio / battery.capacity_ah

    def enough(volts_v: float) -> bool:
        spare = spare_ratio(battery, volts_v=volts_v, less_v=doubt, temp_c=temp_c, battery_temp_c=own_c)
        return spare >= needed - _HAIR

    low, high = 10.0, fresh_v(battery.chemistry) + figures.OCV_SLOPE.value * abs(own_c - WARM_C) + 0.01
    if not enough(high):
        return float("inf")
    while high - low > 1e-7:
        middle = (low + high) / 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high


def up(volts_v: float, step_v: float) -> float:
    """Volts rounded up to a step; what lies a hair over one is that one.

    >>> up(12.4551, 0.01), up(12.4551, 0.05), up(12.5000001, 0.05)
    (12.46, 12.5, 12.5)
    """
    per = round(1 / step_v)
    return ceil(volts_v * per - 1e-4) / per


@dataclass(frozen=True, slots=True, kw_only=True)
class VoltMarks:
    """The volts of one battery, V at its own temperature: `go_v` to begin, `after_v` to have kept the floor.

    `go_v` is None where even a full battery cannot show the rods; `sure` is then what it can. `shows_v` is what a
    reading taken in the way that was asked must show for the floor to be sure: under it, charge before starting.
    """

    go_v: float | None
    after_v: float
    shows_v: float
    full_v: float
    sure: int


@sourced(_DERIVED)
def marks(
    battery: RodBattery,
    *,
    rods: int,
    charge_ah: float,
    way: Way,
    temp_c: float,
    battery_temp_c: float | None = None,
    step_v: float = SCREEN_V,
) -> VoltMarks:
    """Go and after volts for so many rods of `charge_ah` each (thirsty), rounded up to `step_v`.

    Where a step of 0.05 V would pass what a full battery reads, 0.01.

    >>> flooded = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
    >>> seen = marks(flooded, rods=3, charge_ah=2.46, way=Way.BLED, temp_c=-6.0, battery_temp_c=-6.0)
    >>> seen.go_v, seen.after_v, seen.shows_v
    (12.58, 12.36, 12.49)
    """
    own_c = WARM_C if battery_temp_c is None else battery_temp_c
    doubt = doubt_v(chemistry=battery.chemistry, way=way, meter_ratio=battery.meter_ratio)
    full_v = full_reads_v(battery.chemistry, battery_temp_c=own_c)
    shown = {"way": way, "temp_c": temp_c, "battery_temp_c": own_c}
    exact_v = volts_for(battery, rods=rods, charge_ah=charge_ah, **shown)
    floor_v = volts_for(battery, rods=0, charge_ah=charge_ah, **shown)
    go_v = None
    if up(exact_v, SCREEN_V) <= full_v + _HAIR if exact_v != float("inf") else False:
        coarse_v = up(exact_v, step_v)
        go_v = coarse_v if coarse_v <= full_v + _HAIR else up(exact_v, SCREEN_V)
    known_v = full_v if floor_v == float("inf") else floor_v
    reads_v = floor(full_v * 100 + 1e-4) / 100
    return VoltMarks(
        go_v=go_v,
        after_v=up(known_v - (0.0 if floor_v == float("inf") else doubt), step_v),
        shows_v=up(known_v, SCREEN_V if up(known_v, step_v) > full_v else step_v),
        full_v=reads_v,
        sure=rods_shown(
            battery, volts_v=reads_v, charge_ah=charge_ah, less_v=doubt, temp_c=temp_c, battery_temp_c=own_c
        ),
    )


@dataclass(frozen=True, slots=True)
class VoltRow:
    """One row of the table: volts, and the sure rods of each kind at that reading."""

    volts_v: float
    rods: tuple[int, ...]


def rows(
    battery: RodBattery, *, charges_ah: Sequence[float], way: Way, temp_c: float, battery_temp_c: float | None = None
) -> Iterator[VoltRow]:
    """The table of one battery, from what it reads when full down to no rod: each 0.05 V, to be read at or under.

    >>> flooded = RodBattery(chemistry=Chemistry.FLOODED, capacity_ah=70.0)
    >>> [(row.volts_v, row.rods[0]) for row in rows(flooded, charges_ah=[2.46], way=Way.RESTED, temp_c=25.0)][:3]
    [(12.65, 11), (12.6, 9), (12.55, 7)]
    """
    own_c = WARM_C if battery_temp_c is None else battery_temp_c
    doubt = doubt_v(chemistry=battery.chemistry, way=way, meter_ratio=battery.meter_ratio)
    step = floor(full_reads_v(battery.chemistry, battery_temp_c=own_c) / PAPER_V + 1e-6)
    while step * PAPER_V > ocv_points(kinds_of(battery.chemistry)[0])[0][1]:
        volts_v = round(step * PAPER_V, 2)
        seen = {"volts_v": volts_v, "temp_c": temp_c}
        found = tuple(
            rods_shown(battery, **seen, charge_ah=charge_ah, less_v=doubt, battery_temp_c=own_c)
            for charge_ah in charges_ah
        )
        yield VoltRow(volts_v, found)
        if not any(found):
            return
        step -= 1
