"""One bank, one current: what the planner shows of the chosen bank is what readiness shows."""

from __future__ import annotations

from dataclasses import replace

from kitlist.base.terms import Chemistry
from kitlist.kit import Bead
from kitlist.outlook import look_out
from kitlist.outlook.options.offer import Offer
from kitlist.outlook.options.plan import BankPlan, is_chosen, plan_for
from kitlist.readiness import assess
from kitlist.rules import Example
from kitlist.rules.example import whole
from kitlist.rules.four_without_ballast import with_four


def planned(example: Example, ballast_mohm: float = 0.0) -> BankPlan:
    return plan_for(example.kit, example.trip, on=example.on, ballast_mohm=ballast_mohm)


def offer(example: Example, *, chosen: bool = True, ballast_mohm: float = 0.0) -> Offer:
    found = planned(example, ballast_mohm).offers
    return next(o for o in found if (set(o.trip.bank) == set(example.trip.bank)) is chosen)


def chosen_as_planned() -> Example:
    """The whole kit with the planner's own first choice for its bank."""
    best = planned(whole()).offers[0]
    return replace(whole(), trip=replace(whole().trip, bank=best.trip.bank))


def amperes(example: Example) -> tuple[float, float, float]:
    (rod,) = look_out(example.kit, example.trip, on=example.on).rods
    assert rod.band is not None
    return rod.band.low_a, rod.band.middle_a, rod.band.high_a


def shown(found: Offer) -> tuple[float, float, float]:
    return found.band.low_a, found.band.middle_a, found.band.high_a


def test_the_planner_shows_the_current_of_the_chosen_bank_as_readiness_does() -> None:
    example = chosen_as_planned()
    assert shown(offer(example, chosen=True)) == amperes(example)


def test_a_practice_weld_narrows_what_the_planner_shows_of_the_chosen_bank() -> None:
    example = chosen_as_planned()
    bead = Bead(
        name="first", welded_on=example.on, bank=example.trip.bank, rest_v=38.4, bank_v=32.0, current_a=190, holder_v=27
    )
    taught = replace(example, kit=replace(example.kit, beads=(bead,)))
    before, after = shown(offer(example, chosen=True)), shown(offer(taught, chosen=True))
    assert after == amperes(taught)
    assert after[2] - after[0] < 0.6 * (before[2] - before[0])


def test_ballast_that_is_only_looked_at_lowers_what_the_planner_shows() -> None:
    example = chosen_as_planned()
    assert offer(example, ballast_mohm=60).band.high_a < amperes(example)[1]


def test_a_vehicle_that_starts_on_lithium_is_left_to_start_for_the_planner_as_for_the_readiness() -> None:
    case = whole()
    lithium = tuple(
        replace(b, chemistry=Chemistry.LITHIUM) if b.name == "south-main" else b for b in case.kit.batteries
    )
    bank = ("north-main", "north-second", "south-second")
    example = replace(case, kit=replace(case.kit, batteries=lithium), trip=replace(case.trip, bank=bank))
    judged = assess(example.kit, example.trip, on=example.on)
    assert [g for g in judged.gaps if g.rule == "no-battery-left-to-start"] == []
    found = offer(example, chosen=True)
    assert not found.option.takes_every_starter
    assert not any("every starting battery" in warning for warning in found.option.warnings)


def test_a_practice_weld_never_lightens_the_filter() -> None:
    """A clamp meter on the wrong range shows too little: the shade goes by the wider of both bands."""
    example = chosen_as_planned()
    low = Bead(name="low", welded_on=example.on, bank=example.trip.bank, rest_v=38.4, bank_v=30, current_a=75)
    taught = replace(example, kit=replace(example.kit, beads=(low,)))
    before, after = (look_out(x.kit, x.trip, on=x.on) for x in (example, taught))
    assert before.highest_a is not None
    assert after.rods[0].band is not None
    assert after.rods[0].band.high_a < before.highest_a
    assert after.highest_a == before.highest_a


def test_four_that_are_chosen_stand_among_the_banks_though_four_are_not_asked_for() -> None:
    example = with_four("strip")
    asked = plan_for(example.kit, example.trip, on=example.on, four=True, few=9, changes=False).offers
    (found,) = plan_for(example.kit, example.trip, on=example.on, changes=False).offers
    assert is_chosen(found, example.trip)
    assert found in asked
    for more in ({"wet": True}, {"wet": None}, {"ballast": None}):
        barred = plan_for(example.kit, replace(example.trip, **more), on=example.on, changes=False)
        assert not any(len(offer.trip.bank) == 4 for offer in barred.offers), more
