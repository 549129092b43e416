"""four-without-ballast: four batteries in a row with no ballast strip in the circuit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import BallastMetal, BatteryPlace, LeadUse, ToolKind
from kitlist.kit import Ballast
from kitlist.outlook.linkable import Bar
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where the bank has so many in a row that it needs a strip, and none is packed for it."""
    named, trip = case.trip.ballast, quoted(case.trip.name)
    for _ in case.bars(Bar.BALLAST):
        yield Gap(
            subject=named or "bank",
            what=f"{len(case.trip.strings[0])} batteries in a row and "
            + (f"the ballast strip {named} is not packed" if named else "no ballast strip in the circuit"),
            remedy="Choose two or three batteries; or pack a bare steel strip as ballast and name it for the trip.",
            command=f"kitlist ballast edit {quoted(named)} count=NUMBER"
            if named
            else f"kitlist trip edit {trip} ballast=NAME",
            measured=0,
            required=1,
            unit="strips",
        )


_FOUR = ("north-second", "north-third", "south-second", "south-third")


def with_four(ballast: str | None, *, count: int = 1) -> Example:
    """The whole kit with four second batteries in a row; leads, fuses and filters bear their current."""
    whole = example.whole()
    strip = Ballast(
        name="strip",
        metal=BallastMetal.STAINLESS,
        width_mm=40,
        thickness_mm=1.5,
        length_m=7,
        count=count,
        bag=example.BAG,
    )
    names = {"north-third": "North", "south-third": "South"}
    more = tuple(example.battery(n, v, place=BatteryPlace.SECOND) for n, v in names.items())
    ratings: dict[ToolKind, dict[str, Any]] = {ToolKind.FUSE: {"rating_a": 500.0}, ToolKind.BATTERY_COVER: {"count": 4}}
    kit = replace(
        whole.kit,
        ballasts=(strip,),
        batteries=tuple(replace(b, cranking_a=950) for b in (*whole.kit.batteries, *more)),  # 800 A fall under 9.6 V
        readings=(*whole.kit.readings, *(example.reading(b.name) for b in more)),
        leads=tuple(
            replace(x, area_mm2=95, rating_a=x.rating_a and 500, count=x.count + (x.use is LeadUse.LINK))
            for x in whole.kit.leads
        ),
        rods=(example.rod("thickest rods", diameter_mm=5.0, count=2),),
        gear=tuple(replace(g, shade=13) if g.shade else g for g in whole.kit.gear),
        tools=tuple(replace(t, **ratings.get(t.what, {})) for t in whole.kit.tools),
    )
    return replace(whole, kit=kit, trip=replace(whole.trip, bank=_FOUR, ballast=ballast))


RULE = Rule(
    name="four-without-ballast",
    title="Four in a row without ballast",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Four in a row are about 50 V and far over any rod's current: leads, holder and hands are made for less.",
    remedy="Two or three batteries in a row.",
    sources=(PRACTICE,),
    check=check,
    acceptable=False,
    asks_for=("ballast-strip",),
    good=example.whole,
    bad=lambda: with_four(None),
)
