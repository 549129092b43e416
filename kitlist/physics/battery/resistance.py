"""Source resistance of one battery: from its rating, its size, a tester or a loaded reading; worn and reject limits."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import exp

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import Source, Tag, sourced
from kitlist.base.span import Span
from kitlist.physics import figures

_STANDARD_C = 25.0


class Basis(StrEnum):
    """What a source resistance rests on, surest first."""

    LOADED = "a reading on load"
    TESTER = "a battery tester"
    CRANKING = "its cranking rating"
    CAPACITY = "its capacity alone"


@dataclass(frozen=True, slots=True)
class SourceResistance:
    """Resistance of a battery full and at 25 °C: `new_ohm` as by its rating or as measured, times `age_ratio`."""

    new_ohm: Span
    age_ratio: Span
    basis: Basis

    @property
    def now_ohm(self) -> Span:
        """Full, at 25 °C, age counted, ohm."""
        new, age = self.new_ohm, self.age_ratio
        return Span(new.low * age.low, new.best * age.best, new.high * age.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedReading:
    """Volts at rest, then volts at a known current some seconds into a load; charge and temperature at the time."""

    rest_v: float
    load_v: float
    current_a: float
    soc_ratio: float = 1.0
    temp_c: float = _STANDARD_C


@sourced(
    Source(Tag.DERIVED, "3.0 V/CCA from SAE J537 and TM 5-4210-230-14&P-1, Table 5"),
    Source(Tag.PRACTICE, "0.45 ohm Ah/C20; a tester's milliohms"),
)
def source_resistance(
    *,
    cca_sae: Span | None = None,
    capacity_ah: float | None = None,
    tester_mohm: float | None = None,
    loaded: LoadedReading | None = None,
) -> SourceResistance:
    """Source resistance full and at 25 °C, by the surest thing known: load, tester, cranking rating, capacity.

    `cca_sae` in A (see `cranking.to_sae`), `capacity_ah` the 20 h figure. A measurement carries its own age, so the
    age ratio is then 1.

    >>> source_resistance(cca_sae=Span.exactly(600.0)).new_ohm.best
    0.005
    >>> source_resistance(tester_mohm=6.2).basis.value
    'a battery tester'
    """
    if loaded is not None:
        return SourceResistance(_from_load(loaded), Span.exactly(1.0), Basis.LOADED)
    if tester_mohm is not None:
        if not 0.5 <= tester_mohm <= 100.0:
            raise OutOfRange(f"{tester_mohm:g} mΩ is outside what a 12 V battery can show, 0.5 to 100 mΩ")
        spread = Span.of(figures.TESTER_RATIO)
        return SourceResistance(spread.times(tester_mohm / 1000), Span.exactly(1.0), Basis.TESTER)
    age = Span.of(figures.AGE_FACTOR)
    if cca_sae is not None:
        if not 30.0 <= cca_sae.low <= cca_sae.high <= 2500.0:
            raise OutOfRange(f"cranking rating {cca_sae.best:g} A is outside 30 to 2500 A")
        volts = Span.of(figures.CRANK_VOLTS)
        ohm = Span(volts.low / cca_sae.high, volts.best / cca_sae.best, volts.high / cca_sae.low)
        return SourceResistance(ohm, age, Basis.CRANKING)
    if capacity_ah is not None:
        if not 1.0 <= capacity_ah <= 400.0:
            raise OutOfRange(f"capacity {capacity_ah:g} Ah is outside 1 to 400 Ah")
        return SourceResistance(Span.of(figures.CAPACITY_OHM_AH).times(1 / capacity_ah), age, Basis.CAPACITY)
    raise BadData(
        "neither cranking rating nor capacity nor a measured resistance: source resistance not known",
        hint="read the battery's label, or measure it on load",
    )


def _from_load(reading: LoadedReading) -> Span:
    """Ohm at 25 °C and full, less the activation drop, slow polarisation up to 0.4 of it in the high reading."""
    if reading.current_a < 20.0:
        raise OutOfRange(f"{reading.current_a:g} A is too small a load to tell resistance by: 20 A or more")
    if reading.load_v >= reading.rest_v:
        raise BadData(f"volts rose under load ({reading.rest_v:g} to {reading.load_v:g} V): read again")
    activation = Span.of(figures.ACTIVATION_V)
    drop_v = reading.rest_v - reading.load_v
    if drop_v <= activation.high:
        raise OutOfRange(f"a fall of {drop_v:.2f} V is too small to tell resistance by: draw more current")
    there = effect_of_state(soc_ratio=reading.soc_ratio, temp_c=reading.temp_c)
    slow = Span.of(figures.SLOW_SHARE)
    base = 1 / (reading.current_a * there)
    return Span(
        (drop_v - activation.high) * base / (1 + slow.high),
        (drop_v - activation.best) * base / (1 + slow.best / 2),
        (drop_v - activation.low) * base,
    )


@sourced(figures.COLD_SLOPE.source, figures.FLAT_RISE.source)
def effect_of_state(
    *,
    soc_ratio: float,
    temp_c: float,
    cold_slope_per_k: float = figures.COLD_SLOPE.value,
    flat_rise_ratio: float = figures.FLAT_RISE.value,
) -> float:
    """Factor on the resistance full and at 25 °C: exp(-beta (T - 25)) (1 + g (1 - SoC)).

    Valid -40 to 60 °C and 0 to 1 of charge.

    >>> round(effect_of_state(soc_ratio=0.5, temp_c=25.0), 6)
    1.3
    """
    if not -40.0 <= temp_c <= 60.0:
        raise OutOfRange(f"battery at {temp_c:g} °C: the resistance model covers -40 to 60 °C")
    if not 0.0 <= soc_ratio <= 1.0:
        raise OutOfRange(f"state of charge {soc_ratio:g} is outside 0 to 1")
    return exp(-cold_slope_per_k * (temp_c - _STANDARD_C)) * (1 + flat_rise_ratio * (1 - soc_ratio))


class Wear(StrEnum):
    """What its resistance says of a battery."""

    GOOD = "good"
    WORN = "worn"
    REJECT = "reject"


@sourced(Source(Tag.DERIVED, "half-CCA load test, TM 5-4210-230-14&P-1, Table 5"))
def wear(*, full_25_ohm: float, cca_sae_a: float) -> Wear:
    """Good to 3.8/CCA, worn but passing to 6.0/CCA, above that reject; ohm full and at 25 °C, A by SAE.

    >>> wear(full_25_ohm=0.0105, cca_sae_a=600.0).value
    'reject'
    """
    volts = full_25_ohm * cca_sae_a
    if volts > figures.REJECT_CRANK_VOLTS.value:
        return Wear.REJECT
    return Wear.WORN if volts > Span.of(figures.CRANK_VOLTS).high else Wear.GOOD
