"""A band against a rod: each verdict at its boundary."""

from __future__ import annotations

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.base.terms import Position
from kitlist.physics import figures
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.unknowns import Unknown, weigh
from kitlist.physics.bank.verdict import Fit, fit_of, hotter, is_short_arc, judge, rank_of
from kitlist.physics.lattice import POINTS, column
from kitlist.physics.leads.link_readings import readings


@pytest.mark.parametrize(
    ("low", "middle", "high", "fit"),
    [
        (0, 0, 81, Fit.NO_ARC),
        (40, 60, 79, Fit.COLD),
        (40, 79.9, 100, Fit.COLD),
        (40, 80, 100, Fit.IN_RANGE),
        (90, 130, 170, Fit.IN_RANGE),
        (90, 130.1, 170, Fit.WARM),
        (130, 149.5, 170, Fit.WARM),
        (130.1, 149.5, 170, Fit.HOT),
        (90, 149.6, 170, Fit.HOT),
        (195, 210, 260, Fit.HOT),
        (195.1, 210, 260, Fit.TOO_HOT),
    ],
)
def test_the_verdict_turns_at_the_rods_range_and_at_one_and_a_half_times_its_top(low, middle, high, fit):
    assert fit_of(low_a=low, middle_a=middle, high_a=high, range_low_a=80, range_high_a=130) is fit


def test_fits_rank_in_range_first_and_no_arc_last():
    assert sorted(Fit, key=lambda fit: fit.rank) == list(Fit)
    assert next(iter(Fit)) is Fit.IN_RANGE
    assert list(Fit)[-1] is Fit.NO_ARC
    assert all(fit.words for fit in Fit)


def test_a_bank_without_an_arc_more_often_than_not_holds_none() -> None:
    judged = [judge(Band(70, 85, 120, share), range_low_a=80, range_high_a=130) for share in (0.5, 0.51)]
    assert judged == [Fit.IN_RANGE, Fit.NO_ARC]


@pytest.mark.parametrize(
    ("position", "top_a"), [(Position.FLAT, 130.0), (Position.VERTICAL, 113.1), (Position.OVERHEAD, 123.5)]
)
def test_the_top_of_a_range_is_less_upright_and_overhead(position: Position, top_a: float) -> None:
    # TM 5-4210-230-14&P-1: 10 to 15 % less upright; overhead common practice.
    band = {"low_a": 90.0, "high_a": 170.0, "range_low_a": 80.0, "range_high_a": 130.0, "position": position}
    assert [fit_of(middle_a=top_a + over, **band) for over in (0.0, 0.1)] == [Fit.IN_RANGE, Fit.WARM]


@pytest.mark.parametrize(("low", "high"), [(0, 100), (130, 80)])
def test_a_range_that_is_none_is_refused(low, high):
    with pytest.raises(OutOfRange):
        fit_of(low_a=1, middle_a=2, high_a=3, range_low_a=low, range_high_a=high)


def test_a_range_of_little_is_still_one_and_a_little_current_is_cold():
    assert fit_of(low_a=0.2, middle_a=0.5, high_a=0.7, range_low_a=0.4, range_high_a=0.9) is Fit.IN_RANGE
    assert fit_of(low_a=0.2, middle_a=0.5, high_a=0.7, range_low_a=0.8, range_high_a=0.9) is Fit.COLD


def test_a_short_arc_is_one_under_the_limit_and_ranks_between_hot_and_cold_however_it_fits() -> None:
    limit_mm = figures.SHORT_ARC_MM.value
    assert [is_short_arc(mm) for mm in (limit_mm - 0.01, limit_mm)] == [True, False]
    assert [rank_of(fit, short_arc=True) for fit in (Fit.IN_RANGE, Fit.HOT, Fit.COLD)] == [2.5, 2.5, Fit.COLD.rank]
    assert rank_of(Fit.IN_RANGE, short_arc=False) == 0.0


def test_a_fit_is_the_hotter_of_held_and_full_and_unknown_where_either_is() -> None:
    assert hotter(Fit.WARM, Fit.IN_RANGE) is hotter(Fit.IN_RANGE, Fit.WARM) is Fit.WARM
    assert (hotter(None, Fit.HOT), hotter(Fit.WARM, None)) == (None, Fit.WARM)


def test_without_a_battery_there_is_nothing_to_link() -> None:
    with pytest.raises(BadData, match="no battery"):
        readings([])
    assert [(one.name, one.expected_v) for one in readings([("a", 12.5), ("b", 12.25)])] == [("a", 12.5), ("b", 24.75)]


def test_of_currents_that_are_all_alike_nothing_matters() -> None:
    level = [100.0] * POINTS
    assert weigh(level, [(Unknown.HAND, column(3))]) == ()
    (both,) = weigh(column(3), [(Unknown.HAND, column(3)), (Unknown.HAND, column(4))])
    assert both.share_ratio == pytest.approx(1.0, abs=0.02)
    first, second = weigh(
        [a + b / 2 for a, b in zip(column(3), column(4), strict=True)],
        [(Unknown.ARC, column(4)), (Unknown.HAND, column(3))],
    )
    assert (first.unknown, second.unknown) == (Unknown.HAND, Unknown.ARC)
    assert (first.share_ratio, second.share_ratio) == pytest.approx((0.8, 0.2), abs=0.03)
