"""too-cold-to-weld: a trip so cold that no weld may be made in the open."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.measures import with_unit
from kitlist.base.sources import Source, Tag
from kitlist.kit.limits import standard
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the coldest is under the limit: a fix while some of the day is warmer, a stop where none is."""
    coldest_c, hottest_c, limit_c = case.trip.coldest_c, case.trip.hottest_c, case.limits.no_weld_below_c
    if coldest_c is None or coldest_c >= limit_c:
        return
    never = hottest_c is not None and hottest_c < limit_c
    yield Gap(
        subject="bank",
        what=f"Down to {with_unit(coldest_c, '°C')}{'' if never else ' at night'}: "
        f"no weld under {with_unit(limit_c, '°C')}",
        remedy="No weld on this trip: bolt, strap or splint."
        if never
        else "Weld only in the warmer part of the day, behind a shelter, the joint warmed; accept the gap with that.",
        measured=coldest_c,
        required=limit_c,
        unit="°C",
        severity=None if never else Severity.FIX,
    )


def _night(coldest_c: float) -> Example:
    """A milder limit, which the engines still start at, and one rod, which the bank has to spare."""
    cold = example.with_trip(coldest_c=coldest_c)
    vehicles = tuple(replace(vehicle, crank_a=80) for vehicle in cold.kit.vehicles)
    milder = standard().changed("no_weld_below_c = -10", name="rulebook")
    rods = (example.rod("thick rods", count=1),)
    return replace(cold, kit=replace(cold.kit, vehicles=vehicles, rods=rods, rulebook=milder))


RULE = Rule(
    name="too-cold-to-weld",
    title="Too cold to weld",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Under this cold steel is brittle, moisture is in every joint, and no flame keeps it warm enough.",
    remedy="Wait for the warmer part of the day, or bolt it.",
    sources=(Source(Tag.READ, "AWS D1.1 §3.1.3 of an older edition: no welding under 0 °F"),),
    check=check,
    numbers=("no_weld_below_c",),
    good=lambda: _night(-10),
    bad=lambda: _night(-11),
)
