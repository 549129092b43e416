"""The planner and two starting batteries: both or neither before one alone, and never the last vehicle that starts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import StartBatteries
from kitlist.outlook.options.offer import why_behind
from kitlist.outlook.options.plan import plan_for
from kitlist.rules.starting_pair_parted import with_two

PAIR, TWIN = StartBatteries.PAIR, StartBatteries.TWIN
HALVES = {"west-main", "west-other"}


def offers(how, *, without=(), seen=None, coldest_c=5.0):
    made = with_two(how, seen=seen, coldest_c=coldest_c)
    kit = replace(made.kit, batteries=tuple(b for b in made.kit.batteries if b.name not in without))
    kit = replace(kit, readings=tuple(r for r in kit.readings if r.battery not in without))
    trip = replace(made.trip, bank=())
    return plan_for(kit, trip, on=made.on, few=12).offers


def parted(offer):
    return len(HALVES & set(offer.trip.bank)) == 1


@pytest.mark.parametrize("how", [PAIR, TWIN])
def test_one_of_two_is_offered_only_behind_both_or_neither(how):
    found = [parted(offer) for offer in offers(how)]
    assert found == sorted(found)
    assert not found[0]


def test_where_only_one_half_makes_a_bank_it_is_offered_with_what_is_said_of_it():
    found = offers(PAIR, without=("north-main", "south-main"))
    one = [offer for offer in found if parted(offer)]
    assert one
    assert all("one half of 24 V" in str(lent) for offer in one for lent in offer.parted)
    whole = [offer for offer in found if not parted(offer)]
    if whole:
        assert "one half of 24 V" in why_behind(one[0], whole[0])


def test_a_twin_whose_other_one_starts_the_engine_is_no_worse_than_another_battery_but_not_in_frost():
    assert not any(offer.parted for offer in offers(TWIN, seen=True) if parted(offer))
    assert all(offer.parted for offer in offers(TWIN, seen=True, coldest_c=-3.0) if parted(offer))


def test_a_bank_that_leaves_no_vehicle_starting_comes_last():
    found = [offer.takes_every_start for offer in offers(PAIR, without=("north-second", "south-second"))]
    assert found == sorted(found)
