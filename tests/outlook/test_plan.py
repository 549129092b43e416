"""One bank, one current: what the planner shows of the chosen bank is what readiness shows."""

from __future__ import annotations

from dataclasses import replace

from kitlist.base.terms import Chemistry
from kitlist.kit import Bead
from kitlist.outlook import look_out
from kitlist.outlook.options.plan import BankPlan, plan_for
from kitlist.outlook.options.planner import Option
from kitlist.readiness import assess
from kitlist.rules import Example
from kitlist.rules.example import whole


def planned(example: Example, ballast_mohm: float = 0.0) -> BankPlan:
    return plan_for(example.kit, example.trip, on=example.on, ballast_mohm=ballast_mohm)


def option(example: Example, *, chosen: bool, ballast_mohm: float = 0.0) -> Option:
    plan = planned(example, ballast_mohm).plan
    assert plan is not None
    return next(o for o in plan.options if (set(o.names) == set(example.trip.bank)) is chosen)


def chosen_as_planned() -> Example:
    """The whole kit with the planner's own first choice for its bank."""
    plan = planned(whole()).plan
    assert plan is not None
    assert plan.best is not None
    return replace(whole(), trip=replace(whole().trip, bank=plan.best.names))


def amperes(example: Example) -> tuple[float, float, float]:
    (rod,) = look_out(example.kit, example.trip, on=example.on).rods
    assert rod.band is not None
    return rod.band.low_a, rod.band.middle_a, rod.band.high_a


def shown(found: Option) -> tuple[float, float, float]:
    return found.low_a, found.middle_a, found.high_a


def test_the_planner_shows_the_current_of_the_chosen_bank_as_readiness_does() -> None:
    example = chosen_as_planned()
    assert shown(option(example, chosen=True)) == amperes(example)


def test_a_practice_weld_narrows_what_the_planner_shows_of_the_chosen_bank() -> None:
    example = chosen_as_planned()
    bead = Bead(
        name="first", welded_on=example.on, bank=example.trip.bank, rest_v=38.4, bank_v=32.0, current_a=190, holder_v=27
    )
    taught = replace(example, kit=replace(example.kit, beads=(bead,)))
    before, after = shown(option(example, chosen=True)), shown(option(taught, chosen=True))
    assert after == amperes(taught)
    assert after[2] - after[0] < 0.6 * (before[2] - before[0])


def test_ballast_that_readiness_does_not_know_of_stays_in_what_the_planner_shows() -> None:
    example = chosen_as_planned()
    assert option(example, chosen=True, ballast_mohm=60).high_a < amperes(example)[1]


def test_a_vehicle_that_starts_on_lithium_is_left_to_start_for_the_planner_as_for_the_readiness() -> None:
    case = whole()
    lithium = tuple(
        replace(b, chemistry=Chemistry.LITHIUM) if b.name == "south-main" else b for b in case.kit.batteries
    )
    bank = ("north-main", "north-second", "south-second")
    example = replace(case, kit=replace(case.kit, batteries=lithium), trip=replace(case.trip, bank=bank))
    judged = assess(example.kit, example.trip, on=example.on)
    assert [g for g in judged.gaps if g.rule == "no-battery-left-to-start"] == []
    found = option(example, chosen=True)
    assert not found.takes_every_starter
    assert not any("every starting battery" in warning for warning in found.warnings)


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
