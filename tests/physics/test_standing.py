"""Standing batteries: expected values worked out by hand from the published rates."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.battery.charge import Charge, rested_volts, state_of_charge
from kitlist.physics.battery.standing import (
    Loss,
    Standing,
    carry_forward,
    freezing_point,
    may_freeze,
    monthly_loss,
    standing_loss,
)

FULL = Charge(Span.exactly(1.0))


def later(days, chemistry=Chemistry.FLOODED, standing=Standing.DISCONNECTED, charge=FULL, **more):
    return carry_forward(charge, days=days, chemistry=chemistry, standing=standing, **more)


def test_ninety_days_at_30_degrees_leave_68_1_percent_flooded_and_83_1_calcium():
    assert later(90, mean_temp_c=30).soc_ratio.best == pytest.approx(0.681, abs=5e-4)
    assert later(90, Chemistry.CALCIUM, mean_temp_c=30).soc_ratio.best == pytest.approx(0.831, abs=5e-4)


def test_loss_doubles_every_ten_degrees():
    assert [monthly_loss(chemistry=Chemistry.FLOODED, temp_c=t).best for t in (10, 20, 30, 40)] == pytest.approx(
        [0.03, 0.06, 0.12, 0.24]
    )


def test_the_bounds_spread_as_it_stands():
    month, quarter = later(30).soc_ratio, later(90).soc_ratio
    assert 0 < month.width < quarter.width


def test_thirty_days_on_30_ma_take_21_6_ah():
    with_drain = later(30, standing=Standing.CONNECTED, capacity_ah=100.0).soc_ratio.best
    without = later(30).soc_ratio.best
    assert without - with_drain == pytest.approx(0.216)


@pytest.mark.parametrize(
    ("days", "standing", "capacity_ah", "word"),
    [
        (3, Standing.DRIVEN, 70.0, "driven"),
        (366, Standing.DISCONNECTED, 70.0, "over a year"),
        (3, Standing.CONNECTED, None, "capacity"),
        (100, Standing.CONNECTED, 40.0, "flat"),
    ],
)
def test_what_cannot_be_told_is_not_known_and_says_why(days, standing, capacity_ah, word):
    charge = later(days, standing=standing, capacity_ah=capacity_ah)
    assert not charge.known
    assert word in charge.reason


def test_no_days_change_nothing_and_days_back_are_refused():
    assert later(0) is FULL
    with pytest.raises(OutOfRange, match="back"):
        later(-1)


def test_not_known_stays_not_known():
    unknown = Charge(None, "on charge")
    assert later(10, charge=unknown) is unknown


def test_the_volts_fall_with_the_charge():
    read = state_of_charge(chemistry=Chemistry.FLOODED, rested_v=12.60, rested_h=24, temp_c=25)
    stood = later(60, charge=read)
    assert stood.ocv_25_v.best < read.ocv_25_v.best
    assert stood.ocv_25_v.width >= read.ocv_25_v.width


def test_heat_over_the_model_is_refused():
    with pytest.raises(OutOfRange):
        monthly_loss(chemistry=Chemistry.AGM, temp_c=60)


@pytest.mark.parametrize(("soc", "freezes"), [(0.0, -9.4), (0.25, -15.0), (0.5, -26.1), (0.75, -37.2), (1.0, -59.5)])
def test_freezing_points_are_the_published_ones(soc, freezes):
    assert freezing_point(soc_ratio=soc) == freezes


def test_a_flat_battery_freezes_where_a_full_one_does_not():
    assert may_freeze(soc_ratio=Span.exactly(0.05), coldest_c=-12) is True
    assert may_freeze(soc_ratio=Span.exactly(0.9), coldest_c=-12) is False


def test_an_unknown_charge_cannot_be_cleared_of_frost_and_is_safe_in_the_mild():
    assert may_freeze(soc_ratio=None, coldest_c=-12) is None
    assert may_freeze(soc_ratio=None, coldest_c=-5) is False


def test_at_its_very_freezing_point_a_battery_may_freeze():
    assert may_freeze(soc_ratio=Span.exactly(0.25), coldest_c=-15.0) is True
    assert may_freeze(soc_ratio=Span.exactly(0.25), coldest_c=-14.9) is False


def test_an_unknown_chemistry_loses_at_the_bounds_of_all():
    unknown = monthly_loss(chemistry=Chemistry.UNKNOWN)
    assert (unknown.low, unknown.best, unknown.high) == (0.01, 0.06, 0.21)
    with pytest.raises(OutOfRange):
        monthly_loss(chemistry=Chemistry.LITHIUM)


def test_what_is_left_takes_off_the_drain_at_its_other_end():
    loss = Loss(left_ratio=Span(0.8, 0.9, 1.0), drained_ratio=Span(0.1, 0.2, 0.3))
    left = loss.after(Span(0.5, 0.6, 0.7))
    assert (left.low, left.best, left.high) == pytest.approx((0.5 * 0.8 - 0.3, 0.6 * 0.9 - 0.2, 0.7 - 0.1))


def test_only_a_battery_that_is_connected_feeds_the_vehicle():
    facts = {"days": 10, "chemistry": Chemistry.AGM, "mean_temp_c": 20.0}
    off = standing_loss(standing=Standing.DISCONNECTED, capacity_ah=80.0, **facts)
    assert off.drained_ratio == Span.exactly(0.0)
    on = standing_loss(standing=Standing.CONNECTED, capacity_ah=80.0, **facts)
    # 20 to 50 mA for 240 h out of 80 Ah
    assert (on.drained_ratio.low, on.drained_ratio.high) == pytest.approx((0.06, 0.15))


def test_no_month_takes_more_than_99_percent_however_hot():
    assert monthly_loss(chemistry=Chemistry.UNKNOWN, temp_c=50.0).high == 0.99


def test_a_year_is_carried_forward_and_a_flat_battery_is_not():
    assert later(365, Chemistry.GEL, mean_temp_c=0.0).known
    flat = later(1, charge=Charge(Span.exactly(0.0)))
    assert not flat.known
    assert "flat after 1 day" in flat.reason


def test_a_low_end_that_would_be_under_flat_is_flat_and_the_likely_and_high_ends_are_by_hand():
    # 0.3 A h a day and more out of 40 Ah: 60 days at 30 mA take 43.2 Ah of 40, at 20 mA 28.8 and of 100 %.
    stood = later(45, standing=Standing.CONNECTED, capacity_ah=40.0, charge=Charge(Span(0.2, 0.95, 1.0)))
    assert stood.soc_ratio.low == 0.0
    month = 45 / 30
    assert stood.soc_ratio.best == pytest.approx(0.95 * 0.94**month - 0.030 * 24 * 45 / 40)
    assert stood.soc_ratio.high == pytest.approx((1 - 0.04) ** month - 0.020 * 24 * 45 / 40, abs=0.02)


def test_the_volts_of_a_full_battery_by_the_table_stay_by_the_table_at_every_end():
    full_v = rested_volts(soc_ratio=1.0, chemistry=Chemistry.FLOODED)
    read = Charge(Span.exactly(1.0), "", Span.exactly(full_v))
    stood = later(60, charge=read)
    for end in ("low", "best", "high"):
        by_table = rested_volts(soc_ratio=getattr(stood.soc_ratio, end), chemistry=Chemistry.FLOODED)
        assert getattr(stood.ocv_25_v, end) == pytest.approx(by_table)
    assert later(60, Chemistry.UNKNOWN, charge=read).ocv_25_v is None


def test_at_the_freezing_point_of_a_flat_battery_an_unknown_charge_is_not_known_to_be_safe():
    assert may_freeze(soc_ratio=None, coldest_c=-9.4) is None
    assert may_freeze(soc_ratio=None, coldest_c=-9.3) is False
