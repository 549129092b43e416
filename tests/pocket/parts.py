"""The functions of the page's script one by one: what Python's of the same name says to the same question.

An answer of the page rounds to whole rods and to a verdict; what is rounded away is compared here.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from typing import Any

from kitlist.base.errors import KitlistError
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.faces.pocket.reckoned import Reckoned, exported
from kitlist.physics import figures
from kitlist.physics.arc.bead import BeadReadings, learn
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.rods_by_volts import RodBattery, spare_ratio
from kitlist.physics.bank.verdict import judge
from kitlist.physics.battery.charge import (
    Charge,
    doubt_v,
    fresh_v,
    kinds_of,
    ocv_points,
    rested_volts,
    state_of_charge,
    way_of,
)
from kitlist.physics.battery.cold import Floor, capacity_ratio
from kitlist.physics.battery.cranking import Cranking, least_crank_volts
from kitlist.physics.battery.resistance import effect_of_state, source_resistance

Question = tuple[str, list[Any], Any]
"""A function of the script, what it is given, and what Python says; REFUSED where Python refuses."""
REFUSED = {"refused": True}
ASK_PARTS = """([data, questions]) => {
  const parts = reckoning(data);
  return questions.map(([name, given]) => {
    try { return parts[name](...given); } catch (error) {
      if (error instanceof parts.OutOfRange) return { refused: true };
      throw error;
    }
  });
}"""


def _said(ask: Callable[..., Any], **given: Any) -> Any:
    """What Python says, of a span the best guess."""
    try:
        found = ask(**given)
    except KitlistError:
        return REFUSED
    return found.best if isinstance(found, Span) else found


def span_data(span: Span | None) -> dict[str, float] | None:
    return None if span is None else {"low": span.low, "best": span.best, "high": span.high}


def questions(reckoned: Reckoned, chance: random.Random) -> list[Question]:
    """What is asked of the parts for one crew: its own floors and batteries, volts and temperatures of every kind."""
    return [*_of_volts(chance), *_of_cold(), *_of_floors(reckoned, chance), *_of_bends(), *_of_beads(), *_of_verdicts()]


def _of_volts(chance: random.Random) -> Iterator[Question]:
    for chemistry in (*kinds_of(Chemistry.UNKNOWN), Chemistry.UNKNOWN):
        full_v = max(points[-1][1] for points in map(ocv_points, kinds_of(chemistry)))
        ladder = (11.2, 12.0, 12.41, fresh_v(chemistry), fresh_v(chemistry) + 0.004)
        for volts in ladder:
            rested_h, temp_c = chance.choice((None, 1.0, 2.0, 5.9, 6.0, 24.0)), chance.choice((None, -7.5, 41.0, 60.0))
            yield _charge(chemistry, volts, rested_h=rested_h, temp_c=temp_c, quick_load=chance.random() < 0.5)
        for over_v in (0.49, 0.51):
            yield _charge(chemistry, full_v + over_v, rested_h=24.0, temp_c=25.0, quick_load=True)
        if chemistry is not Chemistry.UNKNOWN:
            for soc, temp_c in ((0.0, 25.0), (0.33, -18.0), (1.0, 40.0)):
                volts = rested_volts(soc_ratio=soc, chemistry=chemistry, temp_c=temp_c)
                yield "rested_volts", [{"chemistry": str(chemistry), "soc_ratio": soc, "temp_c": temp_c}], volts


def _charge(chemistry: Chemistry, rested_v: float, **how: Any) -> Question:
    given = {"rested_v": rested_v, **how}
    try:
        charge = state_of_charge(chemistry=chemistry, **given)
    except KitlistError:
        charge = Charge(None, "")  # the page says so beside the battery
    shown = {"soc_ratio": span_data(charge.soc_ratio), "ocv_25_v": span_data(charge.ocv_25_v)}
    return "state_of_charge", [{"chemistry": str(chemistry), "meter_ratio": figures.METER_RATIO.value, **given}], shown


def _of_cold() -> Iterator[Question]:
    for temp_c in (-18.0, -12.2, 0.0, 3.3, 15.7, 18.6, 20.5, 21.0, 30.0, 59.0, 60.0, 61.5, 63.5):
        yield "least_crank_volts", [{"temp_c": temp_c}], _said(least_crank_volts, temp_c=temp_c)
    for temp_c in (-41.0, -39.5, 21.0, 59.5, 61.0):
        state = _said(effect_of_state, soc_ratio=0.6, temp_c=temp_c)
        yield "effect_of_state", [{"soc_ratio": 0.6, "temp_c": temp_c}], state
    for temp_c in (-29.5, -29.0, -23.4, -18.0, -9.1, 0.0, 12.5, 24.9, 25.0, 31.0):
        yield "capacity_ratio", [{"temp_c": temp_c}], _said(capacity_ratio, temp_c=temp_c)


def _of_floors(reckoned: Reckoned, chance: random.Random) -> Iterator[Question]:
    """Floors of this crew's batteries, with what each kind of rod asks of them."""
    data = exported(reckoned)
    for place, battery in enumerate(reckoned.batteries):
        own = data["batteries"][place]
        crank = battery.floor.cranking
        for temp_c in (-31.0, -29.0, -18.4, -11.5, -2.3, 0.0, 7.7, 24.4, 25.0, 25.5):
            if crank is not None:
                given = [own["floor"]["cranking"], temp_c]
                yield "charge_ratio", given, _said(crank.charge_ratio, temp_c=temp_c)
                yield "hardest_ratio", given, _said(crank.hardest_ratio, temp_c=temp_c)
            for under in (False, True):
                at = _said(battery.floor.at, temp_c=temp_c, just_under=under)
                yield "floor_at", [own["floor"], temp_c, under], at
        if battery.battery.c20_ah is not None and battery.battery.chemistry is not Chemistry.LITHIUM:
            yield from _of_spare(battery.battery.chemistry, own, battery.floor, chance)


def _of_spare(chemistry: Chemistry, own: dict[str, Any], floor: Floor, chance: random.Random) -> Iterator[Question]:
    kept = RodBattery(chemistry=chemistry, capacity_ah=own["capacity_ah"], floor=floor)
    way = way_of(rested_h=chance.choice((3.0, 12.0)), bled=False)
    assert way is not None
    for less_v in (0.0, doubt_v(chemistry=chemistry, way=way)):
        for temp_c in (-27.5, -18.0, -6.0, -1.5, 4.0, 12.4):
            for battery_temp_c in (None, -6.0, 4.0, 11.3, 24.6, 31.0):
                volts_v = round(chance.uniform(12.1, 12.95), 2)
                seen = {"volts_v": volts_v, "less_v": less_v, "temp_c": temp_c, "battery_temp_c": battery_temp_c}
                spare = spare_ratio(kept, volts_v=volts_v, less_v=less_v, temp_c=temp_c, battery_temp_c=battery_temp_c)
                yield "spare_ratio", [{"chemistry": str(chemistry), "floor": own["floor"]}, seen], spare


def _of_bends() -> Iterator[Question]:
    """Where the charge bends between two degrees and the floor runs between its slopes: the least lies on the bend."""
    for chemistry, tester_mohm, crank_a, seen in (
        (Chemistry.AGM, 9.0, 300.0, (12.57, 0.0, 16.3, -3.8)),
        (Chemistry.AGM, 13.0, 200.0, (11.99, 0.0, -3.7, -0.8)),
        (Chemistry.UNKNOWN, 8.6, 300.0, (12.05, 0.0, -8.8, -14.3)),
        (Chemistry.UNKNOWN, 6.8, 500.0, (12.29, 0.06, 17.5, -11.9)),
        (Chemistry.UNKNOWN, 6.0, 400.0, (12.45, 0.06, -0.2, 7.5)),
    ):
        of = Chemistry.FLOODED if chemistry is Chemistry.UNKNOWN else chemistry
        engine = Cranking(chemistry=of, resistance=source_resistance(tester_mohm=tester_mohm), current_a=crank_a)
        floor = Floor(cranking=engine)
        asked = dict(zip(("volts_v", "less_v", "temp_c", "battery_temp_c"), seen, strict=True))
        spare = spare_ratio(RodBattery(chemistry=chemistry, capacity_ah=70.0, floor=floor), **asked)
        shown = {name: getattr(floor, name) for name in ("warm_ratio", "cold_ratio", "cold_below_c", "always_ratio")}
        shown |= {"cranking": {"chemistry": str(of), "resistance": engine.resistance.now_ohm.best, "crank_a": crank_a}}
        yield "spare_ratio", [{"chemistry": str(chemistry), "floor": shown}, asked], spare


def _of_beads() -> Iterator[Question]:
    """Practice welds at and past the limits of what a bank, its leads and an arc can show."""
    each = (  # volts a battery at rest, of the bank under load, amps, volts a battery at the holder, in series, strings
        (12.6, 10.9, 140.0, None, 3, 1),
        (12.6, 10.9, 140.0, 9.8, 3, 2),
        (12.6, 7.4, 82.0, None, 2, 1),  # just under the most ohms that a battery has
        (12.6, 7.4, 78.0, None, 2, 1),  # just over
        (10.75, 9.1, 100.0, None, 3, 1),
        (10.65, 9.1, 100.0, None, 3, 1),
        (13.45, 11.1, 100.0, None, 3, 1),
        (13.6, 11.1, 100.0, None, 3, 1),
        (12.6, 7.2, 150.0, None, 2, 1),
        (12.6, 6.9, 150.0, None, 2, 1),
        (12.6, 12.19, 100.0, None, 2, 1),
        (12.6, 12.21, 100.0, None, 2, 1),
        (12.6, 11.9, 20.5, None, 2, 1),
        (12.6, 11.9, 19.9, None, 2, 1),
        (12.6, 7.5, 599.0, None, 2, 1),
        (12.6, 7.5, 610.0, None, 2, 1),
        (12.6, 10.9, 120.0, 4.1, 3, 1),
        (12.6, 10.9, 120.0, 3.95, 3, 1),
        (13.3, 11.9, 120.0, 11.6, 3, 1),
        (13.3, 12.2, 120.0, 11.85, 3, 1),
        (12.6, 10.9, 36.0, 8.0, 3, 1),
        (12.6, 10.9, 34.0, 8.0, 3, 1),  # more ohms than leads have
        (12.6, 11.0, 120.0, 11.0098, 2, 1),
        (12.6, 11.0, 120.0, 11.0103, 2, 1),
    )
    for rest_v, bank_v, current_a, holder_v, n, strings in each:
        read = BeadReadings(
            rest_v=rest_v * n,
            bank_v=bank_v * n,
            current_a=current_a,
            holder_v=None if holder_v is None else holder_v * n,
            in_series=n,
            in_parallel=strings,
        )
        given = {name: getattr(read, name) for name in ("rest_v", "bank_v", "current_a", "holder_v")}
        given |= {"in_series": n, "in_parallel": strings}

        def learned(read: BeadReadings = read) -> dict[str, Any]:
            seen = learn(read, meter_ratio=figures.METER_RATIO.value, clamp_ratio=figures.CLAMP_METER_RATIO.value)
            spans = {name: span_data(getattr(seen, name)) for name in ("current_a", "drop_v", "lead_drop_v", "arc_v")}
            return spans | {"at_holder": seen.at_holder}

        yield "learn", [given], _said(learned)


def _of_verdicts() -> Iterator[Question]:
    """Bands on either side of each limit of a rod for 75 to 130 A; the script's too hot limit is the crew's own."""
    bands = (
        Band(60.0, 74.0, 90.0, 0.0),
        Band(50.0, 76.0, 74.9, 0.0),
        Band(70.0, 90.0, 110.0, 0.505),
        Band(70.0, 90.0, 110.0, 0.5),
        Band(0.0, 0.0, 0.0, 0.4),
        Band(90.0, 130.0, 150.0, 0.0),
        Band(129.0, 149.0, 160.0, 0.0),
        Band(131.0, 149.0, 160.0, 0.0),
        Band(120.0, 151.0, 170.0, 0.0),
    )
    for band in bands:
        given = {name: getattr(band, name) for name in ("low_a", "middle_a", "high_a", "no_arc_ratio")}
        found = judge(band, range_low_a=75.0, range_high_a=130.0)
        yield "judge", [given, {"range_low_a": 75.0, "range_high_a": 130.0}], str(found)
