"""Ways to a rod in range: tried on the kit itself, never a bank that may not be linked, ballast last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from kitlist.outlook import look_out, shaping
from kitlist.outlook.shaping import ShapedWay, ShapingCost, ways_in_range
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


WAY = ShapedWay(
    repair="hanger", bank=("a", "b", "c"), other_bank=False, added="", cost=ShapingCost.CHOOSE, rod="4 mm E6013",
    low_a=144.6, middle_a=170.4, high_a=199.5, longest_mm=9.5,
)  # fmt: skip


def test_a_way_says_what_is_done_what_it_asks_and_what_comes_of_it():
    said = "in range, 145 to 200 A, likely 170"
    assert WAY.words == f"as it is (choose): 4 mm E6013 {said}"
    other = replace(WAY, bank=("a", "b"), other_bank=True, longest_mm=3.2)
    assert other.words == f"link a → b (choose): 4 mm E6013 {said}, short arc only, up to 3.2 mm"
    packed = replace(WAY, added="pack 4 mm E6013", cost=ShapingCost.BUY_RODS)
    assert packed.words.startswith("pack 4 mm E6013 (buy): ")
    assert replace(packed, other_bank=True).words.startswith("link a → b → c and pack 4 mm E6013 (buy): ")
    assert (WAY.as_it_is, other.as_it_is, packed.as_it_is) == (True, False, False)
    assert (WAY.short_arc, other.short_arc, replace(WAY, longest_mm=None).short_arc) == (False, True, False)


def test_the_best_ways_ask_least_hold_their_arc_and_a_strip_is_behind_all():
    short = replace(WAY, bank=("a", "b"), other_bank=True, longest_mm=3.0)
    buy, lead = (replace(WAY, cost=cost) for cost in (ShapingCost.BUY_RODS, ShapingCost.BRING_LEAD))
    strip = replace(WAY, cost=ShapingCost.BRING_STRIP)
    cut = replace(WAY, cost=ShapingCost.BUY_STRIP)
    other = replace(WAY, other_bank=True)
    more = replace(other, bank=("a", "b", "c", "d"))
    for order in ([WAY, other, more], [buy, lead, short], [lead, short, strip], [short, strip, cut]):
        assert shaping._best([found(way) for way in order[::-1]]) == tuple(order)
    assert len(shaping._best([found(way) for way in (WAY, other, more, buy)])) == 3


def found(way: ShapedWay, *, gives: bool = True) -> shaping._Found:
    return shaping._Found(way, lambda: gives)


def test_one_that_gives_no_rod_leaves_its_place_to_the_next_and_of_those_not_shown_it_is_not_asked():
    def never() -> bool:
        raise AssertionError("asked of a way that is not shown")

    order = [replace(WAY, bank=tuple("abcdef"[:count]), other_bank=True) for count in (2, 3, 4, 5)]
    last = shaping._Found(replace(WAY, cost=ShapingCost.BUY_STRIP), never)
    tried = [found(way, gives=way is not order[1]) for way in order]
    assert shaping._best([last, *tried]) == (order[0], order[2], order[3])


def tried(found: Sequence[shaping._Found]) -> list[ShapedWay]:
    return [one.way for one in found if one.gives()]


def test_rods_to_buy_are_tried_on_every_bank_and_left_out_where_only_what_is_owned_is_asked_for():
    example = hot(thickness_mm=4)
    assert ways(example, bought=False) == {}
    found = ways(example)["hanger"]
    assert [way.cost for way in found] == [ShapingCost.BUY_RODS] * 3
    assert len({way.bank for way in found}) == 3
    packed = replace(example.kit, rods=(rod("new", diameter_mm=2.5),))
    for way in found:
        assert (way.added, way.rod, way.other_bank) == ("pack 2.5 mm E6013", "2.5 mm E6013", True)
        seen = look_out(packed, replace(example.trip, bank=way.bank), on=example.on)
        assert seen.rods[0].fit is Fit.IN_RANGE
        assert (seen.rods[0].band.middle_a, seen.bank.holds_mm) == (way.middle_a, way.longest_mm)


def test_ten_metres_more_of_lead_are_tried_on_the_trip_s_own_bank_alone_and_bring_the_current_down():
    example = replace(hot(thickness_mm=4), kit=replace(hot(thickness_mm=4).kit, rods=(rod("thin", diameter_mm=2.5),)))
    two = replace(example.trip, bank=example.trip.bank[:2])
    as_it_is, longer = tried(shaping.Shaping(example.kit, two, on=example.on)._owned)
    assert (as_it_is.as_it_is, longer.cost, longer.bank) == (True, ShapingCost.BRING_LEAD, two.bank)
    assert longer.added == "10 m more of 25 mm² lead, laid out straight"
    assert longer.middle_a < as_it_is.middle_a
    assert ways(replace(example, trip=two)) == {}  # a rod is in range as it is
    three = shaping.Shaping(example.kit, example.trip, on=example.on)
    assert [(way.cost, way.other_bank) for way in tried(three._owned)] == [(ShapingCost.CHOOSE, True)] * 3
    assert not any(
        way.cost is ShapingCost.BUY_RODS and way.rod == "2.5 mm E6013" for way in tried(three._bought)
    )  # packed


def test_the_pairs_of_a_bank_of_three_are_tried_and_each_bank_once():
    example = hot()
    a, b, c = example.trip.bank
    offered = [(b, a), (c, b, a), (a, "south-main")]
    banks = list(shaping._banks(example.trip, offered))
    assert banks == [(a, b, c), (a, b), (a, c), (b, c), (a, "south-main")]
    two = replace(example.trip, bank=(a, b))
    assert list(shaping._banks(two, ())) == [(a, b)]
    assert list(shaping._banks(replace(two, bank=()), [(a, b)])) == [(a, b)]


def test_a_strip_to_buy_is_tried_on_the_trip_s_own_bank_alone_and_only_where_it_has_none():
    example = hot()
    bought = tried(shaping.Shaping(example.kit, example.trip, on=example.on)._bought)
    (strip,) = [way for way in bought if way.cost is ShapingCost.BUY_STRIP]
    assert (strip.bank, strip.other_bank) == (example.trip.bank, False)
    assert strip.added.startswith("ballast, ")
    four = with_four("strip").kit.ballasts
    packed = replace(example, kit=replace(example.kit, ballasts=four), trip=replace(example.trip, ballast="strip"))
    again = shaping.Shaping(packed.kit, packed.trip, on=packed.on)
    assert not any(way.cost is ShapingCost.BUY_STRIP for way in tried(again._bought))
    assert not any(way.cost is ShapingCost.BRING_STRIP for way in tried(again._owned))
    unused = replace(packed, trip=example.trip)
    brought = tried(shaping.Shaping(unused.kit, unused.trip, on=unused.on)._owned)
    assert {way.added for way in brought if way.cost is ShapingCost.BRING_STRIP} <= {"strip as ballast"}
    none = replace(unused, kit=replace(unused.kit, ballasts=tuple(replace(b, count=0) for b in four)))
    assert not any(
        way.cost is ShapingCost.BRING_STRIP for way in tried(shaping.Shaping(none.kit, none.trip, on=none.on)._owned)
    )


def test_a_bank_whose_current_is_not_known_has_no_ways():
    example = hot(thickness_mm=4)
    leads = tuple(replace(x, length_m=None) if x.name == "work lead" else x for x in example.kit.leads)
    assert ways(replace(example, kit=replace(example.kit, leads=leads))) == {}
