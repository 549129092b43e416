"""Practice welds: the band of that day without the weld itself, what the meters say, and whether it came true."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Any

import pytest

from kitlist.base.errors import KitlistError
from kitlist.kit import Ballast, Bead
from kitlist.outlook import look_out
from kitlist.outlook.beads import BeadOutlook, bead_outlook
from kitlist.rules.example import Example, reading, rod, whole, with_kit, without_lead

THREE = ("north-main", "north-second", "south-second")


def bead(**changes: Any) -> Bead:
    """Three batteries at 37.9 V, under load 33.0 V, 31.5 V at the holder."""
    fields: dict[str, Any] = {
        "welded_on": whole().on,
        "bank": THREE,
        "rest_v": 37.9,
        "bank_v": 33.0,
        "current_a": 150,
        "holder_v": 31.5,
    }
    return Bead(name="first", **(fields | changes))


def seen(example: Example, **changes: Any) -> BeadOutlook:
    return bead_outlook(example.kit, bead(**changes))


def test_the_meters_give_bank_and_leads_once_0_4_v_a_battery_is_taken_off() -> None:
    result = seen(whole()).result
    assert result.source_ohm == pytest.approx((37.9 - 3 * 0.4 - 33.0) / 150)
    assert result.external_ohm == pytest.approx((33.0 - 31.5) / 150)


def test_two_strings_count_the_batteries_of_one() -> None:
    four = seen(whole(), bank=(*THREE, "south-main"), bank_strings=2, rest_v=25.4, bank_v=22.0, holder_v=None)
    assert four.result.source_ohm == pytest.approx((25.4 - 2 * 0.4 - 22.0) / 150)
    assert (four.result.external_ohm, four.result.arc_level_v) == (None, None)
    two = seen(whole(), bank=THREE[:2], rest_v=25.4, bank_v=22.0, holder_v=None)
    one_string = seen(whole(), bank=(*THREE, "south-main"), rest_v=51.0, bank_v=46.0, holder_v=None)
    assert four.predicted is not None
    assert two.predicted is not None
    assert one_string.predicted is not None
    assert two.predicted.middle_a < four.predicted.middle_a < one_string.predicted.middle_a


def test_amps_on_the_border_of_the_band_are_inside_and_a_hair_beyond_are_not() -> None:
    one = seen(whole())
    assert one.predicted is not None
    low_a, high_a = one.predicted.low_a, one.predicted.high_a
    for amps, inside in ((low_a, True), (high_a, True), (low_a - 0.01, False), (high_a + 0.01, False)):
        assert replace(one, bead=replace(one.bead, current_a=amps)).inside is inside


@pytest.mark.parametrize("designation", ["E6013", "E6010", "E7018"])
@pytest.mark.parametrize("ballast", [None, "strip"])
def test_it_is_predicted_as_that_bank_is_for_those_rods_and_with_that_strip(
    designation: str, ballast: str | None
) -> None:
    strip = Ballast(name="strip", measured_mohm=60)
    example = with_kit(rods=(rod("those", designation=designation),), ballasts=(strip,))
    that_day = replace(example.trip, starts_on=example.on, ends_on=example.on, coldest_c=None, hottest_c=None)
    trip = replace(that_day, bank=THREE, ballast=ballast)
    (packet,) = look_out(example.kit, trip, on=example.on).rods
    one = seen(example, rod="those", ballast=ballast)
    assert packet.predicted is not None
    assert one.predicted == packet.predicted
    assert one.predicted != seen(whole(), ballast=None if ballast else "strip").predicted


def test_a_weld_of_no_rods_that_are_known_is_predicted_for_the_usual_ones() -> None:
    example = with_kit(rods=(rod("those", designation="E0000"),))
    assert seen(example, rod="those").predicted == seen(example).predicted == seen(example, rod="gone").predicted


def test_a_weld_does_not_narrow_its_own_prediction() -> None:
    kept = with_kit(beads=(bead(),))
    assert seen(kept).predicted == seen(whole()).predicted
    assert seen(whole(), current_a=120).predicted == seen(whole()).predicted


def test_it_is_predicted_from_what_was_read_up_to_that_day() -> None:
    low = tuple(reading(name, volts_v=12.2, taken_at=datetime(2027, 3, 5, 8, 0)) for name in THREE)  # noqa: DTZ001 - readings are kept in local time
    later = with_kit(readings=(*low, *whole().kit.readings))
    assert seen(later).predicted == seen(whole()).predicted
    next_day, then = seen(later, welded_on=low[0].taken_at.date()).predicted, seen(whole()).predicted
    assert next_day is not None
    assert then is not None
    assert next_day.middle_a < then.middle_a


def test_what_cannot_be_predicted_is_neither_inside_nor_outside_but_is_worked_out() -> None:
    one = seen(without_lead("work lead"))
    assert (one.predicted, one.inside) == (None, None)
    assert one.result.source_ohm > 0


def test_volts_that_do_not_fit_the_count_of_batteries_are_refused() -> None:
    with pytest.raises(KitlistError, match="do not fit 3 batteries"):
        seen(whole(), rest_v=25.4, bank_v=22.0, holder_v=None)
