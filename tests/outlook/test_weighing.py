"""One bank on the scales: its sums, shares, rods and why it is lost, by hand; and no bound is over what is weighed."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from math import floor, sqrt

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Covering
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Kind, Traveller
from kitlist.outlook.options.invented import demand, travellers
from kitlist.outlook.options.weighing import KindFacts, Scales, SeriesString, Weighed, count_mismatches
from kitlist.physics.bank.quickband import battery_moments, ends, held_current, middle_and_spread
from kitlist.physics.bank.rig import Leads
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.resistance import source_resistance
from outlook.fleets import random_fleet, weigh_bank

ANY = replace(demand(range_high_a=900.0), worst_fit=Fit.TOO_HOT)
ACTIVATION_V = 0.40


def string_of(members: Sequence[Traveller], wanted: Demand) -> SeriesString:
    facts = [KindFacts(Kind(one, (one.name,)), wanted.temp_c) for one in members]
    made = SeriesString(tuple(range(len(members))), facts, 0, wanted.link_ohm)
    Scales(wanted, 0).settle(made)
    return made


def weighed(strings: Sequence[Sequence[Traveller]], wanted: Demand = ANY, *, starters: int = 0) -> Weighed:
    found = weigh_bank(strings, wanted, starters=starters)
    assert isinstance(found, Weighed), found
    return found


def unlike() -> tuple[Traveller, ...]:
    """Three flooded batteries that differ in size, rating, charge, weight and work."""
    return (
        replace(travellers(1)[0], name="a"),
        replace(
            travellers(1, capacity_ah=50.0, cca_a=450.0)[0],
            name="b",
            soc_ratio=Span(0.75, 0.8, 0.9),
            mass_kg=13.0,
            starts_engine=True,
        ),
        replace(travellers(1, capacity_ah=100.0, cca_a=800.0)[0], name="c", mass_kg=None, reserve_ratio=0.6),
    )


def test_a_string_has_the_sums_of_its_batteries_and_the_least_spare_charge() -> None:
    made, moments = (
        string_of(unlike(), ANY),
        [battery_moments(b.as_bank_battery(), temp_c=ANY.temp_c) for b in unlike()],
    )
    assert made.ocv_v == pytest.approx(sum(one.ocv_v for one in moments))
    assert made.emf_v == pytest.approx(made.ocv_v - 3 * ACTIVATION_V)
    assert made.emf_variance == pytest.approx(sum(one.ocv_variance for one in moments) + 9 * 0.3**2 / 12)
    assert made.ohm == pytest.approx(sum(one.ohm for one in moments) + 2 * ANY.link_ohm)
    assert made.ohm_variance == pytest.approx(sum(one.ohm_variance for one in moments))
    assert made.ohm_shared == pytest.approx(sum(one.ohm_shared for one in moments))
    assert (made.starters, made.mass_kg, made.size) == (1, 31.0, 3)
    assert made.spare_ah == pytest.approx(0.3 * 50)  # of 28, 15 and 30 Ah
    assert made.spare_all_ah == pytest.approx(0.05 * 50)  # of 10.5, 2.5 and 15
    assert made.full_v == pytest.approx(38.4)
    assert made.arcs == [
        middle_and_spread(
            emf_v=made.emf_v,
            emf_variance=made.emf_variance,
            ohm=made.ohm + ANY.lead.ohm,
            ohm_variance=made.ohm_variance + made.ohm_shared**2 + ANY.lead.variance,
            arc=arc,
        )
        for arc, _ in ANY.coverings
    ]


def test_one_string_carries_all_and_is_ranked_by_its_rods_matches_links_and_weight() -> None:
    found = weighed([unlike()])
    middle, spread = string_of(unlike(), ANY).arcs[0]
    assert (found.low_a, found.high_a) == pytest.approx(ends(middle, spread))
    assert (found.middle_a, found.shares, found.rods, found.rod) == (middle, (1.0,), floor(15 / 2.05), 0)
    # unlike in size, in charge by just a tenth (which is none), and in resistance
    assert found.key == (0, float(Fit.IN_RANGE.rank), pytest.approx(-7 * 0.8), 2, 2, 31.0)
    lone = weighed([unlike()], starters=1)
    assert (lone.key.takes_every_starter, lone.rods) == (1, floor(2.5 / 2.05))
    assert weighed([unlike()], starters=2).key.takes_every_starter == 0


def pair(lower_v: float = 0.05) -> tuple[list[Traveller], list[Traveller]]:
    """Two strings of two of one kind: the second of half the rating, its volts a little lower."""
    one = [replace(b, ocv_25_v=Span(12.5, 12.55, 12.6)) for b in travellers(2)]
    other = [
        replace(b, name=f"{b.name} too", ocv_25_v=Span(12.5 - lower_v, 12.55 - lower_v, 12.6 - lower_v))
        for b in travellers(2, cca_a=340.0)
    ]
    return one, other


def test_two_strings_share_the_current_by_kirchhoff_and_have_the_wider_of_their_spreads() -> None:
    one, other = (string_of(members, ANY) for members in pair())
    r1, r2 = one.ohm + ANY.link_ohm, other.ohm + ANY.link_ohm
    found = weighed(pair())
    emf, ohm = (one.emf_v / r1 + other.emf_v / r2) / (1 / r1 + 1 / r2), 1 / (1 / r1 + 1 / r2) + ANY.lead.ohm
    arc, _ = ANY.coverings[0]
    figures = (arc.foot_v, arc.slope_v_per_mm, arc.c_w, arc.d_w_per_mm, arc.rise_ohm)
    assert found.middle_a == pytest.approx(held_current(emf, ohm, *(mean for mean, _ in figures)))
    volts = emf - (ohm - ANY.lead.ohm) * found.middle_a
    first = (one.emf_v - volts) / r1 / found.middle_a
    assert found.shares == pytest.approx((first, 1 - first))
    assert 0.55 < first < 0.75
    assert one.arcs[0][1] != other.arcs[0][1]
    widest = max(one.arcs[0][1], other.arcs[0][1])
    assert (found.low_a, found.high_a) == pytest.approx(ends(found.middle_a, widest))
    spare = 0.4 * 70
    assert found.rods == floor(min(spare / (2.05 * first), spare / (2.05 * (1 - first))))
    assert (found.key.links, found.key.mass_kg) == (4, 72.0)
    turned = weighed(pair()[::-1])
    assert turned.shares == pytest.approx(found.shares[::-1])
    assert (turned.low_a, turned.rods) == pytest.approx((found.low_a, found.rods))


def lost(strings: Sequence[Sequence[Traveller]], wanted: Demand) -> Lost | None:
    found = weigh_bank(strings, wanted, starters=0)
    return found if isinstance(found, Lost) else None


def test_each_reason_for_which_a_bank_is_lost_holds_just_past_its_limit() -> None:
    three = [travellers(3)]
    assert [lost(three, replace(ANY, links=links)) for links in (2, 1)] == [None, Lost.LINKS]
    assert [lost(three, replace(ANY, most_v=volts)) for volts in (38.41, 38.39)] == [None, Lost.WET]
    assert lost(pair(0.09), ANY) is None  # 0.18 V of two in a row
    assert lost(pair(0.11), ANY) is Lost.APART
    assert lost(pair(-0.11)[::-1], ANY) is Lost.APART
    agm = [replace(b, chemistry=Chemistry.AGM) for b in pair()[1]]
    assert lost([pair()[0], agm], ANY) is Lost.MIXED
    assert [lost(three, replace(ANY, least_rods=rods)) for rods in (13, 14)] == [None, Lost.RODS]
    assert lost(three, replace(ANY, leads=Leads(conductor_ohm_20c=9.0))) is Lost.NO_ARC
    weak = [
        replace(b, resistance=source_resistance(tester_mohm=ohm))
        for b, ohm in zip(travellers(3), (3, 3, 30), strict=True)
    ]
    assert lost([weak], ANY) is Lost.LOAD_VOLTS


def test_a_bank_is_out_for_its_current_only_where_it_is_so_by_more_than_the_twentieth_in_doubt() -> None:
    middle = weighed([travellers(3)]).middle_a

    def out(low_a: float, worst: Fit = Fit.HOT) -> Lost | None:
        rod = replace(demand().rods[0], range_low_a=low_a, range_high_a=900.0)
        return lost([travellers(3)], replace(ANY, rods=(rod,), worst_fit=worst))

    assert (out(middle * 1.04), out(middle * 1.06)) == (None, Lost.FIT)
    assert out(middle * 1.06, Fit.COLD) is None
    rod = replace(demand().rods[0], range_low_a=middle * 1.04, range_high_a=900.0)
    assert weighed([travellers(3)], replace(ANY, rods=(rod,), worst_fit=Fit.HOT)).fit is Fit.COLD  # as it is reckoned


def test_of_several_rods_that_which_fits_best_counts_and_of_two_that_fit_that_with_more_rods() -> None:
    fits, thirsty = (
        demand(range_high_a=900.0).rods[0],
        PackedRod(name="thick", range_low_a=80, range_high_a=900, charge_ah=Span(3.0, 4.0, 5.0)),
    )
    cold = replace(fits, name="cold", range_low_a=600.0, charge_ah=Span(0.5, 0.6, 0.7))
    for rods, best in (((thirsty, fits), 1), ((fits, thirsty), 0), ((cold, thirsty), 1)):
        assert weighed([travellers(3)], replace(ANY, rods=rods, worst_fit=Fit.COLD)).rod == best
    few = replace(fits, count=3)
    assert weighed([travellers(3)], replace(ANY, rods=(few, thirsty))).rod == 1
    assert weighed([travellers(3)], replace(ANY, rods=(few,))).key.worth == -3
    cellulosic = replace(fits, name="deep", covering=Covering.CELLULOSIC, charge_ah=Span(0.5, 0.6, 0.7))
    mixed = weighed([travellers(3)], replace(ANY, rods=(fits, cellulosic)))
    assert mixed.rod == 1
    assert mixed.middle_a < weighed([travellers(3)]).middle_a - 15


def test_a_short_arc_ranks_behind_a_hot_one_that_holds() -> None:
    thin = PackedRod(name="2.5 mm", range_low_a=50, range_high_a=100, charge_ah=Span(0.8, 1.0, 1.2))
    two = weighed([travellers(2)], replace(ANY, rods=(thin,)))
    assert (two.fit, two.key.fit_rank) == (Fit.IN_RANGE, Fit.HOT.rank + 0.5)


def test_the_least_current_of_any_arc_is_that_at_which_a_millimetre_goes_out() -> None:
    rods = (demand().rods[0], replace(demand().rods[0], name="deep", covering=Covering.CELLULOSIC))
    wanted = replace(ANY, rods=rods)
    loop = 0.04 + wanted.link_ohm + wanted.lead.ohm + 0.0375
    by_hand = sqrt((11.8 + 18.775) / loop)  # the means of C, of D and of the arc's rise
    assert Scales(wanted, 0).least_current(0.04) == pytest.approx(by_hand)


def test_no_pair_fits_better_than_its_bound_and_the_bound_is_that_of_the_worst_partner() -> None:
    chance, bounded = random.Random(3), 0
    for _ in range(12):
        fleet = [b for b in random_fleet(chance, 9) if b.soc_ratio is not None and b.unfit is None][:6]
        for top in (60.0, 90.0, 130.0):
            rod = replace(demand().rods[0], range_low_a=30.0, range_high_a=top)
            wanted = replace(ANY, rods=(rod,))
            scales = Scales(wanted, 0)
            made = {ids: string_of([fleet[i] for i in ids], wanted) for ids in combinations(range(len(fleet)), 3)}
            spread, most = max(one.arcs[0][1] for one in made.values()), max(one.ohm for one in made.values())
            for ids, one in made.items():
                (bound,) = scales.bound_fits(one, [spread], most)
                bounded += bound > 0
                for others, other in made.items():
                    if set(ids) & set(others):
                        continue
                    found = scales.weigh((one, other))
                    assert isinstance(found, Lost) or found.fit.rank >= bound
    assert bounded > 20


@pytest.mark.parametrize(("over", "rank"), [(0.94, Fit.WARM), (0.96, None), (0.83, Fit.WARM), (0.82, Fit.HOT)])
def test_a_bound_by_hand(over: float, rank: Fit | None) -> None:
    """The least a pair can have: a partner 0.2 V lower and of the most ohms, and the twentieth in doubt off it."""
    one = string_of(travellers(3), ANY)
    most_ohm = 2 * one.ohm
    r1, r2 = one.ohm + ANY.link_ohm, most_ohm + ANY.link_ohm
    arc, _ = ANY.coverings[0]
    means = [mean for mean, _ in (arc.foot_v, arc.slope_v_per_mm, arc.c_w, arc.d_w_per_mm, arc.rise_ohm)]
    least = held_current(one.emf_v - 0.2 * r1 / (r1 + r2), r1 * r2 / (r1 + r2) + ANY.lead.ohm, *means)
    rod = replace(demand().rods[0], range_high_a=least * over)
    scales = Scales(replace(ANY, rods=(rod, replace(rod, name="b", range_high_a=900.0))), 0)
    assert scales.bound_fits(one, [0.4], most_ohm) == (rank.rank if rank else 0, 0)
    low, _ = ends(least, 0.1)
    for off, hot in ((0.99, Fit.TOO_HOT), (1.01, Fit.HOT)):
        thin = replace(rod, range_high_a=low * 0.95 / 1.5 * off)
        bounds = Scales(replace(ANY, rods=(thin,)), 0).bound_fits(one, [0.1], most_ohm)
        assert bounds == (hot.rank,)


def test_nothing_burns_where_the_means_hold_no_arc() -> None:
    scales = Scales(ANY, 0)
    assert scales.can_burn(emf_v=36.0, ohm=0.03)
    assert not scales.can_burn(emf_v=12.0, ohm=0.01)


@pytest.mark.parametrize(
    ("changes", "counted"),
    [
        ({"capacity_ah": 56.0}, 0),
        ({"capacity_ah": 55.9}, 1),
        ({"soc_ratio": Span(0.7, 0.8, 0.9)}, 0),
        ({"soc_ratio": Span(0.7, 0.79, 0.9)}, 1),
        ({"soc_ratio": None}, 0),
        ({"resistance": source_resistance(cca_sae=Span.exactly(545.0))}, 0),
        ({"resistance": source_resistance(cca_sae=Span.exactly(543.0))}, 1),
        ({"age_years": 2.0}, 0),
        ({"age_years": 2.1}, 1),
        ({"age_years": None}, 0),
        ({"chemistry": Chemistry.AGM}, 1),
    ],
)
def test_a_mismatch_counts_from_just_past_its_limit_within_a_string_and_between_two(
    changes: dict[str, object], counted: int
) -> None:
    like = replace(travellers(1)[0], age_years=1.0)
    odd = replace(like, name="odd", **changes)  # type: ignore[arg-type]
    assert string_of([like, odd], ANY).warnings == counted
    one, other = string_of([like, like], ANY), string_of([odd, odd], ANY)
    assert count_mismatches(one, other) == count_mismatches(other, one) == counted
