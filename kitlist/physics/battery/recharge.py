"""Putting charge back between repairs: by the engine, a charger or a panel, one battery at a time: hours and limits.

A battery takes what the source gives until the charge still missing limits it; from there the current falls with the
missing ampere-hours (the ampere-hour law), and faster in a warm battery than in a cold one. The limits hold everything
that is fast, or slow, at once; what is likely 8 times in 10 is `charge_time`'s.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import exp, log

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.sources import PRACTICE, Figure, Source, Tag, sourced
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics import figures
from kitlist.physics.battery.standing import freezing_point

_ACCEPTANCE = "the ampere-hour law of 1935: the current a battery takes is at most the ampere-hours that are missing"
TAKES_FLOODED = Figure(
    "charge a flooded battery takes, of what is missing", 1.0, "1/h", Source(Tag.READ, _ACCEPTANCE), 0.6, 1.5
)
TAKES_AGM = Figure("charge an AGM battery takes, of what is missing", 1.2, "1/h", PRACTICE, 0.8, 2.0)
TAKES_GEL = Figure("charge a gel battery takes, of what is missing", 0.7, "1/h", PRACTICE, 0.4, 1.0)
TAKES_UNKNOWN = Figure("charge a battery of unknown kind takes, of what is missing", 0.7, "1/h", PRACTICE, 0.4, 2.0)
COLD_TAKES = Figure(
    "rise of the charge that a battery takes, up to 25 °C",
    0.037,
    "1/K",
    Source(Tag.MEMORY, "EN 50342-1, charge acceptance at 0 °C"),
)
CHARGE_V = Figure("volts at the posts of a battery on charge", 14.2, "V", PRACTICE, 13.8, 14.6)
LEAST_CHARGE_V = Figure("volts on charge under which the time cannot be told", 13.6, "V", PRACTICE)
ENGINE_LOAD_A = Figure("what the running vehicle itself takes", 15.0, "A", PRACTICE, 8.0, 20.0)
IDLE_SHARE = Figure(
    "of its rating, what an alternator gives at idle",
    0.40,
    "ratio",
    Source(Tag.READ, "TM 5-3895-382-24, 0.43; range from practice"),
    0.25,
    0.55,
)
FAST_IDLE_SHARE = Figure(
    "of its rating, what an alternator gives at 1,500 to 2,000 rpm",
    0.75,
    "ratio",
    Source(Tag.READ, "TM 10-3930-671-24, 0.91 higher up and hot; range from practice"),
    0.60,
    0.95,
)
PANEL_A_PER_W = Figure(
    "charge of a solar panel in full sun",
    0.05,
    "A/W",
    Source(Tag.DERIVED, "12 V panel, heat and angle taken off"),
    0.04,
    0.06,
)
SUN_H = Figure("full sun on a panel in a day, where nobody says", 5.0, "h", PRACTICE)
FULL_LEAVES = Figure("of the 20 h capacity, what a full battery may still miss", 0.02, "ratio", PRACTICE)
FREEZE_MARGIN_K = Figure("a battery is charged this far above the freezing of its acid", 5.0, "K", PRACTICE)
CHARGE_MOST_C = Figure("hottest battery that is put on charge", 50.0, "°C", PRACTICE)
READ_AFTER_H = Figure("rest after a charge before volts mean anything", 2.0, "h", PRACTICE)
GOOD_READ_AFTER_H = Figure("rest after a charge before volts are good", 6.0, "h", PRACTICE)
_MOST_V = {Chemistry.GEL: 14.2, Chemistry.AGM: 14.7, Chemistry.UNKNOWN: 14.2}
_CHARGER_SHARE = {Chemistry.GEL: 0.20, Chemistry.AGM: 0.30, Chemistry.UNKNOWN: 0.20}
_FLOODED_MOST_V, _FLOODED_CHARGER_SHARE = 14.8, 0.25
_TAPER_V, _LEAST_FACTOR, _MOST_FACTOR = 14.4, 0.3, 1.2


class Feed(StrEnum):
    """What puts the charge back."""

    IDLE = "engine at idle"
    FAST_IDLE = "engine at fast idle"
    CHARGER = "charger"
    PANEL = "solar panel"


def takes_per_h(chemistry: Chemistry) -> Figure:
    """The share of the missing charge that a battery takes in an hour at 25 °C and 14.4 V; wide, it is practice.

    >>> takes_per_h(Chemistry.AGM).value
    1.2
    """
    kinds = {Chemistry.AGM: TAKES_AGM, Chemistry.GEL: TAKES_GEL, Chemistry.UNKNOWN: TAKES_UNKNOWN}
    return kinds.get(chemistry, TAKES_FLOODED)


@sourced(PRACTICE)
def most_volts(chemistry: Chemistry) -> float:
    """The most volts at the posts on charge, V at 25 °C; an unknown kind gets the least of them all.

    >>> most_volts(Chemistry.GEL), most_volts(Chemistry.CALCIUM)
    (14.2, 14.8)
    """
    return _MOST_V.get(chemistry, _FLOODED_MOST_V)


@sourced(IDLE_SHARE.source, FAST_IDLE_SHARE.source, PANEL_A_PER_W.source)
def current_into_battery(
    feed: Feed, *, rating: float, capacity_ah: float, chemistry: Chemistry = Chemistry.FLOODED
) -> Span:
    """The current that a source has for one battery, A: slow, likely, fast. 0 A where the vehicle eats it all.

    `rating` is the alternator's or charger's in A, the panel's in W. An alternator gives a share of its rating, less
    what the running vehicle takes; a charger is held to a share of the 20 h capacity in Ah; a panel gives this while
    the sun is on it.

    >>> [round(amps) for amps in (current_into_battery(Feed.IDLE, rating=100.0, capacity_ah=70.0).best,
    ...                           current_into_battery(Feed.FAST_IDLE, rating=100.0, capacity_ah=70.0).best)]
    [25, 60]
    """
    if not 0.5 <= rating <= 1000.0:
        raise OutOfRange(f"a {feed} of {rating:g} is outside 0.5 to 1000 (A; a panel: W)")
    if feed is Feed.CHARGER:
        most_a = _CHARGER_SHARE.get(chemistry, _FLOODED_CHARGER_SHARE) * capacity_ah
        return Span.exactly(min(rating, most_a))
    if feed is Feed.PANEL:
        return Span.of(PANEL_A_PER_W).times(rating)
    share, load = engine_parts(feed)
    ends = (share.low * rating - load.high, share.best * rating - load.best, share.high * rating - load.low)
    return Span(*(max(0.0, amps) for amps in ends))


def engine_parts(feed: Feed) -> tuple[Span, Span]:
    """Of an engine: the share of its rating that an alternator gives, and what the vehicle takes of it, A.

    >>> [part.best for part in engine_parts(Feed.IDLE)]
    [0.4, 15.0]
    """
    return Span.of(IDLE_SHARE if feed is Feed.IDLE else FAST_IDLE_SHARE), Span.of(ENGINE_LOAD_A)


def acceptance_per_h(takes: float, *, temp_c: float, volts_v: float) -> float:
    """The share of the missing charge that a battery takes in an hour, by what it takes at 25 °C and 14.4 V.

    >>> round(acceptance_per_h(1.0, temp_c=0.0, volts_v=14.2), 2)
    0.32
    """
    warm = exp(COLD_TAKES.value * (min(temp_c, 25.0) - 25.0))
    return takes * warm * min(max(1.0 - (_TAPER_V - volts_v), _LEAST_FACTOR), _MOST_FACTOR)


def left_at(to_soc_ratio: float, *, capacity_ah: float) -> float:
    """What may still be missing at the charge that is wanted, Ah; full leaves a little.

    >>> round(left_at(0.9, capacity_ah=70.0), 6), round(left_at(1.0, capacity_ah=70.0), 6)
    (7.0, 1.4)
    """
    return max(1.0 - to_soc_ratio, FULL_LEAVES.value) * capacity_ah


def hours_to(*, missing_ah: float, left_ah: float, source_a: float, per_h: float, back: float) -> float:
    """Hours until no more than `left_ah` is missing.

    t = ret (max(0, m0 - max(m1, m_t))/I_s + [m_t < m1] ln(min(m0, m1)/m_t)/k), m1 = I_s/k.

    >>> round(hours_to(missing_ah=35.0, left_ah=28.0, source_a=10.0, per_h=0.4, back=1.15), 3)
    0.805
    """
    if missing_ah <= left_ah:
        return 0.0
    if source_a <= 0.0:
        return float("inf")
    turns_ah = source_a / per_h
    steady_h = max(0.0, missing_ah - max(turns_ah, left_ah)) / source_a
    falling_h = log(max(1.0, min(missing_ah, turns_ah) / left_ah)) / per_h
    return back * (steady_h + falling_h)


@sourced(TAKES_FLOODED.source, COLD_TAKES.source, figures.CHARGE_RETURN.source)
def recharge_h(
    *,
    soc_ratio: Span,
    to_soc_ratio: float,
    capacity_ah: float,
    current_a: Span,
    chemistry: Chemistry = Chemistry.FLOODED,
    temp_c: float = 25.0,
    charge_v: float | None = None,
) -> Span:
    """Hours to bring one battery alone from one charge to another: all fast ends together, likely, all slow ends.

    `current_a` is what the source has for it (`current_into_battery`); `charge_v` the volts measured at its posts
    while charging, not measured 13.8 to 14.6. Full is 0.98. Infinite where the source gives nothing. Under 13.6 V it
    cannot be told; over the most for its kind it is refused. PyBaMM knows no falling current: it bounds the fast end.

    >>> idle = current_into_battery(Feed.IDLE, rating=100.0, capacity_ah=70.0)
    >>> back = recharge_h(soc_ratio=Span.exactly(0.5), to_soc_ratio=0.5 + 6.15 / 70, capacity_ah=70.0, current_a=idle)
    >>> [round(60 * hours) for hours in (back.low, back.best, back.high)]
    [8, 17, 92]
    """
    if chemistry is Chemistry.LITHIUM:
        raise BadData("lithium is charged by its own charger, as its maker says")
    if not 1.0 <= capacity_ah <= 400.0:
        raise OutOfRange(f"capacity {capacity_ah:g} Ah is outside 1 to 400 Ah")
    if not 0.0 <= soc_ratio.low <= soc_ratio.high <= 1.0 or not 0.0 <= to_soc_ratio <= 1.0:
        raise OutOfRange(
            f"charge from {soc_ratio.low:g} to {soc_ratio.high:g}, wanted {to_soc_ratio:g}: outside 0 to 1 of full"
        )
    if not -40.0 <= temp_c <= CHARGE_MOST_C.value:
        raise OutOfRange(f"a battery at {temp_c:g} °C is outside -40 to {CHARGE_MOST_C.value:g} °C of charging")
    volts = charge_volts(chemistry, charge_v)
    left_ah = left_at(to_soc_ratio, capacity_ah=capacity_ah)
    takes, back = Span.of(takes_per_h(chemistry)), Span.of(figures.CHARGE_RETURN)

    def hours(soc: float, source_a: float, k25: float, volts_v: float, ret: float) -> float:
        per_h = acceptance_per_h(k25, temp_c=temp_c, volts_v=volts_v)
        missing_ah = (1.0 - soc) * capacity_ah
        return hours_to(missing_ah=missing_ah, left_ah=left_ah, source_a=source_a, per_h=per_h, back=ret)

    return Span(
        hours(soc_ratio.high, current_a.high, takes.high, volts.high, back.low),
        hours(soc_ratio.best, current_a.best, takes.best, volts.best, back.best),
        hours(soc_ratio.low, current_a.low, takes.low, volts.low, back.high),
    )


def charge_volts(chemistry: Chemistry, charge_v: float | None) -> Span:
    """Volts at the posts while charging: as measured, else what is usual and its kind bears.

    >>> charge_volts(Chemistry.GEL, None)
    Span(low=13.8, best=14.2, high=14.2)
    """
    most_v = most_volts(chemistry)
    if charge_v is None:
        usual = Span.of(CHARGE_V)
        return Span(usual.low, min(usual.best, most_v), min(usual.high, most_v))
    if charge_v < LEAST_CHARGE_V.value:
        raise BadData(
            f"{charge_v:g} V on charge is under {LEAST_CHARGE_V.value:g} V: how long it takes is not known",
            hint="a vehicle that holds its volts down while it drives: use a charger, or switch its headlights on",
        )
    if charge_v > most_v:
        raise OutOfRange(
            f"{charge_v:g} V on charge is over the {most_v:g} V that {chemistry.words} bears",
            hint="stop charging: it gases, dries out and gets hot",
        )
    return Span.exactly(charge_v)


@sourced(PANEL_A_PER_W.source, figures.CHARGE_RETURN.source)
def panel_ah_a_day(*, watt: float, sun_h: float) -> Span:
    """What a panel stores in a battery in a day, Ah: 0.05 W h, less what charging loses. 1 to 1000 W, 0 to 14 h.

    `sun_h` is hours of full sun on the panel, not hours of daylight.

    >>> round(panel_ah_a_day(watt=100.0, sun_h=5.0).best, 1)
    21.7
    """
    if not 1.0 <= watt <= 1000.0 or not 0.0 <= sun_h <= 14.0:
        raise OutOfRange(f"a panel of {watt:g} W in {sun_h:g} h of sun is outside 1 to 1000 W and 0 to 14 h")
    gives, back = Span.of(PANEL_A_PER_W), Span.of(figures.CHARGE_RETURN)
    sun = watt * sun_h
    return Span(gives.low * sun / back.high, gives.best * sun / back.best, gives.high * sun / back.low)


class NotCharged(StrEnum):
    """Why a battery is not put on charge."""

    LITHIUM = "lithium: only by its own charger, as its maker says"
    DAMAGED = "cracked, leaking, swollen, frozen or shorted: it never is"
    MAY_BE_FROZEN = "its acid may be frozen: warm it first"
    TOO_HOT = "it is too hot: let it cool"
    NOT_KNOWN = "its charge is not known, and it may be frozen: warm it or read it first"


@sourced(FREEZE_MARGIN_K.source, CHARGE_MOST_C.source, Source(Tag.READ, "TM 5-4210-230-14&P-1, Table 2"))
def not_charged(
    *, chemistry: Chemistry, temp_c: float, soc_ratio: Span | None, fit_to_charge: bool = True
) -> NotCharged | None:
    """Why this battery is not put on charge at `temp_c` of its own; None where it may be.

    Its acid must be 5 K above freezing at the low bound of its charge, and it must be under 50 °C.

    >>> not_charged(chemistry=Chemistry.FLOODED, temp_c=-12.0, soc_ratio=Span(0.2, 0.3, 0.4)).name
    'MAY_BE_FROZEN'
    """
    if chemistry is Chemistry.LITHIUM:
        return NotCharged.LITHIUM
    if not fit_to_charge:
        return NotCharged.DAMAGED
    if temp_c >= CHARGE_MOST_C.value:
        return NotCharged.TOO_HOT
    flat = 0.0 if soc_ratio is None else soc_ratio.low
    if temp_c <= freezing_point(soc_ratio=flat) + FREEZE_MARGIN_K.value:
        return NotCharged.NOT_KNOWN if soc_ratio is None else NotCharged.MAY_BE_FROZEN
    return None


@dataclass(frozen=True, slots=True)
class RestAfterCharge:
    """The waits after a charge, h: before linking or striking; before a reading means anything; before it is good."""

    link_h: float = figures.GAS_CLEARS_H.value
    read_h: float = READ_AFTER_H.value
    good_read_h: float = GOOD_READ_AFTER_H.value
