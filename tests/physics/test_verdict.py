"""A band against a rod: each verdict at its boundary."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.verdict import Fit, fit_of, judge


@pytest.mark.parametrize(
    ("low", "middle", "high", "fit"),
    [
        (0, 0, 81, Fit.NO_ARC),
        (40, 60, 79, Fit.COLD),
        (40, 79.9, 100, Fit.COLD),
        (40, 80, 100, Fit.IN_RANGE),
        (90, 130, 170, Fit.IN_RANGE),
        (90, 130.1, 170, Fit.HOT),
        (195, 210, 260, Fit.HOT),
        (195.1, 210, 260, Fit.TOO_HOT),
    ],
)
def test_the_verdict_turns_at_the_rods_range_and_at_one_and_a_half_times_its_top(low, middle, high, fit):
    assert fit_of(low_a=low, middle_a=middle, high_a=high, range_low_a=80, range_high_a=130) is fit


def test_fits_rank_in_range_first_and_no_arc_last():
    assert sorted(Fit, key=lambda fit: fit.rank) == [Fit.IN_RANGE, Fit.HOT, Fit.COLD, Fit.TOO_HOT, Fit.NO_ARC]
    assert all(fit.words for fit in Fit)


def test_a_verdict_carries_the_share_with_no_arc():
    assert judge(Band(0, 85, 120, 0.18), range_low_a=80, range_high_a=130).no_arc_ratio == 0.18


@pytest.mark.parametrize(("low", "high"), [(0, 100), (130, 80)])
def test_a_range_that_is_none_is_refused(low, high):
    with pytest.raises(OutOfRange):
        fit_of(low_a=1, middle_a=2, high_a=3, range_low_a=low, range_high_a=high)
