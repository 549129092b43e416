"""Which packet a bank suits best, and what the whole outlook says of current, batteries and banks that do not serve."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from kitlist.base.terms import Chemistry, Polarity, RodCondition
from kitlist.outlook import Expected, Outlook, batteries_out, expect, look_out
from kitlist.outlook.lasting import RodsInHand
from kitlist.outlook.offerable import Lost, lost_by, serves
from kitlist.outlook.rods import RodOutlook, best_of
from kitlist.physics.bank.endurance import Ending
from kitlist.physics.bank.rods_by_volts import SureLikely
from kitlist.physics.bank.verdict import Fit
from kitlist.rules.example import Example, rod, whole, with_battery, with_kit, with_lead, with_trip
from kitlist.welding.rods.storage import Fitness


@cache
def seen() -> Outlook:
    return look_out(whole().kit, whole().trip, on=whole().on)


def packet(fit: Fit | None = Fit.IN_RANGE, *, likely: int = 5, count: int = 9, middle_a: float = 170.0) -> RodOutlook:
    (one,) = seen().rods
    assert one.band is not None
    rods = RodsInHand(count=SureLikely(min(2, likely), likely), ended_by=Ending.RESERVE, on="")
    return replace(one, fit=fit, rods=rods, rod=rod("rods", count=count), band=replace(one.band, middle_a=middle_a))


def test_the_best_packet_fits_best_is_least_over_its_range_and_gives_most_rods() -> None:
    (one,) = seen().rods
    assert one.range is not None
    top = one.range.high_a
    order = [
        packet(Fit.IN_RANGE, likely=7),
        packet(Fit.IN_RANGE, likely=5),
        packet(Fit.WARM, likely=1),
        packet(Fit.HOT, likely=1, middle_a=top * 1.2),
        packet(Fit.HOT, likely=9, middle_a=top * 1.4),
    ]
    for at, best in enumerate(order):
        assert best_of(order[at:][::-1]) == best
    inside = [packet(likely=5, middle_a=top * 0.9), packet(likely=6, middle_a=top * 0.95)]
    assert best_of(inside) == inside[1]  # within its range nothing is over
    few = packet(likely=9, count=3)
    assert (few.counted, packet(likely=2, count=3).counted, replace(few, rods=None).counted) == (3, 2, 0)
    assert best_of([few, packet(likely=4)]) == packet(likely=4)
    assert best_of([packet(Fit.TOO_HOT), packet(Fit.COLD), packet(Fit.NO_ARC), packet(None)]) is None
    assert best_of(()) is None


def test_only_a_packet_fit_to_weld_with_welds_and_only_one_that_gives_a_rod_serves() -> None:
    good = packet()
    assert good.packet is not None
    for fitness, usable, kept in (
        (Fitness.GOOD, True, True),
        (Fitness.TEST, True, True),
        (Fitness.BAKE, False, True),
        (Fitness.SCRAP, False, False),
    ):
        one = replace(good, packet=replace(good.packet, fitness=fitness))
        assert (one.usable, one.welds, one.kept) == (usable, usable, kept)
    unknown = replace(good, packet=None)
    assert (unknown.usable, unknown.kept) == (False, True)
    assert [serves(packet(likely=likely)) for likely in (0, 1)] == [False, True]
    assert not serves(replace(good, rods=None))
    assert not serves(packet(Fit.TOO_HOT))
    assert (good.rods_words, packet(likely=1).rods_words[-4:]) == (f"{good.rods.count.words} rods", " rod")  # type: ignore[union-attr]
    assert replace(good, rods=None).rods_words == "rods not known"


def test_the_current_of_the_whole_is_the_highest_of_any_packet_else_that_of_the_bank_with_any_rod() -> None:
    (one,) = seen().rods
    assert one.band is not None
    low = replace(one, band=replace(one.band, middle_a=90.0, high_a=120.0), predicted=None, struck=None, full=None)
    none = replace(one, band=None)
    both = replace(seen(), rods=(low, one, none))
    assert (both.likely_a, both.highest_a) == (one.band.middle_a, one.highest_a)
    assert replace(seen(), rods=(low,)).highest_a == 120.0
    bare = replace(seen(), rods=())
    assert seen().bank is not None
    any_rod = seen().bank.band(None)  # type: ignore[union-attr]
    assert any_rod is not None
    assert (bare.likely_a, bare.highest_a) == (any_rod.middle_a, any_rod.high_a)
    gone = replace(bare, bank=None)
    assert (gone.likely_a, gone.highest_a, gone.bank_batteries) == (None, None, ())


def test_the_batteries_to_read_are_all_but_lithium_and_those_refused_for_the_bank() -> None:
    assert list(seen().batteries_to_read) == list(seen().batteries)
    assert [b.battery.name for b in seen().bank_batteries] == list(whole().trip.bank)
    for name, changes, left in (
        ("north-second", {"chemistry": Chemistry.LITHIUM}, False),
        ("south-main", {"chemistry": Chemistry.LITHIUM}, False),
        ("north-second", {"built_in_cutoff": True}, False),
        ("south-main", {"built_in_cutoff": True}, True),  # not of the bank: it starts its engine
    ):
        example = with_battery(name, **changes)
        found = look_out(example.kit, example.trip, on=example.on)
        assert (name in found.batteries_to_read) is left


def expected(example: Example) -> Expected:
    return expect(example.kit, example.trip, batteries_out(example.kit, example.trip, on=example.on), on=example.on)


@pytest.mark.parametrize(
    ("example", "why"),
    [
        (whole(), None),
        (with_trip(bank=()), Lost.NOT_KNOWN),
        (with_lead("work lead", length_m=None), Lost.NOT_KNOWN),
        (with_trip(wet=True), Lost.WET),
        (with_trip(wet=None), Lost.WET_NOT_SAID),
        (with_trip(bank=("north-main",)), Lost.BATTERY),
        (with_battery("north-main", built_in_cutoff=True), Lost.BATTERY),
        (with_kit(rods=()), Lost.FIT),
        (with_kit(rods=(rod("thin", diameter_mm=2.0),)), Lost.FIT),
        (with_kit(rods=(rod("wet", condition=RodCondition.DAMAGED),)), Lost.FIT),
        (with_lead("link", count=1), Lost.JOIN),
    ],
)
def test_why_a_bank_does_not_serve(example: Example, why: Lost | None) -> None:
    kit, trip = example.kit, example.trip
    assert lost_by(kit, trip, expected(example), polarity=Polarity.DCEP) is why


def test_a_bank_that_gives_no_rod_is_out_for_its_rods_and_not_for_its_current() -> None:
    found = expected(whole())
    none = replace(found, rods=(packet(likely=0),))
    assert lost_by(whole().kit, whole().trip, none, polarity=Polarity.DCEP) is Lost.RODS
    cold = replace(found, rods=(packet(Fit.COLD, likely=0),))
    assert lost_by(whole().kit, whole().trip, cold, polarity=Polarity.DCEP) is Lost.FIT


def test_without_counting_only_the_rods_are_left_out() -> None:
    batteries: dict[str, Any] = batteries_out(whole().kit, whole().trip, on=whole().on)
    counted, not_counted = (
        expect(whole().kit, whole().trip, batteries, on=whole().on, counted=asked) for asked in (True, False)
    )
    assert counted.rods[0].rods is not None
    assert (not_counted.rods[0].rods, not_counted.rods[0].lasting) == (None, None)
    assert not_counted.rods[0].band == counted.rods[0].band
