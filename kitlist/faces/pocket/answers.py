"""Python's own answers to what can be typed into the pocket page, by the functions that every other face asks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass, replace
from functools import cache
from typing import Any

from kitlist.base.errors import KitlistError, OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Covering
from kitlist.faces.pocket.reckoned import Reckoned, RodOnBank
from kitlist.outlook.battery import BatteryOutlook
from kitlist.physics import figures
from kitlist.physics.arc.bead import BeadReadings, learn
from kitlist.physics.arc.learned import Learned
from kitlist.physics.bank.band import Band, current_band
from kitlist.physics.bank.rig import Rig
from kitlist.physics.bank.rods_by_volts import MOST_RODS, rods_by_volts
from kitlist.physics.bank.verdict import judge
from kitlist.physics.battery.charge import Charge, no_reading, state_of_charge, way_of
from kitlist.physics.battery.cranking import crank_check


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketBead:
    """A practice weld as it is typed: volts of the bank at rest and while welding, amps, volts at the holder."""

    rest_v: float
    bank_v: float
    current_a: float
    holder_v: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What is typed into the page: volts of each battery in its order, how they were read, the air, a practice weld."""

    volts: tuple[float | None, ...]
    rested_h: float | None = None
    bled: bool = False
    battery_temp_c: float | None = None
    air_c: float | None = None
    bead: PocketBead | None = None

    def as_data(self) -> dict[str, Any]:
        """As the script takes it: what is not typed is left out."""
        return {name: value for name, value in asdict(self).items() if value is not None and value is not False}


def answer(reckoned: Reckoned, typed: Typed) -> dict[str, Any]:
    """The answer of the page, in the script's own shape."""
    coldest_c = reckoned.coldest_c if typed.air_c is None else min(typed.air_c, reckoned.coldest_c)
    charges = {one.battery.name: _charge(one, at, typed) for at, one in enumerate(reckoned.batteries)}
    kinds = reckoned.kinds if reckoned.rig is not None else ()
    band_of = cache(lambda cellulosic: live_band(reckoned, charges, typed, cellulosic=cellulosic))
    return {
        "batteries": [
            {
                "charge": _shown(charges[one.battery.name]),
                "keeps": _keeps(one, coldest_c),
                "starts": _starts(one, charges[one.battery.name], coldest_c),
            }
            for one in reckoned.batteries
        ],
        "kinds": [_of_kind(reckoned, kind, charges, typed, coldest_c, band_of(kind.cellulosic)) for kind in kinds],
    }


def _charge(one: BatteryOutlook, at: int, typed: Typed) -> Charge | None:
    volts = typed.volts[at]
    if volts is None:
        return None
    try:
        return state_of_charge(
            chemistry=one.battery.chemistry,
            rested_v=volts,
            rested_h=typed.rested_h,
            temp_c=typed.battery_temp_c,
            quick_load=typed.bled,
        )
    except KitlistError as error:
        return Charge(None, error.message)


def _shown(charge: Charge | None) -> dict[str, Any] | None:
    """Its volts at 25 °C are not shown: the current is computed from them, and tells them apart."""
    return None if charge is None else {"soc_ratio": _span(charge.soc_ratio)}


def _span(span: Span | None) -> dict[str, float] | None:
    return None if span is None else {"low": span.low, "best": span.best, "high": span.high}


def _keeps(one: BatteryOutlook, coldest_c: float) -> float | None:
    """The charge, of full, that it keeps at the coldest; None where it is colder than anything is known."""
    try:
        return one.floor.at(coldest_c)
    except OutOfRange:
        return None


def _starts(one: BatteryOutlook, charge: Charge | None, coldest_c: float) -> bool | None:
    engine = one.floor.cranking
    if engine is None or charge is None:
        return None
    return crank_check(
        chemistry=engine.chemistry,
        soc_ratio=charge.soc_ratio,
        resistance=engine.resistance,
        temp_c=coldest_c,
        crank_a=engine.current_a,
    ).cranks


def _of_kind(
    reckoned: Reckoned,
    kind: RodOnBank,
    charges: Mapping[str, Charge | None],
    typed: Typed,
    coldest_c: float,
    band: Band,
) -> dict[str, Any]:
    rod = kind.rod
    fit = None
    if rod.range is not None:
        fit = judge(
            band,
            range_low_a=rod.range.low_a,
            range_high_a=rod.range.high_a,
            hot_limit_ratio=reckoned.hot_limit_ratio,
        )
    return {
        "rods": _rods(reckoned, kind, charges, typed, coldest_c),
        "band": {
            "low_a": band.low_a,
            "middle_a": band.middle_a,
            "high_a": band.high_a,
            "no_arc_ratio": band.no_arc_ratio,
        },
        "fit": None if fit is None else str(fit),
    }


def _rods(
    reckoned: Reckoned, kind: RodOnBank, charges: Mapping[str, Charge | None], typed: Typed, coldest_c: float
) -> dict[str, int] | None:
    """Rods sure and likely; None where a battery of the bank shows no charge."""
    lasting = kind.at(coldest_c)
    if lasting is None:
        return {"sure": 0, "likely": 0}
    way = way_of(rested_h=typed.rested_h, bled=typed.bled)
    sure = likely = MOST_RODS if lasting.in_a_row is None else lasting.in_a_row
    volts = {one.battery.name: typed.volts[at] for at, one in enumerate(reckoned.batteries)}
    known = [charge is not None and charge.soc_ratio is not None for charge in map(charges.get, lasting.kept)]
    read = [(kept, read_v) for name, kept in lasting.kept.items() if (read_v := volts.get(name)) is not None]
    if way is None or not all(known) or len(read) < len(lasting.kept):
        return None  # before any of them is reckoned: one that is too cold is no answer for one that nobody read
    for kept, read_v in read:
        try:
            count = rods_by_volts(
                kept,
                volts_v=read_v,
                charge_ah=kind.charge_ah,
                way=way,
                temp_c=coldest_c,
                battery_temp_c=typed.battery_temp_c,
            )
        except OutOfRange:
            return {"sure": 0, "likely": 0}
        sure, likely = min(sure, count.sure), min(likely, count.likely)
    return {"sure": sure, "likely": likely}


def live_band(reckoned: Reckoned, charges: Mapping[str, Charge | None], typed: Typed, *, cellulosic: bool) -> Band:
    """The current for the air as it is now, with what is read of the batteries and what a practice weld teaches.

    Of a rod only its covering counts: kinds that share it share the band.
    """
    if reckoned.rig is None:
        raise AssertionError("a bank that is not reckoned has no current")
    rig = reckoned.rig

    def now(name: str) -> dict[str, Any]:
        charge = charges.get(name)
        known = charge is not None and charge.soc_ratio is not None
        soc = charge.soc_ratio if known and charge else no_reading()
        return {"soc_ratio": soc, "ocv_25_v": charge.ocv_25_v if known and charge else None}

    live: Rig = replace(
        rig,
        groups=tuple(tuple(replace(b, **now(b.name)) for b in group) for group in rig.groups),
        temp_c=rig.temp_c if typed.air_c is None else Span.exactly(typed.air_c),
    )
    covering = Covering.CELLULOSIC if cellulosic else None
    return current_band(live, covering=covering, learned=_learned(typed.bead, rig))


def _learned(bead: PocketBead | None, rig: Rig) -> Learned | None:
    if bead is None:
        return None
    strings = len(rig.batteries) // rig.in_series
    return learn(
        BeadReadings(
            rest_v=bead.rest_v,
            bank_v=bead.bank_v,
            current_a=bead.current_a,
            holder_v=bead.holder_v,
            in_series=rig.in_series,
            in_parallel=strings,
        ),
        meter_ratio=figures.METER_RATIO.value,
        clamp_ratio=figures.CLAMP_METER_RATIO.value,
    )


FEWEST = 36
"""Answers that the page checks itself by, at the least."""


def asked(reckoned: Reckoned) -> tuple[Typed, ...]:
    """What the page checks itself by: volts from flat to fresh off charge, every way of reading, warm to bitter cold,
    with practice welds and without; each battery by itself the low one once."""
    if not reckoned.batteries:
        return ()
    first = (*_mixed(reckoned), *_one_low(reckoned), *_with_beads(reckoned))
    return (*first, *_rising(len(reckoned.batteries), FEWEST - len(first)))


def _mixed(reckoned: Reckoned) -> Iterator[Typed]:
    ways = ((24.0, False), (7.0, False), (3.0, False), (0.1, True), (None, True), (1.0, False), (None, False))
    airs = (None, 25.0, 5.0, 0.0, -0.5, reckoned.coldest_c, reckoned.coldest_c - 4.0, -30.0)
    temps = (None, 25.0, 4.0, -6.0, 33.0)
    ladder = (12.66, 12.45, 12.83, 12.05, 12.74, 11.4, 13.05, 12.7, 12.9, 12.31)
    for number in range(25):
        rested_h, bled = ways[number % len(ways)] if number % 3 else ways[number % 2]
        steps = (number + (3 * at if at % 2 == number % 2 else 0) for at in range(len(reckoned.batteries)))
        yield Typed(
            volts=tuple(ladder[step % len(ladder)] for step in steps),
            rested_h=rested_h,
            bled=bled,
            battery_temp_c=temps[number % len(temps)],
            air_c=airs[number % len(airs)],
        )


def _one_low(reckoned: Reckoned) -> Iterator[Typed]:
    count = len(reckoned.batteries)
    for at in range(min(count, 6)):
        volts = tuple(12.72 if own == at else 12.9 for own in range(count))
        yield Typed(volts=volts, rested_h=30.0, battery_temp_c=25.0, air_c=15.0)
    yield Typed(volts=(None,) * count, rested_h=12.0)


def _with_beads(reckoned: Reckoned) -> Iterator[Typed]:
    if reckoned.rig is None:
        return
    n, count = reckoned.rig.in_series, len(reckoned.batteries)
    for holder_v in (None, 9.2 * n, 8.3 * n):
        bead = PocketBead(rest_v=12.6 * n, bank_v=10.9 * n, current_a=140.0, holder_v=holder_v)
        with_bead = Typed(volts=(12.6,) * count, rested_h=8.0, battery_temp_c=10.0, air_c=10.0, bead=bead)
        try:
            answer(reckoned, with_bead)
        except KitlistError:
            continue  # no arc has such volts on a bank of so many
        yield with_bead


def _rising(count: int, how_many: int) -> Iterator[Typed]:
    for number in range(how_many):
        volts = round(12.96 - 0.07 * number, 2)
        yield Typed(volts=(volts,) * count, rested_h=30.0, battery_temp_c=30.0 - 5.0 * number)
