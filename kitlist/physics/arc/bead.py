"""Learning from a practice bead: resistances and arc volts from the meters, nonsense refused, the band narrowed."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import sourced
from kitlist.base.span import Span
from kitlist.physics import figures
from kitlist.physics.arc.arc import Arc
from kitlist.physics.arc.learned import Learned

_ACTIVATION = Span.of(figures.ACTIVATION_V)
_MOST_OHM_EACH = 0.06
_MOST_EXTERNAL_OHM = 0.25
_LEAST_ARC_V, _MOST_ARC_V = 12.0, 35.0
_METER_STEP_V = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadReadings:
    """What was read at one practice bead: rest volts of the bank, volts at the bank and amps while welding, and
    volts between holder and work if somebody read them. `in_series` batteries' volts added up; `in_parallel` strings
    shared the current."""

    rest_v: float
    bank_v: float
    current_a: float
    in_series: int
    holder_v: float | None = None
    in_parallel: int = 1


@dataclass(frozen=True, slots=True)
class BeadResult:
    """What a bead says: resistance of the bank and of everything outside it, ohm, and arc volts before current, V.

    `external_ohm` and `arc_level_v` are None without volts at the holder.
    """

    source_ohm: float
    external_ohm: float | None
    arc_level_v: float | None


@sourced(figures.ACTIVATION_V.source, figures.ARC_FOOT_V.source)
def work_out(bead: BeadReadings, *, arc: Arc | None = None) -> BeadResult:
    """Resistances and arc volts from one bead.

    R_source = (V_rest - n 0.40 - V_bank)/I; R_external = (V_bank - V_holder)/I; U0 = V_holder - m I - K/I, with m and K
    of `arc`. The plain secant (V_rest - V_bank)/I would overstate the resistance by about a quarter. Nonsense is
    refused with the reason.

    >>> seen = work_out(BeadReadings(rest_v=37.9, bank_v=33.0, current_a=150.0, in_series=3, holder_v=31.5))
    >>> round(seen.source_ohm * 1000, 1), round(seen.external_ohm * 1000, 1), round(seen.arc_level_v, 1)
    (24.7, 10.0, 25.1)
    """
    _refuse_nonsense(bead)
    arc = arc or Arc()
    source_ohm = (bead.rest_v - bead.in_series * _ACTIVATION.best - bead.bank_v) / bead.current_a
    if bead.holder_v is None:
        return BeadResult(source_ohm, None, None)
    external_ohm = (bead.bank_v - bead.holder_v) / bead.current_a
    level_v = bead.holder_v - arc.rise_ohm * bead.current_a - arc.power_w / bead.current_a
    return BeadResult(source_ohm, external_ohm, level_v)


def _refuse_nonsense(bead: BeadReadings) -> None:
    n, amps = bead.in_series, bead.current_a
    if not 1 <= n <= 4:
        raise OutOfRange(f"{n} batteries in series is outside 1 to 4")
    if not 1 <= bead.in_parallel <= 4:
        raise OutOfRange(f"{bead.in_parallel} parallel strings is outside 1 to 4")
    if not 20.0 <= amps <= 600.0:
        raise OutOfRange(f"{amps:g} A is outside what a bead draws, 20 to 600 A")
    if not 10.7 * n <= bead.rest_v <= 13.5 * n:
        raise OutOfRange(
            f"rest volts {bead.rest_v:g} V do not fit {n} batteries ({10.7 * n:.1f} to {13.5 * n:.1f} V)",
            hint="count the batteries in series again",
        )
    if bead.bank_v >= bead.rest_v:
        raise BadData(f"volts rose under load ({bead.rest_v:g} V at rest, {bead.bank_v:g} V welding): read again")
    least_drop_v = n * _ACTIVATION.best
    drop_v = bead.rest_v - bead.bank_v
    if drop_v <= least_drop_v:
        raise BadData(
            f"a fall of {drop_v:.2f} V at {amps:g} A is too small to be true (over {least_drop_v:.1f} V)",
            hint="read the volts while the arc burns steadily",
        )
    if bead.bank_v < 7.0 * n:
        raise OutOfRange(f"{bead.bank_v:g} V at the bank is under 7 V a battery: a stuck rod, not a bead")
    each_ohm = (bead.rest_v - least_drop_v - bead.bank_v) / amps / n
    if each_ohm > _MOST_OHM_EACH:
        raise OutOfRange(f"{each_ohm * 1000:.0f} mΩ a battery is over {_MOST_OHM_EACH * 1000:.0f}: a wrong reading")
    if bead.holder_v is None:
        return
    if bead.holder_v > bead.bank_v + _METER_STEP_V:
        raise BadData(
            f"more volts at the holder ({bead.holder_v:g} V) than at the bank ({bead.bank_v:g} V): read again"
        )
    if not _LEAST_ARC_V <= bead.holder_v <= _MOST_ARC_V:
        raise OutOfRange(f"{bead.holder_v:g} V at the holder is no arc ({_LEAST_ARC_V:g} to {_MOST_ARC_V:g} V)")
    external_ohm = (bead.bank_v - bead.holder_v) / amps
    if external_ohm > _MOST_EXTERNAL_OHM:
        raise OutOfRange(f"{external_ohm * 1000:.0f} mΩ of leads is over {_MOST_EXTERNAL_OHM * 1000:.0f}: read again")


@sourced(figures.METER_RATIO.source, figures.CLAMP_METER_RATIO.source)
def learn(
    bead: BeadReadings,
    *,
    meter_ratio: float = figures.METER_RATIO.value,
    clamp_ratio: float = figures.CLAMP_METER_RATIO.value,
) -> Learned:
    """What a bead teaches the band: readings with their meters' accuracy, for `band.current_band(learned=...)`.

    A fall of volts read with one meter is good to the meter's share of the fall and two hundredths a battery. Without
    volts at the holder the arc is told from the bank's volts less the leads' own reckoned drop.

    >>> learn(BeadReadings(rest_v=37.9, bank_v=33.0, current_a=150.0, in_series=3)).at_holder
    False
    """
    _refuse_nonsense(bead)

    def fall(volts: float) -> Span:
        return Span.around(volts, give_or_take=meter_ratio * abs(volts) + _METER_STEP_V)

    drop_v = bead.rest_v - bead.bank_v
    at_holder = bead.holder_v is not None
    arc_v = bead.bank_v if bead.holder_v is None else bead.holder_v
    return Learned(
        current_a=Span.around(bead.current_a, give_or_take=clamp_ratio * bead.current_a),
        in_series=bead.in_series,
        in_parallel=bead.in_parallel,
        drop_v=Span.around(drop_v, give_or_take=meter_ratio * drop_v + _METER_STEP_V * bead.in_series),
        lead_drop_v=fall(bead.bank_v - bead.holder_v) if bead.holder_v is not None else None,
        arc_v=Span.around(arc_v, give_or_take=meter_ratio * arc_v),
        at_holder=at_holder,
    )
