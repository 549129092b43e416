"""What of a reading is asked about, and what is taken without a word."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest

from kitlist.kit import Reading
from kitlist.outlook.misread import misread

AT = datetime.fromisoformat("2027-05-08T07:00")


def read(volts_v: float, *, battery: str = "main", days_ago: float = 0, **more: Any) -> Reading:
    return Reading(battery=battery, volts_v=volts_v, taken_at=AT - timedelta(days=days_ago), **more)


@pytest.mark.parametrize(("volts_v", "asked"), [(0.99, False), (1.0, True), (1.5, True), (1.51, False), (12.7, False)])
def test_a_tenth_of_what_a_battery_shows_is_a_point_too_far_left(volts_v: float, asked: bool) -> None:
    assert any(slip.question.endswith(f"is it {volts_v * 10:g} V?") for slip in misread(read(volts_v))) is asked


@pytest.mark.parametrize(("volts_v", "more", "asked"), [(3.2, {}, True), (7.99, {}, True), (8.0, {}, False),
                                                       (3.2, {"load_a": 200.0}, False), (0.3, {}, True)])  # fmt: skip
def test_less_than_any_battery_with_life_in_it_shows_at_rest_is_asked_about(
    volts_v: float, more: dict[str, float], asked: bool
) -> None:
    assert any("digit missing" in slip.question for slip in misread(read(volts_v, **more))) is asked


@pytest.mark.parametrize(("temp_c", "asked"), [(50, False), (50.5, True), (72, True), (-20, False)])
def test_a_battery_hotter_than_fifty_is_perhaps_fahrenheit(temp_c: float, asked: bool) -> None:
    assert bool(misread(read(12.7, battery_temp_c=temp_c))) is asked


@pytest.mark.parametrize(
    ("now_v", "before_v", "other_v", "asked"),
    [
        (12.22, 12.74, 12.21, True),  # like the other one, unlike itself
        (12.74, 12.22, 12.72, True),  # the other way round: or it was charged, which is asked for too
        (12.74, 12.22, 12.40, False),  # charged, and like no other
        (12.22, 12.74, 12.60, True),  # fell without a cause
        (12.50, 12.74, 12.50, False),  # no further than three weeks take
    ],
)
def test_a_reading_far_from_the_battery_s_own_is_asked_about(
    now_v: float, before_v: float, other_v: float, asked: bool
) -> None:
    own, others = [read(before_v, days_ago=3)], [read(other_v, battery="second", days_ago=3)]
    assert bool(misread(read(now_v), own=own, others=others)) is asked


def test_readings_on_load_on_charge_or_long_ago_say_nothing_about_which_battery_it_is() -> None:
    fell = read(12.1)
    assert misread(fell, own=[read(12.74, days_ago=3)])
    assert not misread(fell, own=[read(12.74, days_ago=31)])
    assert not misread(fell, own=[read(13.9, days_ago=3, charging=True)])
    assert not misread(read(11.0, load_a=100), own=[read(12.74, days_ago=3)])
    assert not misread(fell, own=[read(12.74, days_ago=-1)])


def test_the_question_says_what_was_read_when_and_which_battery_reads_like_it() -> None:
    own = [read(12.74, days_ago=3), read(12.0, days_ago=9)]
    others = [read(12.25, battery="third", days_ago=1), read(12.21, battery="second", days_ago=2)]
    (slip,) = misread(read(12.22), own=own, others=others)
    assert (slip.field, slip.question) == (
        "battery",
        "main read 12.74 V on 2027-05-05, and second read 12.21 V: is it the right battery?",
    )
    (fell,) = misread(read(12.22), own=own)
    assert fell.question == (
        "main read 12.74 V on 2027-05-05, now 12.22 V: is it the right battery, and was nothing left on?"
    )
    assert misread(read(12.9), own=own[1:]) == ()  # it was charged


def test_another_battery_s_reading_counts_only_rested_and_of_this_month_and_within_the_twentieth_of_a_volt() -> None:
    rose = {"own": [read(12.0, days_ago=3)]}
    like = read(12.7, battery="second", days_ago=1)
    assert misread(read(12.74), others=[like], **rose)
    for other in (
        read(12.68, battery="second", days_ago=1),
        read(12.7, battery="second", days_ago=31),
        read(12.7, battery="second", days_ago=-1),
        read(12.7, battery="second", days_ago=1, load_a=50.0),
        read(12.7, battery="second", days_ago=1, charging=True),
    ):
        assert not misread(read(12.74), others=[other], **rose)
    assert misread(read(12.74), others=[read(12.7, battery="second", days_ago=30)], **rose)
    assert not misread(read(12.74, charging=True), others=[like], **rose)


def test_a_slip_of_the_point_is_asked_first_and_then_nothing_of_the_battery() -> None:
    own = [read(12.74, days_ago=3)]
    assert [slip.field for slip in misread(read(1.22, battery_temp_c=60), own=own)] == ["volts_v", "battery_temp_c"]
    assert [slip.field for slip in misread(read(3.0), own=own)] == ["volts_v"]
