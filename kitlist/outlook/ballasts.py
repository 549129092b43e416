"""The ballast strip of a bank: its resistance cold and hot, what the current does to it, and what strip would do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.terms import BallastMetal
from kitlist.kit import Ballast, Kit, Trip
from kitlist.physics.arc.arc import Arc
from kitlist.physics.bank.network import feed
from kitlist.physics.bank.rig import Rig
from kitlist.physics.leads.ballast import BallastHeat, Strip, heat_of_strip, length_for

LEAST_IN_SERIES = 4
"""Batteries in a row from which a bank has a ballast strip or is not linked."""

_ROUNDS = 4  # strip and current settle within an ampere in three
_USUAL = (
    Strip(BallastMetal.STAINLESS, 30.0, 1.0),
    Strip(BallastMetal.STAINLESS, 40.0, 1.0),
    Strip(BallastMetal.STAINLESS, 40.0, 1.5),
    Strip(BallastMetal.MILD, 20.0, 1.0),
    Strip(BallastMetal.MILD, 30.0, 1.5),
)


ON_EARTH = (
    "On bare earth, 1 m clear all round, 3 m from batteries and fuel, on dry stones, ends doubled 150 mm; it is live, "
    "and too hot to touch for 10 min after the last rod"
)
"""How a strip lies; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BallastOutlook:
    """A strip under a bank's current. `heat` is None where its section is not known, or no strip survives it."""

    ballast: Ballast
    current_a: float
    cold_ohm: float
    hot_ohm: float
    heat: BallastHeat | None
    melts: bool = False

    @property
    def heat_w(self) -> float:
        """What it turns into heat while the arc burns, W."""
        return self.current_a**2 * self.hot_ohm

    @property
    def words(self) -> str:
        """What it has and how hot it gets, in one line."""
        if self.melts:
            return f"{self.ballast.name}: burns through at {self.current_a:.0f} A"
        has = f"{self.ballast.name}: {self.hot_ohm * 1000:.0f} mΩ at {self.current_a:.0f} A"
        if self.heat is None:
            return f"{has}, {self.heat_w / 1000:.1f} kW; how hot it gets is not known"
        held = "burns through" if self.heat.held_c is None else f"{self.heat.held_c:.0f} °C"
        return (
            f"{has} when hot, {self.cold_ohm * 1000:.0f} cold; {self.heat.peak_c:.0f} °C in the third rod of "
            f"1 min with 2 min between, {held} with the arc held on"
        )

    @property
    def fit_for_use(self) -> bool | None:
        """Whether it stays cool and even enough; None where its section is not known."""
        if self.melts:
            return False
        return None if self.heat is None else self.heat.fit_for_use


def packed_ballast(kit: Kit, trip: Trip) -> Ballast | None:
    """The strip that belongs to the trip's bank, if it is packed."""
    return next((b for b in kit.ballasts if b.name == trip.ballast and b.count > 0), None)


def needs_ballast(in_series: int) -> bool:
    """Whether so many batteries in a row are linked only with a ballast strip: about 50 V, and four batteries' current.

    >>> needs_ballast(3), needs_ballast(4)
    (False, True)
    """
    return in_series >= LEAST_IN_SERIES


def strip_of(ballast: Ballast) -> Strip | None:
    """The section of a strip; None where only its resistance was written down."""
    if ballast.metal is None or ballast.width_mm is None or ballast.thickness_mm is None:
        return None
    return Strip(ballast.metal, ballast.width_mm, ballast.thickness_mm)


def ballast_outlook(ballast: Ballast, *, current_a: float) -> BallastOutlook:
    """A strip at a current held for three rods. A measured resistance is that of the cold strip."""
    strip = strip_of(ballast)
    if strip is None:
        if ballast.measured_mohm is None:
            raise BadData(f"{ballast.name}: neither its section and length nor its resistance is known")
        ohm = ballast.measured_mohm / 1000
        return BallastOutlook(ballast=ballast, current_a=current_a, cold_ohm=ohm, hot_ohm=ohm, heat=None)
    cold_ohm = _cold_ohm(ballast, strip)
    if current_a < 1.0:
        return BallastOutlook(ballast=ballast, current_a=current_a, cold_ohm=cold_ohm, hot_ohm=cold_ohm, heat=None)
    try:
        heat = heat_of_strip(strip, current_a=min(current_a, 600.0))
    except OutOfRange:  # over 1000 °C in the third rod: there is no hot resistance of a strip that has burnt through
        return BallastOutlook(
            ballast=ballast, current_a=current_a, cold_ohm=cold_ohm, hot_ohm=cold_ohm, heat=None, melts=True
        )
    return BallastOutlook(
        ballast=ballast, current_a=current_a, cold_ohm=cold_ohm, hot_ohm=cold_ohm / heat.cold_over_hot, heat=heat
    )


def _cold_ohm(ballast: Ballast, strip: Strip) -> float:
    if ballast.measured_mohm is not None:
        return ballast.measured_mohm / 1000
    if ballast.length_m is None:
        raise BadData(f"{ballast.name}: neither its length nor its resistance is known")
    return strip.ohm_per_m(temp_c=30.0) * ballast.length_m


def with_strip(rig: Rig, ballast: Ballast) -> tuple[Rig, BallastOutlook]:
    """The rig with a strip in its circuit, hot as in the third rod, and the strip at the current that then flows.

    Strip and current depend on each other: hotter, the strip lets less through. They settle in a few rounds.
    """
    found = ballast_outlook(ballast, current_a=0.0)
    for _ in range(_ROUNDS):
        rig = replace(rig, leads=replace(rig.leads, ballast_ohm=found.hot_ohm))
        found = ballast_outlook(ballast, current_a=feed(rig.network(), Arc()).point.current_a)
        if found.melts:
            break
    return replace(rig, leads=replace(rig.leads, ballast_ohm=found.hot_ohm)), found


def cold_rig(rig: Rig, strip: BallastOutlook) -> Rig:
    """The rig at the first strike of the day, the strip still cold: what shade, leads and a stuck rod are judged by."""
    return replace(rig, leads=replace(rig.leads, ballast_ohm=strip.cold_ohm))


@dataclass(frozen=True, slots=True, kw_only=True)
class StripAdvice:
    """A usual strip cut for a bank: its length, m, and how hot it gets at the current, °C."""

    strip: Strip
    length_m: float
    heat: BallastHeat
    ohm: float
    current_a: float

    @property
    def words(self) -> str:
        """The strip, its length, temperature, duty and where it lies, in one line."""
        s, metal = self.strip, "stainless" if self.strip.metal is BallastMetal.STAINLESS else "mild steel"
        held = "burns through" if self.heat.held_c is None else f"{self.heat.held_c:.0f} °C"
        return (
            f"{self.length_m:.1f} m of {metal} strip {s.width_mm:g} x {s.thickness_mm:g} mm, bare, on edge: "
            f"{self.ohm * 1000:.0f} mΩ hot, {self.heat.peak_c:.0f} °C after three rods of 1 min with 2 min between, "
            f"{held} with the arc held on. {ON_EARTH}"
        )


def strips_for(*, ohm: float, current_a: float) -> Iterator[StripAdvice]:
    """Usual strips that have `ohm` when hot at `current_a` and stay fit for use, the shortest first."""
    fit = []
    for strip in _USUAL:
        try:
            heat = heat_of_strip(strip, current_a=current_a)
        except OutOfRange:
            continue
        if heat.fit_for_use:
            fit.append(
                StripAdvice(
                    strip=strip, length_m=length_for(ohm=ohm, heat=heat), heat=heat, ohm=ohm, current_a=current_a
                )
            )
    yield from sorted(fit, key=lambda advice: advice.length_m)
