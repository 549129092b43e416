"""The bank's current band against a rod's range: cold, in range, hot, too hot, no arc."""

from __future__ import annotations

from enum import StrEnum

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import sourced
from kitlist.base.terms import Position
from kitlist.physics import figures
from kitlist.physics.bank.band import Band


class Fit(StrEnum):
    """How a bank's current sits in a rod's range, best first."""

    IN_RANGE = "in range"
    WARM = "warm"
    HOT = "hot"
    COLD = "cold"
    TOO_HOT = "too hot"
    NO_ARC = "no arc"

    @property
    def words(self) -> str:
        """What it means at the arc."""
        return {
            Fit.IN_RANGE: "the current sits in the rod's range",
            Fit.WARM: "runs a little over the rod's range: short runs, let it cool between",
            Fit.HOT: "runs hot: short runs, only on steel thicker than the rod's usual plate",
            Fit.COLD: "runs cold: the rod sticks and the weld may not melt in",
            Fit.TOO_HOT: "too hot: the rod overheats and the plate burns through",
            Fit.NO_ARC: "more likely than not there is no arc to hold",
        }[self]

    @property
    def welds(self) -> bool:
        """Whether a bank that runs a rod so can weld with it, on steel thick enough."""
        return self in (Fit.IN_RANGE, Fit.WARM, Fit.HOT)

    @property
    def rank(self) -> int:
        """0 is best."""
        return tuple(Fit).index(self)


def hotter(held: Fit | None, full: Fit | None) -> Fit | None:
    """The fit of a bank that may be charged full: as hot as a full one runs the rod, and no better than it is held.

    >>> hotter(Fit.IN_RANGE, Fit.HOT).value, hotter(Fit.COLD, Fit.IN_RANGE).value, hotter(Fit.HOT, Fit.TOO_HOT).value
    ('hot', 'cold', 'too hot')
    """
    if held is None or full is None:
        return held
    return max(held, full, key=lambda fit: fit.rank)


def is_short_arc(longest_mm: float) -> bool:
    """Whether a bank lets only a short arc be held: it strikes hard, and goes out when the hand lifts.

    >>> is_short_arc(3.2), is_short_arc(10.5)
    (True, False)
    """
    return longest_mm < figures.SHORT_ARC_MM.value


def rank_of(fit: Fit, *, short_arc: bool) -> float:
    """A fit in the ranking of banks, least first: a short arc in range comes after one that is hot and holds well.

    >>> rank_of(Fit.HOT, short_arc=False) < rank_of(Fit.IN_RANGE, short_arc=True) < rank_of(Fit.COLD, short_arc=False)
    True
    """
    return max(float(fit.rank), Fit.HOT.rank + 0.5) if short_arc else float(fit.rank)


def top_ratio(position: Position) -> float:
    """What is left of the top of a rod's range in a position, ratio.

    >>> top_ratio(Position.VERTICAL), top_ratio(Position.HORIZONTAL)
    (0.87, 1.0)
    """
    if position in (Position.VERTICAL, Position.VERTICAL_DOWN):
        return figures.VERTICAL_TOP.value
    return figures.OVERHEAD_TOP.value if position is Position.OVERHEAD else 1.0


@sourced(figures.HOT_LIMIT.source, figures.VERTICAL_TOP.source)
def fit_of(
    *,
    low_a: float,
    middle_a: float,
    high_a: float,
    range_low_a: float,
    range_high_a: float,
    position: Position = Position.FLAT,
    hot_limit_ratio: float = figures.HOT_LIMIT.value,
) -> Fit:
    """The fit of a 10-50-90 % band, A, while an arc burns, in a rod's printed range, A, for a position.

    Cold: the 90 % or the 50 % value under the range. In range: the middle inside. Over its top, which is less upright
    and overhead: warm where the middle is at most 1.15 times it and the 10 % value within, too hot where the 10 % value
    is over 1.5 times it, hot between. No arc: the middle is 0.

    >>> fit_of(low_a=158, middle_a=201, high_a=252, range_low_a=45, range_high_a=90).value
    'too hot'
    """
    if not 0.0 < range_low_a <= range_high_a:
        raise OutOfRange(f"a rod's range of {range_low_a:g} to {range_high_a:g} A is none")
    if middle_a <= 0.0:
        return Fit.NO_ARC
    if middle_a < range_low_a or high_a < range_low_a:
        return Fit.COLD
    top_a = range_high_a * top_ratio(position)
    if middle_a <= top_a:
        return Fit.IN_RANGE
    if low_a > hot_limit_ratio * top_a:
        return Fit.TOO_HOT
    return Fit.WARM if middle_a <= figures.WARM_LIMIT.value * top_a and low_a <= top_a else Fit.HOT


def judge(
    band: Band,
    *,
    range_low_a: float,
    range_high_a: float,
    position: Position = Position.FLAT,
    hot_limit_ratio: float = figures.HOT_LIMIT.value,
) -> Fit:
    """The fit of a band in a rod's printed range, A; no arc where more than half of the circumstances hold none.

    >>> judge(Band(70.0, 90.0, 110.0, 0.0), range_low_a=75, range_high_a=130).value
    'in range'
    """
    if band.no_arc_ratio > 0.5:
        return Fit.NO_ARC
    return fit_of(
        low_a=band.low_a,
        middle_a=band.middle_a,
        high_a=band.high_a,
        range_low_a=range_low_a,
        range_high_a=range_high_a,
        position=position,
        hot_limit_ratio=hot_limit_ratio,
    )
