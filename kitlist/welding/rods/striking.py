"""How many open-circuit volts a covering asks for, against what a bank has at rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Source, row_source, sourced, table
from kitlist.base.terms import Covering


class Striking(StrEnum):
    """How a covering strikes and holds at a bank's rested volts."""

    EASY = "strikes"
    MARGINAL = "marginal"
    NO = "does not strike"


@dataclass(frozen=True, slots=True)
class StrikeVerdict:
    """The judgement, the volts to hold and to strike, and the reason."""

    striking: Striking
    hold_v: float
    strike_v: float
    words: str
    source: Source


@cache
def _rows() -> Mapping[str, Mapping[str, str]]:
    return {row["covering"]: row for row in table("strike_volts")}


@sourced(PRACTICE)
def strikes(covering: Covering, *, rested_v: float) -> StrikeVerdict:
    """Whether a covering strikes from a DC bank of 10 to 60 V at rest. Reported practice; a steady hand moves it.

    >>> [strikes(covering, rested_v=37.8).striking.value for covering in (Covering.RUTILE, Covering.CELLULOSIC)]
    ['strikes', 'marginal']
    """
    if not 10 <= rested_v <= 60:
        raise OutOfRange(f"a bank of {rested_v:g} V: 10 to 60 V")
    row = _rows()[covering]
    hold_v, strike_v = float(row["hold_v"]), float(row["strike_v"])
    striking = Striking.EASY if rested_v >= strike_v else Striking.MARGINAL if rested_v >= hold_v else Striking.NO
    return StrikeVerdict(striking, hold_v, strike_v, f"{covering}: {row['words']}", row_source(row))
