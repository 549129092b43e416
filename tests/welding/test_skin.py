"""Auto-darkening filters and clothing."""

import pytest

from kitlist.base.terms import Covering, Position
from kitlist.welding.rods.skin import clothing_class, doubts_of_auto_darkening

FINE = {
    "darkest_shade": 11,
    "needed_shade": 11,
    "tested_days_ago": 10,
    "cell_changed_days_ago": 100,
    "lowest_c": -10,
    "coldest_c": -6,
}


def test_a_good_filter_raises_no_doubt():
    assert doubts_of_auto_darkening(**FINE) == ()


@pytest.mark.parametrize(
    ("change", "about"),
    [
        ({"darkest_shade": 10}, "shade"),
        ({"darkest_shade": None}, "shade"),
        ({"tested_days_ago": 91}, "test"),
        ({"tested_days_ago": None}, "test"),
        ({"cell_changed_days_ago": 731}, "cell"),
        ({"cell_changed_days_ago": None}, "cell"),
        ({"coldest_c": -11}, "cold"),
        ({"lowest_c": None}, "cold"),
    ],
)
def test_each_doubt_alone(change, about):
    doubts = doubts_of_auto_darkening(**(FINE | change))
    assert [doubt.about for doubt in doubts] == [about]
    assert doubts[0].remedy


def test_warm_weather_raises_no_doubt_about_an_unrated_filter():
    assert doubts_of_auto_darkening(**(FINE | {"lowest_c": None, "coldest_c": 5})) == ()


@pytest.mark.parametrize(
    ("covering", "position", "confined", "number"),
    [
        (Covering.RUTILE, Position.FLAT, False, 1),
        (Covering.RUTILE, Position.OVERHEAD, False, 2),
        (Covering.RUTILE, Position.FLAT, True, 2),
        (Covering.BASIC, Position.FLAT, False, 2),
        (Covering.CELLULOSIC, Position.FLAT, False, 2),
    ],
)
def test_clothing_by_iso_11611(covering, position, confined, number):
    assert clothing_class(covering, position=position, confined=confined).class_number == number
