from __future__ import annotations

import random
from dataclasses import replace

import pytest

from kitlist.base.terms import BatteryPlace, ClampKind, Conductor, Fitting, LeadUse, Polarity, Terminal
from kitlist.kit import Battery, Clamp, Kit, Lead, Trip, Vehicle
from kitlist.outlook.circuit import cheapest
from kitlist.outlook.joining import connections, joining, packed_parts
from kitlist.rules.example import lead, whole
from outlook.brute import fewest_missing

FITTINGS = (Fitting.POST_CLAMP, Fitting.LUG_M8, Fitting.SPRING_CLAMP, Fitting.PLUG)
USES = (LeadUse.LINK, LeadUse.LINK, LeadUse.LINK, LeadUse.EXTENSION, LeadUse.HOLDER, LeadUse.WORK)


def kit_of(
    terminals: tuple[Terminal, ...], leads: tuple[Lead, ...], clamps: tuple[Clamp, ...] = (), **trip: object
) -> tuple[Kit, Trip]:
    """A battery of each terminal, each in a vehicle of its own, all in the bank."""
    names = tuple(f"b{n}" for n in range(len(terminals)))
    batteries = tuple(
        Battery(name=name, vehicle=name.upper(), terminals=kind, place=BatteryPlace.START)
        for name, kind in zip(names, terminals, strict=True)
    )
    vehicles = tuple(Vehicle(name=name.upper()) for name in names)
    fields = {"vehicles": tuple(v.name for v in vehicles), "bank": names, "parked_apart_m": 1.0}
    kit = Kit(vehicles=vehicles, batteries=batteries, leads=leads, clamps=clamps)
    return kit, replace(whole().trip, **(fields | trip))


def joined(kit: Kit, trip: Trip, polarity: Polarity = Polarity.DCEP) -> tuple[str, ...]:
    found = joining(kit, trip, polarity=polarity)
    assert found is not None
    return tuple(join.words for join in found.joins)


POST, STUD = Terminal.POST, Terminal.STUD_M8
CLAMP, LUG, PLUG = Fitting.POST_CLAMP, Fitting.LUG_M8, Fitting.PLUG
HOLDER = lead("holder lead", LeadUse.HOLDER, Fitting.HOLDER)
WORK = lead("work lead", LeadUse.WORK, Fitting.WORK_CLAMP)


def link(name: str, end_a: Fitting = CLAMP, end_b: Fitting = CLAMP, **changes: object) -> Lead:
    return replace(lead(name, LeadUse.LINK, end_b, **changes), end_a=end_a)


def test_every_connection_names_its_lead_from_pole_to_pole() -> None:
    kit, trip = kit_of((POST, POST, POST), (link("a"), link("b"), HOLDER, WORK))
    assert joined(kit, trip) == (
        "b0 + to b1 −: a",
        "b1 + to b2 −: b",
        "b2 + to holder: holder lead",
        "b0 − to work clamp: work lead",
    )
    assert joined(kit, trip, Polarity.DCEN)[2:] == ("b0 − to holder: holder lead", "b2 + to work clamp: work lead")


def test_a_lug_on_a_post_wants_one_post_clamp_and_says_where() -> None:
    kit, trip = kit_of((POST, POST), (link("lugged", CLAMP, LUG), HOLDER, WORK))
    found = joining(kit, trip, polarity=Polarity.DCEP)
    assert found is not None
    assert found.missing == ("one post clamp that takes a lug M8 short at b1 −",)
    clamp = Clamp(name="loose clamp", what=ClampKind.POST_CLAMP, joins_a=LUG)
    assert joined(replace(kit, clamps=(clamp,)), trip)[0] == "b0 + to b1 −: lugged, loose clamp"


def test_the_lead_is_turned_round_where_only_that_way_fits() -> None:
    kit, trip = kit_of(
        (STUD, POST), (link("lugged", CLAMP, LUG), replace(HOLDER, end_a=CLAMP), replace(WORK, end_a=LUG))
    )
    assert joined(kit, trip)[0] == "b0 + to b1 −: lugged"


def test_the_one_long_link_goes_where_the_length_is_needed() -> None:
    kit, trip = kit_of((POST, POST, POST), (link("long", length_m=3.0), link("short", length_m=0.5), HOLDER, WORK))
    batteries = tuple(replace(b, vehicle="B1" if b.name == "b2" else b.vehicle) for b in kit.batteries)
    kit = replace(kit, batteries=batteries)
    assert joined(kit, trip)[:2] == ("b0 + to b1 −: long", "b1 + to b2 −: short")
    other = replace(trip, bank=("b1", "b2", "b0"))
    assert joined(kit, other)[:2] == ("b1 + to b2 −: short", "b2 + to b0 −: long")


@pytest.mark.parametrize(
    ("length_m", "missing"), [(2.0, ()), (1.99, ("one link short: 2 m or longer, from b0 + to b1 −",))]
)
def test_vehicles_a_metre_apart_take_a_link_of_two_metres(length_m: float, missing: tuple[str, ...]) -> None:
    kit, trip = kit_of((POST, POST), (link("a", length_m=length_m), HOLDER, WORK))
    found = joining(kit, trip, polarity=Polarity.DCEP)
    assert found is not None
    assert found.missing == missing


def test_plugs_join_by_their_pattern_and_by_an_adaptor_and_not_otherwise() -> None:
    tail = replace(link("tail", CLAMP, PLUG, length_m=0.5), pattern_b="grey 50")
    run = replace(link("run", PLUG, CLAMP, length_m=2.0), pattern_a="grey 50")
    kit, trip = kit_of((POST, POST), (tail, run, HOLDER, WORK))
    assert joined(kit, trip)[0] == "b0 + to b1 −: tail, run"
    other = replace(kit, leads=(tail, replace(run, pattern_a="red 175"), HOLDER, WORK))
    assert "short" in joined(other, trip)[0]
    adaptor = Clamp(
        name="grey to red", what=ClampKind.ADAPTOR, joins_a=PLUG, pattern_a="red 175", joins_b=PLUG, pattern_b="grey 50"
    )
    assert joined(replace(other, clamps=(adaptor,)), trip)[0] == "b0 + to b1 −: tail, run, grey to red"


def test_parallel_strings_are_tied_at_both_ends() -> None:
    kit, trip = kit_of((POST,) * 4, (link("a", count=4), HOLDER, WORK), bank_strings=2)
    assert joined(kit, trip) == (
        "b0 + to b1 −: a",
        "b2 + to b3 −: a",
        "b1 + to b3 +: a",
        "b0 − to b2 −: a",
        "b1 + to holder: holder lead",
        "b0 − to work clamp: work lead",
    )


@pytest.mark.parametrize(
    ("area_mm2", "conductor", "joins"),
    [
        (25, Conductor.COPPER, True),
        (24, Conductor.COPPER, False),
        (35, Conductor.COPPER_CLAD, False),
        (None, Conductor.COPPER, False),
    ],
)
def test_a_jumper_lead_stands_in_for_a_link_from_25_mm2_of_copper_up(
    area_mm2: float | None, conductor: Conductor, joins: bool
) -> None:
    jumper = replace(link("jumper", Fitting.SPRING_CLAMP, Fitting.SPRING_CLAMP), use=LeadUse.JUMPER)
    jumper = replace(jumper, area_mm2=area_mm2, conductor=conductor)
    kit, trip = kit_of((POST, POST), (jumper, HOLDER, WORK))
    found = joining(kit, trip, polarity=Polarity.DCEP)
    assert found is not None
    assert (found.missing == ()) is joins
    assert joined(replace(kit, leads=(jumper, link("proper"), HOLDER, WORK)), trip)[0] == "b0 + to b1 −: proper"


def test_a_spare_counts_only_where_it_fits() -> None:
    leads = (link("long", length_m=3.0), link("other", length_m=3.0), HOLDER, WORK)
    kit, trip = kit_of((POST, POST), leads)
    found = joining(kit, trip, polarity=Polarity.DCEP)
    assert found is not None
    assert found.without_spare == ()
    kit = replace(kit, leads=(leads[0], replace(leads[1], length_m=1.0), HOLDER, WORK))
    found = joining(kit, trip, polarity=Polarity.DCEP)
    assert found is not None
    assert found.without_spare == ("long",)


def test_a_bank_that_does_not_travel_is_not_joined_and_unknown_terminals_are_named() -> None:
    kit, trip = kit_of((Terminal.UNKNOWN, POST), (link("a"), HOLDER, WORK))
    assert joining(kit, replace(trip, vehicles=()), polarity=Polarity.DCEP) is None
    assert joining(kit, replace(trip, bank=()), polarity=Polarity.DCEP) is None
    found = joining(kit, replace(trip, parked_apart_m=None), polarity=Polarity.DCEP)
    assert found is not None
    assert found.unknown == ("how near the vehicles can park", "the terminals of b0")
    assert found.missing == ()


def small_kit(dice: random.Random) -> tuple[Kit, Trip]:
    """Two or three batteries, up to five leads and three fittings, much of which does not fit."""
    terminals = tuple(dice.choice((POST, POST, STUD, Terminal.STUD_M10)) for _ in range(dice.choice((2, 2, 3))))

    def end(use: LeadUse) -> Fitting:
        own = {LeadUse.HOLDER: Fitting.HOLDER, LeadUse.WORK: Fitting.WORK_CLAMP}.get(use)
        return own if own and dice.random() < 0.8 else dice.choice(FITTINGS)

    leads = []
    for n in range(dice.randint(2, 5)):
        use = dice.choice(USES)
        fields = {"length_m": dice.choice((0.5, 1.5, 2.0, 4.0)), "use": use, "count": dice.choice((1, 1, 1, 2))}
        patterns = {"pattern_a": dice.choice("xy"), "pattern_b": dice.choice("xy")}
        leads.append(replace(lead(f"l{n}", use, end(use)), end_a=dice.choice(FITTINGS), **fields, **patterns))
    clamps = tuple(
        Clamp(
            name=f"c{n}",
            what=ClampKind.ADAPTOR,
            joins_a=dice.choice((Fitting.LUG_M8, Fitting.POST_CLAMP, PLUG)),
            joins_b=dice.choice((Fitting.POST_CLAMP, Fitting.LUG_M10, Fitting.HOLDER, Fitting.WORK_CLAMP, PLUG)),
            pattern_a=dice.choice("xy"),
            pattern_b=dice.choice("xy"),
        )
        for n in range(dice.randint(0, 3))
    )
    return kit_of(terminals, tuple(leads), clamps)


def test_the_answer_is_as_small_as_trying_everything_on_500_random_kits() -> None:
    dice = random.Random(20270508)
    seen = set()
    for _ in range(500):
        kit, trip = small_kit(dice)
        asked = connections(kit, trip, Polarity.DCEP)
        parts = packed_parts(kit, asked)
        found = sum(choice.pieces_missing for choice in cheapest(asked, parts))
        assert found == fewest_missing(asked, parts), (kit.leads, kit.clamps, trip.bank)
        seen.add(found)
    assert len(seen) >= 4


def test_no_lead_and_no_fitting_is_used_twice_on_500_random_kits() -> None:
    dice = random.Random(7)
    for _ in range(500):
        kit, trip = small_kit(dice)
        found = joining(kit, trip, polarity=Polarity.DCEP)
        assert found is not None
        for things, used in (
            (kit.leads, [name for join in found.joins for name in join.leads]),
            (kit.clamps, [name for join in found.joins for name in join.fittings]),
        ):
            for thing in things:
                assert used.count(thing.name) <= thing.count
