"""Open-circuit volts by covering."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Covering
from kitlist.welding.rods.striking import Striking, strikes


@pytest.mark.parametrize(
    ("covering", "rested_v", "striking"),
    [
        (Covering.RUTILE, 12.7, Striking.NO),
        (Covering.RUTILE, 25.2, Striking.MARGINAL),
        (Covering.RUTILE, 37.8, Striking.EASY),
        (Covering.BASIC, 25.2, Striking.NO),
        (Covering.BASIC, 37.8, Striking.EASY),
        (Covering.CELLULOSIC, 25.2, Striking.NO),
        (Covering.CELLULOSIC, 37.8, Striking.MARGINAL),
        (Covering.CELLULOSIC, 50.4, Striking.EASY),
    ],
)
def test_two_three_and_four_batteries_as_practice_reports_them(covering, rested_v, striking):
    """24 V: rutile marginal, cellulosic no; 36 V: rutile and basic, cellulosic marginal; one battery never."""
    assert strikes(covering, rested_v=rested_v).striking is striking


def test_every_covering_is_known_and_holds_below_where_it_strikes():
    for covering in Covering:
        verdict = strikes(covering, rested_v=30)
        assert verdict.hold_v < verdict.strike_v
        assert verdict.words


def test_a_bank_that_is_no_bank_is_refused():
    with pytest.raises(OutOfRange, match="10 to 60 V"):
        strikes(Covering.RUTILE, rested_v=90)
