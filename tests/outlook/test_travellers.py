"""A battery and a packet as the bank search takes them, and the changes that are tried on them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Condition, Covering
from kitlist.kit.limits import standard
from kitlist.outlook import Outlook, look_out
from kitlist.outlook.options import plan
from kitlist.outlook.options.advice import Change, Effort, what_would_help
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Traveller
from kitlist.outlook.options.invented import demand, travellers
from kitlist.outlook.options.planner import plan_bank
from kitlist.outlook.refusal import Refusal, Why
from kitlist.physics.bank.rig import Leads
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.battery.charge import Charge
from kitlist.physics.battery.cranking import Cranking
from kitlist.rules.example import rod, whole, with_kit


@cache
def seen() -> Outlook:
    return look_out(whole().kit, whole().trip, on=whole().on)


def traveller(name: str = "north-second", *, kg: float | None = 20.0, **changes: Any) -> Traveller:
    outlook = seen().batteries[name]
    own = replace(outlook.battery, mass_kg=kg)
    return plan._traveller(replace(outlook, **({"battery": own} | changes)), whole().trip, standard().limits)


def test_a_battery_is_searched_with_all_that_is_expected_of_it() -> None:
    outlook, found = seen().batteries["north-main"], traveller("north-main")
    assert outlook.charge.soc_ratio is not None
    assert (found.name, found.chemistry, found.capacity_ah, found.mass_kg) == ("north-main", Chemistry.AGM, 80, 20.0)
    assert (found.soc_ratio, found.ocv_25_v) == (outlook.charge.soc_ratio, outlook.charge.ocv_25_v)
    assert (found.resistance, found.full_v, found.unfit) == (outlook.resistance, 12.8, None)
    assert (found.reserve_ratio, found.last_starter_ratio) == (outlook.reserve_ratio, 0.75)
    assert (found.starts_engine, traveller().starts_engine) == (True, False)
    assert found.age_years == 1.1  # from 15 January 2026 to 6 March 2027
    young = replace(outlook.battery, in_service_since=date(2027, 3, 6))
    assert traveller(battery=young).age_years == 0.0
    assert traveller(battery=replace(young, in_service_since=None)).age_years is None


def test_a_battery_that_never_starts_its_engine_or_may_freeze_or_is_unfit_is_searched_as_such() -> None:
    outlook = seen().batteries["north-main"]
    assert outlook.resistance is not None
    engine = Cranking(chemistry=Chemistry.AGM, resistance=outlook.resistance, current_a=1400.0)
    never = traveller("north-main", floor=replace(outlook.floor, cranking=engine), coldest_c=-12.0)
    assert never.reserve_ratio == 2.0
    flat = Charge(Span(0.2, 0.3, 0.4))
    assert (traveller(charge=flat, coldest_c=-25.0).may_freeze, traveller(charge=flat).may_freeze) == (True, False)
    assert not traveller(charge=Charge(None, "no reading"), coldest_c=-25.0).may_freeze
    cut = Refusal(why=Why.CUT_OFF)
    assert traveller(refusal=cut).unfit == cut


def test_only_a_usable_packet_with_a_range_is_searched_for_with_what_own_welds_taught_of_it() -> None:
    (packet,) = seen().rods
    assert plan._plannable(packet)
    for lacks in ({"range": None}, {"designation": None}, {"packet": None}):
        assert not plan._plannable(replace(packet, **lacks))
    assert packet.designation is not None
    assert not plan._plannable(replace(packet, designation=replace(packet.designation, table_class=None)))
    taught = Span(1.0, 2.0, 3.0)
    plain, own = plan._packed(packet, None), plan._packed(packet, taught)
    assert packet.range is not None
    assert (plain.name, plain.range_low_a, plain.range_high_a) == (
        "4 mm E6013",
        packet.range.low_a,
        packet.range.high_a,
    )
    assert (plain.count, plain.covering) == (6, packet.designation.covering)
    assert (own.charge_ah, replace(own, charge_ah=plain.charge_ah)) == (taught, plain)


def test_common_rods_that_are_not_packed_are_tried_with_what_stands_on_their_packet() -> None:
    (packet,) = seen().rods
    others = list(plan._other_rods((packet,)))
    assert [(one.name, one.designation, one.diameter_mm, one.length_mm) for one in others] == [
        ("3.2 mm E6013", "E6013", 3.2, 350.0),
        ("2.5 mm E6013", "E6013", 2.5, 300.0),
    ]
    assert all(one.covering is Covering.RUTILE and one.count is None for one in others)
    assert len(list(plan._other_rods(()))) == 3


THICK = PackedRod(name="4.0 mm", range_low_a=145, range_high_a=210, charge_ah=Span(2.6, 3.2, 3.8))


def helped(fleet: tuple[Traveller, ...] | list[Traveller], **about: Any) -> tuple[Change, ...]:
    wanted = replace(demand(), **about.pop("demand", {}))
    return what_would_help(fleet, wanted, plan_bank(fleet, wanted), **about)


def test_changes_come_by_fit_then_effort_and_only_those_that_give_a_better_first_choice() -> None:
    fleet = [*travellers(2), replace(travellers(3)[2], soc_ratio=Span(0.55, 0.6, 0.65))]
    found = helped(fleet, other_rods=[THICK])
    best = plan_bank(fleet, demand()).best
    assert best is not None
    assert [change.effort for change in found] == [Effort.ROD, Effort.CHARGE, Effort.BATTERY]
    assert all(change.option.key < best.key for change in found)
    rods, charge, battery = found
    assert (rods.rod, rods.batteries, rods.option.rod) == (THICK, (), "4.0 mm")
    assert (charge.words, charge.batteries) == ("charge battery 3 to full, alone", ("battery 3",))
    assert battery.words.startswith("bring one more battery like battery ")
    assert any(name.startswith("one more like") for name in battery.option.names)


def test_a_battery_that_is_all_but_full_is_not_charged_and_one_outside_the_bank_only_if_it_was_refused_for_it() -> None:
    full = [replace(b, soc_ratio=Span(0.95, 0.98, 1.0)) for b in travellers(3)]
    assert not any(change.effort is Effort.CHARGE for change in helped(full))
    refused = replace(travellers(4)[3], capacity_ah=90.0, soc_ratio=Span(0.4, 0.45, 0.5))
    spare = replace(travellers(5)[4], capacity_ah=40.0, soc_ratio=Span(0.6, 0.65, 0.7))
    words = {
        change.words
        for change in helped([*full[:2], replace(full[2], capacity_ah=40.0), refused, spare])
        if change.effort is Effort.CHARGE
    }
    assert "charge battery 4 to full, alone" in words
    assert "charge battery 5 to full, alone" not in words
    cracked = replace(refused, unfit=Refusal(why=Why.DAMAGED, condition=Condition.CRACKED))
    assert not any("battery 4" in change.words for change in helped([*full, cracked]))


def test_of_batteries_that_differ_in_charge_or_vehicle_alone_one_more_is_offered_once() -> None:
    fleet = [
        travellers(1)[0],
        replace(travellers(2)[1], soc_ratio=Span(0.8, 0.85, 0.9), starts_engine=True),
        replace(travellers(3)[2], capacity_ah=60.0),
    ]
    more = [change.words for change in helped(fleet) if change.effort is Effort.BATTERY]
    assert len(more) == len(set(more)) <= 2
    assert "bring one more battery like battery 1" in more
    assert "bring one more battery like battery 2" not in more


def test_without_a_bank_that_serves_one_more_is_like_the_fullest_usable_and_charging_comes_first() -> None:
    lone = replace(travellers(1)[0], soc_ratio=Span(0.6, 0.65, 0.7))
    thin = PackedRod(name="2.5 mm", range_low_a=50, range_high_a=100, charge_ah=Span(0.8, 1.0, 1.2))
    found = helped([lone], demand={"rods": (thin,)})
    assert [change.words for change in found] == ["bring one more battery like battery 1"]
    flat = [replace(b, soc_ratio=Span(0.3, 0.4, 0.45)) for b in travellers(2)]
    both = helped([*flat, replace(travellers(3)[2], capacity_ah=90.0)], demand={"in_series": (3,), "strings": 1})
    assert both[0].effort is Effort.CHARGE
    assert both[0].words == "charge battery 1 and battery 2 full, each alone"
    assert both[0].batteries == ("battery 1", "battery 2")
    many = [replace(b, soc_ratio=Span(0.3, 0.4, 0.45)) for b in travellers(3)]
    three = helped(many, demand={"in_series": (3,)})
    assert three[0].words == "charge battery 1, battery 2 and battery 3 full, each alone"


def test_a_rod_that_nobody_burns_and_a_bank_beyond_its_sizes_are_refused() -> None:
    for changes in ({"in_series": (2, 5)}, {"in_series": (1,)}, {"strings": 0}):
        with pytest.raises(OutOfRange):
            replace(demand(), **changes)
    both = replace(demand(), rods=(*demand().rods, THICK, replace(THICK, name="deep", covering=Covering.CELLULOSIC)))
    assert [indexes for _, indexes in both.coverings] == [(0, 1), (2,)]
    assert both.least_charge_ah == 2.05
    assert both.link_ohm == pytest.approx(0.0004 * both.lead.conductor_ratio)


def test_a_packet_of_the_kit_that_is_scrap_is_counted_for_nobody() -> None:
    wet = with_kit(rods=(rod("good"), rod("none", diameter_mm=2.5, count=0)))
    found = plan.plan_for(wet.kit, wet.trip, on=wet.on, changes=False)
    assert {offer.best.rod.name for offer in found.offers} == {"good"}


def test_a_thicker_rod_is_offered_when_it_suits_better():
    thick = PackedRod(name="4.0 mm", range_low_a=145, range_high_a=210, charge_ah=Span(2.6, 3.2, 3.8))
    plan = plan_bank(travellers(3), demand())
    best = what_would_help(travellers(3), demand(), plan, other_rods=[thick])[0]
    assert "4.0 mm" in best.words
    assert best.option.fit is Fit.IN_RANGE


def test_charging_the_low_battery_is_offered_by_name():
    fleet = [*travellers(2), replace(travellers(3)[2], soc_ratio=Span(0.35, 0.45, 0.5))]
    plan = plan_bank(fleet, demand())
    words = [change.words for change in what_would_help(fleet, demand(), plan)]
    assert any(sentence.startswith("charge battery 3") for sentence in words)


def test_where_every_battery_is_too_low_charging_those_that_make_a_bank_comes_before_bringing_more():
    flat = [replace(b, soc_ratio=Span(0.15, 0.2, 0.25)) for b in travellers(3)]
    fleet = [
        *flat[:2],
        replace(flat[2], unfit=Refusal(why=Why.DAMAGED, condition=Condition.CRACKED)),
        replace(travellers(4)[3], starts_engine=True),
    ]
    three = replace(demand(), in_series=(3,))
    plan = plan_bank(fleet, three)
    assert not plan.feasible
    first = what_would_help(fleet, three, plan)[0]
    assert first.effort is Effort.CHARGE
    assert first.words == "charge battery 1 and battery 2 full, each alone"
    full = [replace(b, soc_ratio=Span(0.95, 1.0, 1.0)) for b in fleet[:2]]
    assert first.option == plan_bank([*full, *fleet[2:]], three, few=1).best


def test_nothing_helps_where_nothing_is_wrong_but_more_rods():
    rod = PackedRod(name="4.0 mm", range_low_a=145, range_high_a=210, charge_ah=Span(2.6, 3.2, 3.8), count=5)
    wanted = Demand(rods=(rod,), leads=Leads(conductor_ohm_20c=0.0039))
    fleet = travellers(3)
    assert what_would_help(fleet, wanted, plan_bank(fleet, wanted)) == ()


def test_where_a_bank_serves_two_that_are_low_are_not_charged_together() -> None:
    low = [replace(b, soc_ratio=Span(0.6, 0.65, 0.7)) for b in travellers(3)]
    assert plan_bank(low, demand()).feasible
    assert not any(change.effort is Effort.CHARGE for change in helped(low))
