"""ballast-gets-too-hot: a ballast strip that the bank's current takes over what a strip may get, or of unknown heat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from kitlist.base.measures import told_apart
from kitlist.base.terms import BallastMetal
from kitlist.kit import Ballast
from kitlist.outlook.ballasts import BallastOutlook, strips_for
from kitlist.physics.leads.ballast import COLD_OVER_HOT, PEAK_MOST_C
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_USE = "Bare earth, 1 m clear all round, 3 m from batteries and fuel; live, and hands off for 10 min after."


def check(case: Case) -> Iterator[Gap]:
    """A gap where the strip of the bank gets too hot, changes too much from cold to hot, or cannot be told."""
    strip = case.outlook.bank.ballast if case.outlook.bank else None
    if strip is None or strip.fit_for_use:
        return
    most_c = PEAK_MOST_C.value
    if strip.fit_for_use is None:
        yield Gap(
            subject=strip.ballast.name,
            what=f"{strip.ballast.name}: its metal and section are not known, so how hot it gets cannot be told",
            remedy=f"Measure width and thickness, and say its metal. {_USE}",
            command=f"kitlist ballast edit {quoted(strip.ballast.name)} metal=METAL width=WIDTH thickness=THICKNESS",
            known=False,
            doing=Doing.CHECK,
        )
        return
    better = next(strips_for(ohm=strip.hot_ohm, current_a=strip.current_a), None)
    yield Gap(
        subject=strip.ballast.name,
        what=_what(strip, most_c),
        remedy=f"A wider strip: {better.words}." if better else f"A wider and thicker strip, longer. {_USE}",
        measured=None if strip.heat is None else round(strip.heat.peak_c),
        required=most_c,
        unit="°C",
    )


def _what(strip: BallastOutlook, most_c: float) -> str:
    name, amps = strip.ballast.name, f"{strip.current_a:.0f} A"
    if strip.heat is None:
        return f"{name}: at {amps} it burns through within three rods"
    if strip.heat.peak_c > most_c:
        peak, most = told_apart(strip.heat.peak_c, most_c, places=0)
        return f"{name}: at {amps} it gets to {peak} °C in the third rod; {most} °C at the most"
    ratio = strip.heat.cold_over_hot
    return (
        f"{name}: cold it has {ratio:.0%} of the resistance that it has hot, {COLD_OVER_HOT.value:.0%} at the least: "
        "the first arc is far too strong"
    )


def with_strip(**section: Any) -> Example:
    """The whole kit with a strip of about 10 mohm in the circuit."""
    whole = example.whole()
    strip = Ballast(name="strip", measured_mohm=10, bag=example.BAG, **section)
    return replace(whole, kit=replace(whole.kit, ballasts=(strip,)), trip=replace(whole.trip, ballast="strip"))


RULE = Rule(
    name="ballast-gets-too-hot",
    title="A ballast strip that gets too hot",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="A strip that glows lights what lies under it, burns through, and lets go of the current all at once.",
    remedy="A wider strip, longer for the same resistance.",
    sources=(PEAK_MOST_C.source, COLD_OVER_HOT.source),
    check=check,
    mark="too hot",
    mark_not_known="heat not known",
    good=lambda: with_strip(metal=BallastMetal.STAINLESS, width_mm=50, thickness_mm=1.5),
    bad=lambda: with_strip(metal=BallastMetal.STAINLESS, width_mm=25, thickness_mm=1),
)
