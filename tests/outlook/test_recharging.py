"""Charges on the trip for rods beyond one charge: how many, how long the slowest battery takes, and when not told."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, ToolKind
from kitlist.kit import Kit
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.charge_words import time_words
from kitlist.outlook.field_charge import kept_ratio
from kitlist.outlook.recharging import ChargesNeeded, charges_needed
from kitlist.outlook.refusal import Refusal, Why
from kitlist.physics.battery.charge_time import ChargeTime, charge_time
from kitlist.physics.battery.recharge import Feed
from kitlist.rules.example import tool, whole, with_kit

CHARGER = tool("charger", ToolKind.CHARGER, rating_a=10)
PANEL = tool("panel", ToolKind.SOLAR_PANEL, power_w=100)


def kit(*tools: Any, **changes: Any) -> Kit:
    return with_kit(tools=(*whole().kit.tools, *tools), **changes).kit


@cache
def seen() -> Outlook:
    return look_out(whole().kit, whole().trip, on=whole().on)


def needed(
    own: Kit, *, total_ah: float = 30.0, one_charge_ah: float = 20.0, outlook: Outlook | None = None, **trip: Any
) -> ChargesNeeded | None:
    return charges_needed(
        own, replace(whole().trip, **trip), outlook or seen(), total_ah=total_ah, one_charge_ah=one_charge_ah
    )


def takes(back_ah: float, *, temp_c: float = 5.0, name: str = "north-main") -> ChargeTime:
    """A charge of one battery from what it keeps, by the charger, by hand."""
    low = kept_ratio(seen().batteries[name], seen().rods)
    return charge_time(
        feed=Feed.CHARGER,
        rating=10,
        soc_ratio=Span.exactly(low),
        to_soc_ratio=min(0.98, low + back_ah / 80),
        capacity_ah=80,
        chemistry=Chemistry.AGM,
        temp_c=temp_c,
    )


def test_a_charge_puts_back_what_is_missing_and_no_more_than_one_charge_gives() -> None:
    for total_ah, back_ah, charges in ((25.0, 5.0, 1), (40.0, 20.0, 1), (41.0, 20.0, 2), (60.0, 20.0, 2)):
        found = needed(kit(CHARGER), total_ah=total_ah)
        assert found is not None
        assert found.charges == charges
        assert found.takes_each.likely_h == pytest.approx(takes(back_ah).likely_h, rel=0.02)
    cold = needed(kit(CHARGER), coldest_c=None)
    assert cold is not None
    assert cold.takes_each.likely_h < takes(10.0).likely_h  # a warm battery's time where nobody said


def test_of_two_strings_each_battery_gets_half_of_what_goes_back() -> None:
    four = ("north-main", "north-second", "south-main", "south-second")
    one, two = (needed(kit(CHARGER), total_ah=26.0, bank=four, bank_strings=strings) for strings in (1, 2))
    assert one is not None
    assert two is not None
    assert two.takes_each.likely_h < one.takes_each.likely_h
    assert two.takes_each.likely_h == pytest.approx(takes(3.0).likely_h, rel=0.02)


def test_each_battery_goes_by_its_quickest_way_and_the_slowest_battery_governs() -> None:
    found = needed(kit(PANEL, CHARGER))
    assert found is not None
    assert found.ways == (f"charger, {Feed.CHARGER}",)
    quick = kit(
        CHARGER,
        vehicles=tuple(replace(v, alternator_a=100.0 if v.name == "North" else None) for v in whole().kit.vehicles),
    )
    mixed = needed(quick)
    assert mixed is not None
    assert mixed.ways[-1] == f"charger, {Feed.CHARGER}"
    assert len(mixed.ways) == 2
    assert mixed.ways[0].startswith("North, ")
    assert mixed.takes_each.likely_h == pytest.approx(found.takes_each.likely_h)  # south-second has the charger alone
    assert found.words == f"1 charge on the trip, each {time_words(found.takes_each)}, by charger, {Feed.CHARGER}"


def test_what_cannot_be_told_or_is_not_needed_has_no_charges() -> None:
    good = kit(CHARGER)
    assert needed(good) is not None
    assert needed(good, one_charge_ah=0.0) is None
    assert needed(good, total_ah=20.0) is None
    assert needed(good, bank=()) is None
    assert needed(kit()) is None
    second = seen().batteries["north-second"]
    for changed in (
        replace(second, battery=replace(second.battery, c20_ah=None)),
        replace(second, refusal=Refusal(why=Why.CUT_OFF)),
    ):
        outlook = replace(seen(), batteries=seen().batteries | {"north-second": changed})
        assert needed(good, outlook=outlook) is None
    gone = {name: one for name, one in seen().batteries.items() if name != "north-second"}
    assert needed(good, outlook=replace(seen(), batteries=gone)) is None


def test_charges_fit_where_each_with_its_hour_of_rest_goes_into_six_hours_of_each_day() -> None:
    found = needed(kit(CHARGER), total_ah=100.0)
    assert found is not None
    hours = found.charges * (found.takes_each.likely_h + 1.0)
    start = whole().trip.starts_on
    for days in range(1, 9):
        trip = {"ends_on": start.replace(day=start.day + days - 1)}
        again = needed(kit(CHARGER), total_ah=100.0, **trip)
        assert again is not None
        assert again.fits is (hours <= 6.0 * days)
