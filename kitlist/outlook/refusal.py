"""Why a battery may not be in a bank: one predicate, its reason an enum with data, asked by every face."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.measures import with_unit
from kitlist.base.noted import noted
from kitlist.base.span import Span
from kitlist.base.terms import DAMAGED, Chemistry, Condition
from kitlist.physics import figures


class Why(StrEnum):
    """The reasons, gravest first. Up to `WORN` no bank may ever have the battery as it is."""

    LITHIUM = "lithium"
    CUT_OFF = "built-in cut-off"
    DAMAGED = "damaged"
    LABEL = "a word on its label"
    NOTED = "damage in its note"
    SHORTED = "shorted cell"
    LOAD_TEST = "load test"
    WORN = "worn out"
    KIND_NOT_KNOWN = "kind not known"
    CAPACITY_NOT_KNOWN = "capacity not known"
    RESISTANCE_NOT_KNOWN = "resistance not known"
    NEVER_CRANKS = "never cranks"
    CHARGE_NOT_KNOWN = "charge not known"
    MAY_FREEZE = "may freeze"
    UNDER_RESERVE = "under its reserve"

    @property
    def for_good(self) -> bool:
        """Whether the battery itself is unfit, whatever is measured or charged: never to be accepted."""
        return list(Why).index(self) <= list(Why).index(Why.WORN)

    @property
    def by_charge(self) -> bool:
        """Whether charging it, or reading it, may make it fit."""
        return self in (Why.CHARGE_NOT_KNOWN, Why.MAY_FREEZE, Why.UNDER_RESERVE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A battery that a bank may not have, and why; the numbers that the reason has, each None where it has none."""

    why: Why
    condition: Condition | None = None
    words: str = ""
    volts_v: float | None = None
    ohm: float | None = None
    limit_ohm: float | None = None
    charge_ratio: float | None = None
    kept_ratio: float | None = None

    def __str__(self) -> str:
        """The reason as it follows a battery's name.

        >>> str(Refusal(why=Why.SHORTED, volts_v=10.4))
        '10.40 V at rest: a shorted cell or ruined, 10.7 V at the least'
        """
        volts = "" if self.volts_v is None else f"{self.volts_v:.2f} V"
        ohm, limit = ((x or 0.0) * 1000 for x in (self.ohm, self.limit_ohm))
        charge, kept = (f"{(x or 0.0) * 100:.0f} %" for x in (self.charge_ratio, self.kept_ratio))
        least = with_unit(figures.SHORTED_CELL_V.value, "V")
        return {
            Why.LITHIUM: "lithium",
            Why.CUT_OFF: "it has a built-in cut-off",
            Why.DAMAGED: f"it is {self.condition}",
            Why.LABEL: f"'{self.words}' stands in its name or note, which speaks of lithium or of electronics inside",
            Why.NOTED: f"'{self.words}' stands in its note, and its condition is written down as another",
            Why.SHORTED: f"{volts} at rest: a shorted cell or ruined, {least} at the least",
            Why.LOAD_TEST: f"{volts} at rest lately, under {least}: it needs a load test before it counts as sound",
            Why.WORN: f"worn out: {ohm:.1f} mΩ, {limit:.1f} mΩ at the most for its rating",
            Why.KIND_NOT_KNOWN: "its kind is not known: it may be lithium",
            Why.CAPACITY_NOT_KNOWN: "its 20 h capacity is not known",
            Why.RESISTANCE_NOT_KNOWN: "neither a cranking rating, nor capacity, nor a reading on load is known of it",
            Why.NEVER_CRANKS: "even full it does not start its engine in the cold",
            Why.CHARGE_NOT_KNOWN: f"its charge at departure is not known, and {kept} must stay in it: "
            "read it rested, in the week before",
            Why.MAY_FREEZE: "it may freeze as it is: charge it first",
            Why.UNDER_RESERVE: f"charge {charge} is at or under the {kept} that it keeps",
        }[self.why]


def unfit(
    *,
    chemistry: Chemistry,
    built_in_cutoff: bool | None,
    condition: Condition,
    words: str = "",
    rested_v: float | None = None,
    lowest_v: float | None = None,
    measured_ohm: float | None = None,
    reject_ohm: float | None = None,
) -> Refusal | None:
    """Why the battery itself is unfit for any bank; None where it is fit.

    `words` is what stands in its name and note, against which kind and condition are held;
    `rested_v` is its newest reading at rest; `lowest_v` the lowest that nobody has followed by a test on load;
    `measured_ohm` its resistance, full and at 25 °C, where it was measured, `reject_ohm` the most for its rating.

    >>> unfit(chemistry=Chemistry.AGM, built_in_cutoff=False, condition=Condition.SOUND) is None
    True
    """
    if chemistry is Chemistry.LITHIUM:
        return Refusal(why=Why.LITHIUM)
    if built_in_cutoff:
        return Refusal(why=Why.CUT_OFF)
    if condition in DAMAGED:
        return Refusal(why=Why.DAMAGED, condition=condition)
    if label := noted("lithium label", words):
        return Refusal(why=Why.LABEL, words=label)
    if damage := noted("battery damage", words):
        return Refusal(why=Why.NOTED, words=damage)
    if rested_v is not None and rested_v < figures.SHORTED_CELL_V.value:
        return Refusal(why=Why.SHORTED, volts_v=rested_v)
    if lowest_v is not None and lowest_v < figures.SHORTED_CELL_V.value:
        return Refusal(why=Why.LOAD_TEST, volts_v=lowest_v)
    if measured_ohm is not None and reject_ohm is not None and measured_ohm > reject_ohm:
        return Refusal(why=Why.WORN, ohm=measured_ohm, limit_ohm=reject_ohm)
    return None


def not_now(
    *,
    chemistry: Chemistry,
    capacity_ah: float | None,
    resistance_known: bool,
    soc_ratio: Span | None,
    reserve_ratio: float,
    may_freeze: bool = False,
) -> Refusal | None:
    """Why a fit battery cannot serve as things stand: something is not known, or it has nothing to give.

    >>> known = {"chemistry": Chemistry.AGM, "capacity_ah": 70.0, "resistance_known": True}
    >>> not_now(**known, soc_ratio=Span(0.4, 0.5, 0.6), reserve_ratio=0.5).why.name
    'UNDER_RESERVE'
    """
    if chemistry is Chemistry.UNKNOWN:
        return Refusal(why=Why.KIND_NOT_KNOWN)
    if capacity_ah is None:
        return Refusal(why=Why.CAPACITY_NOT_KNOWN)
    if not resistance_known:
        return Refusal(why=Why.RESISTANCE_NOT_KNOWN)
    if reserve_ratio > 1.0:
        return Refusal(why=Why.NEVER_CRANKS)
    if soc_ratio is None:
        return Refusal(why=Why.CHARGE_NOT_KNOWN, kept_ratio=reserve_ratio)
    if may_freeze:
        return Refusal(why=Why.MAY_FREEZE)
    if soc_ratio.best <= reserve_ratio:
        return Refusal(why=Why.UNDER_RESERVE, charge_ratio=soc_ratio.best, kept_ratio=reserve_ratio)
    return None
