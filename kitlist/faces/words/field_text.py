"""Charging between repairs as lines for a terminal, and as JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from math import inf
from typing import Any

from kitlist.base.measures import counted, with_unit
from kitlist.outlook.charge_words import time_words
from kitlist.outlook.field_charge import FieldCharge, FieldLine, FieldTime
from kitlist.physics.battery.charge_time import ChargeTime
from kitlist.physics.battery.recharge import SUN_H, Feed, panel_ah_a_day

_INDENT = "    "


def field_lines(plan: FieldCharge, *, columns: int) -> Iterator[str]:
    """Each battery with its times, then what must be true first and what follows."""
    aim = f"{counted(plan.rods, 'rod')} of {plan.rod}" if plan.rod else counted(plan.rods, "rod")
    goal = f"{aim} more" if plan.asked else f"enough for {aim} down to the reserve"
    temp = with_unit(plan.temp_c, "°C")
    cold = f"batteries at {temp}" if plan.temp_known else f"the cold is not known: as at {temp}, and colder is slower"
    yield from textwrap.wrap(
        f"{plan.trip}: back to {goal}; {cold}. The likely time, what 8 times in 10 it takes, and the longest.",
        columns,
    )
    if not plan.ways:
        yield from textwrap.wrap(
            "No way to charge is recorded. kitlist vehicle edit NAME alternator=AMPS; "
            "kitlist tool add NAME what=charger rating-a=AMPS; kitlist tool add NAME what=solar-panel power=WATTS",
            columns,
        )
    for line in plan.lines:
        yield from _line(line, columns)
    yield "First:"
    for words in plan.before:
        yield from textwrap.wrap(words, columns, initial_indent="  - ", subsequent_indent=_INDENT)
    yield "Then:"
    for words in plan.after:
        yield from textwrap.wrap(words, columns, initial_indent="  - ", subsequent_indent=_INDENT)


def _line(line: FieldLine, columns: int) -> Iterator[str]:
    soc = "charge not known" if line.soc_ratio is None else f"{line.soc_ratio.best * 100:.0f} %"
    to = f" to {line.to_ratio * 100:.0f} %" if line.to_ratio is not None and line.put_back_ah else ""
    to = "" if to == f" to {soc}" else to
    ah = f", {line.put_back_ah:.1f} Ah" if line.put_back_ah else ""
    go = "" if line.go_v is None else f", {line.go_v:.2f} V at rest after the load"
    limits = f"at most {line.most_v:g} V, sparks {line.spark_m:.1f} m away"
    head = f"{line.name}: {soc}{to}{go}{ah}; {limits}" + (f"; {line.remark}" if line.remark else "")
    yield from textwrap.wrap(head, columns, subsequent_indent=_INDENT)
    if line.why_not:
        words = f"not charged: {line.why_not}"
        yield from textwrap.wrap(words, columns, initial_indent="  - ", subsequent_indent=_INDENT)
    if line.full_first:
        words = "full before that: no more than full goes in" if line.put_back_ah else "full, and it gives no more"
        yield from textwrap.wrap(words, columns, initial_indent="  - ", subsequent_indent=_INDENT)
    elif line.times and not line.put_back_ah:
        yield "  - has enough for that: nothing to put back"
    if not line.put_back_ah:
        return
    for time in line.times:
        words = f"{time.way.words}: {time_words(time.takes)}{_sun(time)}"
        yield from textwrap.wrap(words, columns, initial_indent="  - ", subsequent_indent=_INDENT)


def _sun(time: FieldTime) -> str:
    if time.way.feed is not Feed.PANEL:
        return ""
    day = panel_ah_a_day(watt=time.way.rating, sun_h=SUN_H.value)
    return (
        f" of full sun on it; {SUN_H.value:g} h of it a day store {day.best:.0f} Ah ({day.low:.0f} to {day.high:.0f})"
    )


def plain_field(plan: FieldCharge) -> dict[str, Any]:
    """The same as JSON has it; hours without end are null."""
    return {
        "trip": plan.trip,
        "rod": plan.rod,
        "rods": plan.rods,
        "battery_temp_c": plan.temp_c,
        "battery_temp_known": plan.temp_known,
        "before": list(plan.before),
        "after": list(plan.after),
        "link_after_h": plan.rest.link_h,
        "read_after_h": plan.rest.read_h,
        "batteries": [
            {
                "battery": line.name,
                "vehicle": line.vehicle,
                "soc_ratio": None
                if line.soc_ratio is None
                else _each(line.soc_ratio.low, line.soc_ratio.best, line.soc_ratio.high),
                "to_soc_ratio": line.to_ratio,
                "put_back_ah": line.put_back_ah,
                "go_v": line.go_v,
                "most_v": line.most_v,
                "spark_m": line.spark_m,
                "full_first": line.full_first,
                "why_not": line.why_not,
                "remark": line.remark,
                "ways": [{"way": str(time.way.feed), "of": time.way.of, **_hours(time.takes)} for time in line.times],
            }
            for line in plan.lines
        ],
    }


def _hours(takes: ChargeTime) -> dict[str, list[float | None]]:
    """Of 8 times in 10 (low, likely, high), and always (shortest, longest)."""
    return {
        "hours_8_in_10": _each(takes.low_h, takes.likely_h, takes.high_h),
        "hours_limits": _each(takes.shortest_h, takes.longest_h),
    }


def _each(*values: float) -> list[float | None]:
    return [None if value == inf else round(value, 4) for value in values]
