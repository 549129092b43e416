"""Cranking ratings brought to one standard, and whether the engine will still turn in the cold."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import ceil, floor, inf

from kitlist.base.errors import OutOfRange
from kitlist.base.measures import told_apart, with_unit
from kitlist.base.sources import Source, Tag, row_source, sourced, table
from kitlist.base.span import Span, between
from kitlist.base.terms import Chemistry, CrankingStandard
from kitlist.physics import figures
from kitlist.physics.battery.charge import ocv_points, rested_volts
from kitlist.physics.battery.resistance import SourceResistance, effect_of_state

_ACTIVATION_V = figures.ACTIVATION_V.value
WARM_DEGREE = 25  # from here the cold takes nothing


@dataclass(frozen=True, slots=True)
class SaeRating:
    """A cranking rating brought to SAE, and the sentence that says how. `current_a` is None where it cannot be."""

    current_a: Span | None
    words: str
    source: Source


@sourced(Source(Tag.PRACTICE, "conversions between cranking ratings are approximate"))
def to_sae(*, rating_a: float, standard: CrankingStandard) -> SaeRating:
    """A rating in A under any standard, as SAE J537 cold cranking amps.

    JIS has no conversion: the capacity has to serve. Valid 30 to 2500 A.

    >>> to_sae(rating_a=400, standard=CrankingStandard.DIN).words
    '400 A DIN is about 640 A SAE (600 to 720): SAE = 1.5 DIN + 40, also 1.7 DIN, reported practice'
    """
    if not 30.0 <= rating_a <= 2500.0:
        raise OutOfRange(f"cranking rating {rating_a:g} A is outside 30 to 2500 A")
    row = next((row for row in table("cranking_standards") if row["standard"] == standard), None)
    if row is None:
        words = f"{standard.upper()} has no conversion to SAE: the 20 h capacity is used instead"
        return SaeRating(None, words, Source(Tag.SECOND_HAND, "JIS D5301"))
    offset_a = float(row["offset_a"])
    low, best, high = (rating_a * float(row[key]) + offset_a for key in ("slope_low", "slope", "slope_high"))
    source = row_source(row)
    if standard is CrankingStandard.SAE:
        return SaeRating(Span(low, best, high), f"{rating_a:g} A SAE", source)
    name = "of no stated standard" if standard is CrankingStandard.UNKNOWN else standard.upper()
    words = f"{rating_a:g} A {name} is about {best:.0f} A SAE ({low:.0f} to {high:.0f}): {source.where}"
    return SaeRating(Span(low, best, high), words, source)


@sourced(Source(Tag.READ, "TM 5-4210-230-14&P-1, Table 5"))
def least_crank_volts(*, temp_c: float) -> float:
    """Least volts of a 12 V battery while cranking, V, by the load-test table; 9.6 V from 21 °C up.

    Valid from -18 °C up to 60 °C.

    >>> least_crank_volts(temp_c=-7.0), least_crank_volts(temp_c=40.0)
    (8.9, 9.6)
    """
    points = [(float(row["temp_c"]), float(row["least_v"])) for row in table("load_test_volts")]
    if temp_c > 60.0:
        raise OutOfRange(f"cranking at {temp_c:g} °C: the load-test table holds up to 60 °C")
    return between(points, min(temp_c, points[-1][0]), what="temperature", unit="°C")


@dataclass(frozen=True, slots=True)
class CrankCheck:
    """Whether an engine cranks. `cranks` is None where it cannot be told, and `reason` says why.

    `volts` is what the battery would show, worst, best guess, and best case; `needed_v` the least allowed.
    `sure` says that even the worst case cranks.
    """

    cranks: bool | None
    reason: str
    volts: Span | None = None
    needed_v: float | None = None
    crank_a: float | None = None

    @property
    def sure(self) -> bool:
        """Whether even the worst case cranks."""
        return self.volts is not None and self.needed_v is not None and self.volts.low >= self.needed_v


@sourced(Source(Tag.READ, "TM 5-4210-230-14&P-1, Table 5"), figures.CRANK_SHARE.source)
def crank_check(
    *,
    chemistry: Chemistry,
    soc_ratio: Span | None,
    resistance: SourceResistance | None,
    temp_c: float,
    crank_a: float | None = None,
    cca_sae_a: float | None = None,
) -> CrankCheck:
    """Whether ocv - va - I r0 stays at or over the load-test volts at `temp_c`.

    `crank_a` is the vehicle's own figure; without it half the battery's SAE rating. The answer is by the best guess of
    charge and resistance; `volts` shows the bounds. The activation drop is the constant 0.40 V: the rating's own volts
    hold what it grows to. Not known: charge, resistance or current not known, below -18 °C, lithium or unknown
    chemistry.

    >>> from kitlist.physics.battery.resistance import source_resistance
    >>> r = source_resistance(cca_sae=Span.exactly(680.0))
    >>> battery = {"chemistry": Chemistry.FLOODED, "resistance": r, "cca_sae_a": 680}
    >>> crank_check(soc_ratio=Span.exactly(0.9), temp_c=-6, **battery).cranks
    True
    """
    current_a = crank_a if crank_a is not None else None if cca_sae_a is None else figures.CRANK_SHARE.value * cca_sae_a
    if chemistry in (Chemistry.LITHIUM, Chemistry.UNKNOWN):
        return CrankCheck(None, f"chemistry {chemistry}: its volts on load cannot be predicted")
    if soc_ratio is None:
        return CrankCheck(None, "charge not known")
    if resistance is None:
        return CrankCheck(None, "source resistance not known")
    if current_a is None:
        return CrankCheck(None, "neither the vehicle's cranking current nor the battery's rating is known")
    if temp_c < float(table("load_test_volts")[0]["temp_c"]):
        return CrankCheck(None, f"{with_unit(temp_c, '°C')} is colder than the load-test table (-18 °C)")
    needed_v = least_crank_volts(temp_c=temp_c)
    ohm = resistance.now_ohm

    def volts(soc: float, now_ohm: float) -> float:
        ocv_v = rested_volts(soc_ratio=soc, chemistry=chemistry, temp_c=temp_c)
        return ocv_v - _ACTIVATION_V - current_a * now_ohm * effect_of_state(soc_ratio=soc, temp_c=temp_c)

    span = Span(volts(soc_ratio.low, ohm.high), volts(soc_ratio.best, ohm.best), volts(soc_ratio.high, ohm.low))
    cranks = span.best >= needed_v
    verb = "cranks" if cranks else "does not crank"
    has, needs = told_apart(span.best, needed_v, places=1)
    reason = f"{verb} at {with_unit(temp_c, '°C')}: {has} V at {current_a:.0f} A, {needs} V needed"
    return CrankCheck(cranks, reason, span, needed_v, current_a)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cranking:
    """An engine and the battery that starts it: what the charge that it needs follows from at any temperature."""

    chemistry: Chemistry
    resistance: SourceResistance
    current_a: float

    def charge_ratio(self, *, temp_c: float) -> float | None:
        """Least charge, of full, at which the engine still cranks at `temp_c`; None where it cannot be told.

        Straight between whole degrees, so that whoever looks for the hardest temperature need look at these alone.
        """
        return _asked_of(self).charge_ratio(temp_c)

    def hardest_ratio(self, *, temp_c: float) -> float | None:
        """The most that the engine asks for from `temp_c` up to 25 °C; None where nothing of that can be told.

        A battery gives fewer volts in the cold, but fewer are asked of it too: now and then a milder day asks for more.
        Under -18 °C, where nobody knows, it is at the least what -18 °C asks for.

        >>> from kitlist.physics.battery.resistance import source_resistance
        >>> engine = Cranking(chemistry=Chemistry.FLOODED, resistance=source_resistance(tester_mohm=8.0), current_a=340)
        >>> asked = [engine.hardest_ratio(temp_c=temp_c) for temp_c in (25.0, 0.0, -18.0, -25.0)]
        >>> asked == sorted(asked), asked[-1] == asked[-2]
        (True, True)
        """
        seen = _asked_of(self)
        return _most(seen.charge_ratio(temp_c), seen.hardest(ceil(temp_c)))


class _Asked:
    """What one engine asks for at whole degrees, each worked out once."""

    def __init__(self, engine: Cranking) -> None:
        self.engine = engine
        self.degree = cache(self._degree)
        self.hardest = cache(self._hardest)

    def _degree(self, degree: int) -> float | None:
        engine = self.engine
        return charge_to_crank(
            chemistry=engine.chemistry,
            resistance=engine.resistance,
            temp_c=float(degree),
            crank_a=engine.current_a,
        )

    def charge_ratio(self, temp_c: float) -> float | None:
        below = floor(temp_c)
        low = self.degree(below)
        if below == temp_c:
            return low
        high = self.degree(below + 1)
        if low is None or high is None or inf in (low, high):
            return _most(low, high)
        return low + (high - low) * (temp_c - below)

    def _hardest(self, degree: int) -> float | None:
        """The most over the whole degrees from one up to 25 °C."""
        return None if degree > WARM_DEGREE else _most(self.degree(degree), self.hardest(degree + 1))


@cache
def _asked_of(engine: Cranking) -> _Asked:
    return _Asked(engine)


def _most(one: float | None, other: float | None) -> float | None:
    return one if other is None else other if one is None else max(one, other)


@cache
def charge_to_crank(
    *,
    chemistry: Chemistry,
    resistance: SourceResistance,
    temp_c: float,
    crank_a: float | None = None,
    cca_sae_a: float | None = None,
) -> float | None:
    """Least state of charge at which the engine still cranks at `temp_c`, ratio; None where it cannot be told.

    Infinity means that it does not crank even when full. Rested volts and resistance both run straight between the
    points of the table of volts, and so does what is left over while cranking: solved in closed form.

    >>> from kitlist.physics.battery.resistance import source_resistance
    >>> r = source_resistance(cca_sae=Span.exactly(680.0))
    >>> 0.3 < charge_to_crank(chemistry=Chemistry.FLOODED, resistance=r, temp_c=-18, cca_sae_a=680) < 0.8
    True
    """

    def over_v(soc: float) -> float | None:
        """Volts over the least while cranking; rises with the charge."""
        check = crank_check(
            chemistry=chemistry,
            soc_ratio=Span.exactly(soc),
            resistance=resistance,
            temp_c=temp_c,
            crank_a=crank_a,
            cca_sae_a=cca_sae_a,
        )
        return None if check.volts is None or check.needed_v is None else check.volts.best - check.needed_v

    full_v = over_v(1.0)
    if full_v is None:
        return None
    if full_v < 0.0:
        return float("inf")
    above, above_v = 1.0, full_v
    for soc, _ in reversed(ocv_points(chemistry)[:-1]):
        below_v = over_v(soc)
        if below_v is None:
            return None
        if below_v < 0.0:
            return soc + (above - soc) * -below_v / (above_v - below_v)
        above, above_v = soc, below_v
    return 0.0
