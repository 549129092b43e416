"""What the bank search leaves out: unlike batteries beyond its number, and pairs whose bound is too low."""

from __future__ import annotations

import random
from dataclasses import replace

from kitlist.base.span import Span
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options import planner
from kitlist.outlook.options.fleet import Kind, alike, refusal_of
from kitlist.outlook.options.invented import demand, travellers
from kitlist.outlook.options.planner import plan_bank
from kitlist.outlook.options.weighing import KindFacts, Scales, SeriesString
from kitlist.physics.bank.rig import Leads
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.resistance import source_resistance
from outlook.fleets import random_fleet


def test_more_kinds_than_are_looked_at_leave_out_those_that_have_the_least_to_give() -> None:
    """Of 26 unlike batteries 24 are looked at: not the two that spare least over what they keep."""
    sizes = [60.0 + number for number in range(26)]
    fleet = [
        replace(travellers(1)[0], name=f"b{number}", capacity_ah=size, resistance=source_resistance(capacity_ah=size))
        for number, size in enumerate(sizes)
    ]
    poor = [replace(fleet[at], soc_ratio=Span(0.5, 0.52, 0.54)) for at in (24, 25)]
    kinds = planner._fullest(alike([*fleet[:24], *poor]))
    assert [kind.names[0] for kind in kinds] == [f"b{number}" for number in range(24)]
    few = alike(fleet[:24])
    assert planner._fullest(few) == few
    keeping = replace(fleet[23], reserve_ratio=0.89, name="keeps")
    kept = planner._fullest(alike([keeping, *fleet[:24]]))
    assert "keeps" not in {kind.names[0] for kind in kept}


def test_strings_of_four_are_made_of_the_sixteen_that_have_the_most_to_give() -> None:
    fleet = [
        replace(travellers(1)[0], name=f"b{number}", capacity_ah=50.0 + number, mass_kg=10.0 + number)
        for number in range(18)
    ]
    leads = replace(demand().leads, ballast_ohm=0.09)
    wanted = replace(demand(range_high_a=400.0), in_series=(4,), leads=leads, strings=1, worst_fit=Fit.TOO_HOT)
    plan = plan_bank(fleet, wanted, few=4000)
    used = {name for option in plan.options for name in option.names}
    assert used == {f"b{number}" for number in range(2, 18)}


def test_the_most_charge_that_a_pair_can_give_is_never_under_what_it_gives() -> None:
    chance, tight = random.Random(5), 0
    wanted = replace(demand(range_high_a=900.0), worst_fit=Fit.TOO_HOT)
    scales = Scales(wanted, 0)
    for _ in range(60):
        fleet = [b for b in random_fleet(chance, 9) if b.soc_ratio is not None and not refusal_of(b)]
        if len(fleet) < 4:
            continue
        facts = [KindFacts(Kind(b, (b.name,)), wanted.temp_c) for b in fleet[:4]]
        one, other = (SeriesString(ids, facts, 0, wanted.link_ohm) for ids in ((0, 1), (2, 3)))
        for string in (one, other):
            scales.settle(string)
        found = scales.weigh((one, other))
        if isinstance(found, Lost):
            continue
        most_ah = planner._most_ah(one, other, wanted.link_ohm, scales.least_current(max(one.ohm, other.ohm)))
        given = min(spare / share for spare, share in zip((one.spare_ah, other.spare_ah), found.shares, strict=True))
        assert given <= most_ah + 1e-9
        assert most_ah <= one.spare_ah + other.spare_ah + 50.0
        tight += most_ah < 1.5 * given
    assert tight > 5


def test_why_banks_are_out_is_counted_and_the_fullest_of_them_shown() -> None:
    low = [replace(b, name=f"low {b.name}", soc_ratio=Span(0.5, 0.55, 0.6)) for b in travellers(2)]
    fleet = [*travellers(2), *low]
    wanted = replace(demand(least_rods=20, range_high_a=900.0), in_series=(2,), strings=1)
    plan = plan_bank(fleet, wanted)
    assert [(missed.why, missed.count) for missed in plan.missed] == [(Lost.RODS, 3)]
    assert plan.missed[0].nearest == (("battery 1", "battery 2"),)


def test_a_group_of_pairs_that_is_out_by_its_bound_is_counted_once_with_one_of_them() -> None:
    fleet = [replace(b, name=f"b{n}", mass_kg=10.0 + n) for n, b in enumerate(travellers(6))]
    wanted = replace(demand(range_high_a=900.0), in_series=(3,), links=5)
    missed = {one.why: one for one in plan_bank(fleet, wanted).missed}
    assert missed[Lost.LINKS].count == 1
    assert [len(string) for string in missed[Lost.LINKS].nearest] == [3, 3]
    far = replace(wanted, links=None, leads=Leads(conductor_ohm_20c=9.0))
    counts = {one.why: one.count for one in plan_bank(fleet[:3], far).missed}
    assert counts == {Lost.NO_ARC: 2}  # the one string, and its pairs


def test_a_pair_that_is_too_hot_for_one_rod_is_looked_at_for_the_other() -> None:
    """The bound of a pair is that of the rod that it suits best, whichever is packed first."""
    thick = demand(range_high_a=300.0).rods[0]
    thin = replace(thick, name="thin", range_low_a=20.0, range_high_a=50.0)
    for rods in ((thin, thick), (thick, thin)):
        wanted = replace(demand(), rods=rods, least_rods=15)
        best = plan_bank(travellers(6), wanted).best
        assert best is not None
        assert (len(best.names), best.rod, best.fit) == (6, thick.name, Fit.IN_RANGE)
