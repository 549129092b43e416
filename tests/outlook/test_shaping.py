"""Ways to a rod in range: tried on the kit itself, never a bank that may not be linked, ballast last."""

from __future__ import annotations

from dataclasses import replace

from kitlist.outlook import look_out, shaping
from kitlist.outlook.shaping import ShapingCost, ways_in_range
from kitlist.physics.bank.verdict import Fit
from kitlist.rules.example import rod, with_repair
from kitlist.rules.four_without_ballast import with_four


def hot(**changes):
    """A kit whose only rods run hot on its three batteries, and one repair."""
    example = with_repair(**changes)
    thin = (rod("thin rods", diameter_mm=3.2),)
    return replace(example, kit=replace(example.kit, rods=thin))


def ways(example, **more):
    return ways_in_range(example.kit, example.trip, on=example.on, **more)


def test_each_way_has_a_rod_in_its_range_by_the_kit_s_own_computation():
    found = ways(hot())["hanger"]
    assert found
    for way in found:
        assert way.low_a < way.middle_a < way.high_a
    by_bank = [way for way in found if way.cost is ShapingCost.CHOOSE]
    for way in by_bank:
        example = hot()
        trip = replace(example.trip, bank=way.bank)
        (one,) = look_out(example.kit, trip, on=example.on).rods
        assert one.fit is Fit.IN_RANGE
        assert (one.band.low_a, one.band.high_a) == (way.low_a, way.high_a)


def test_a_strip_comes_last_however_well_it_would_do(monkeypatch):
    monkeypatch.setattr(shaping, "_FEW", 99)
    example = hot()
    packed = replace(example, kit=replace(example.kit, ballasts=with_four("strip").kit.ballasts))
    found = ways(packed)["hanger"]
    strips = [way.cost in (ShapingCost.BRING_STRIP, ShapingCost.BUY_STRIP) for way in found]
    assert strips == sorted(strips)
    assert any(strips)


def test_a_repair_with_a_rod_in_range_needs_none_and_one_that_must_never_be_has_none():
    good = with_repair()
    if ways(good):
        assert all(not way.as_it_is for few in ways(good).values() for way in few)
    assert ways(hot(part="wheel rim")) == {}


def test_a_bank_that_may_not_be_linked_is_never_a_way():
    example = hot()
    wet = replace(example, trip=replace(example.trip, wet=True))
    assert all(len(way.bank) == 2 for few in ways(wet).values() for way in few)
    four = with_four(None)
    assert ways(four, offered=[four.trip.bank]) == {}
