"""The bank's current band against a rod's range: cold, in range, hot, too hot, no arc."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import sourced
from kitlist.physics import figures
from kitlist.physics.bank.band import Band


class Fit(StrEnum):
    """How a bank's current sits in a rod's range, best first."""

    IN_RANGE = "in range"
    HOT = "hot"
    COLD = "cold"
    TOO_HOT = "too hot"
    NO_ARC = "no arc"

    @property
    def words(self) -> str:
        """What it means at the arc."""
        return {
            Fit.IN_RANGE: "the current sits in the rod's range",
            Fit.HOT: "runs hot: short runs, only on steel thicker than the rod's usual plate",
            Fit.COLD: "runs cold: the rod sticks and the weld may not melt in",
            Fit.TOO_HOT: "too hot: the rod overheats and the plate burns through",
            Fit.NO_ARC: "more likely than not there is no arc to hold",
        }[self]

    @property
    def rank(self) -> int:
        """0 is best."""
        return tuple(Fit).index(self)


@dataclass(frozen=True, slots=True)
class RodVerdict:
    """A rod's fit, with the band and the range it was judged by, A; `no_arc_ratio` is always to be shown."""

    fit: Fit
    low_a: float
    middle_a: float
    high_a: float
    no_arc_ratio: float
    range_low_a: float
    range_high_a: float


@sourced(figures.HOT_LIMIT.source)
def fit_of(
    *,
    low_a: float,
    middle_a: float,
    high_a: float,
    range_low_a: float,
    range_high_a: float,
    hot_limit_ratio: float = figures.HOT_LIMIT.value,
) -> Fit:
    """The fit of a 10-50-90 % band, A, in a rod's printed range, A; no arc counts as 0 A.

    Cold: the 90 % value under the range, and also a middle under it. In range: the middle inside. Hot: the middle above
    and the 10 % value at most 1.5 times the top. Too hot: the 10 % value above that. No arc: the middle is 0.

    >>> fit_of(low_a=158, middle_a=201, high_a=252, range_low_a=45, range_high_a=90).value
    'too hot'
    """
    if not 0.0 < range_low_a <= range_high_a:
        raise OutOfRange(f"a rod's range of {range_low_a:g} to {range_high_a:g} A is none")
    if middle_a <= 0.0:
        return Fit.NO_ARC
    if middle_a < range_low_a or high_a < range_low_a:
        return Fit.COLD
    if middle_a <= range_high_a:
        return Fit.IN_RANGE
    return Fit.TOO_HOT if low_a > hot_limit_ratio * range_high_a else Fit.HOT


def judge(
    band: Band, *, range_low_a: float, range_high_a: float, hot_limit_ratio: float = figures.HOT_LIMIT.value
) -> RodVerdict:
    """A band against a rod's printed range, A.

    >>> judge(Band(70.0, 90.0, 110.0, 0.0), range_low_a=75, range_high_a=130).fit.value
    'in range'
    """
    fit = fit_of(
        low_a=band.low_a,
        middle_a=band.middle_a,
        high_a=band.high_a,
        range_low_a=range_low_a,
        range_high_a=range_high_a,
        hot_limit_ratio=hot_limit_ratio,
    )
    return RodVerdict(fit, band.low_a, band.middle_a, band.high_a, band.no_arc_ratio, range_low_a, range_high_a)
