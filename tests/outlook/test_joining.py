from __future__ import annotations

import random
from dataclasses import replace

import pytest

from kitlist.base.terms import BatteryPlace, ClampKind, Conductor, Fitting, LeadUse, Polarity, Terminal
from kitlist.kit import Battery, Clamp, Kit, Lead, Trip, Vehicle
from kitlist.outlook.circuit import CircuitPart, Connection, cheapest
from kitlist.outlook.joining import Short, connections, joining, packed_parts
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


@pytest.mark.parametrize("part", range(25))
def test_the_answer_is_as_small_as_trying_everything_on_500_random_kits(part: int) -> None:
    dice = random.Random(20270508 + part)
    seen = set()
    for _ in range(20):
        kit, trip = small_kit(dice)
        asked = connections(kit, trip, Polarity.DCEP)
        parts = packed_parts(kit, asked)
        found = sum(choice.pieces_missing for choice in cheapest(asked, parts))
        assert found == fewest_missing(asked, parts), (kit.leads, kit.clamps, trip.bank)
        seen.add(found)
    assert len(seen) >= 3


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


def part(
    name: str, *ends: tuple[Fitting, str], use: LeadUse | None = LeadUse.LINK, length_m: float = 9.0
) -> CircuitPart:
    return CircuitPart(name, 1, (ends[0], ends[1]), use, length_m)


ON = frozenset({CLAMP})
BETWEEN = Connection("a", "b", (ON, ON), LeadUse.LINK, 1.0)


def test_of_two_ways_that_buy_nothing_the_one_with_fewer_pieces_and_of_its_own_use_is_taken() -> None:
    plain = part("plain", (CLAMP, ""), (CLAMP, ""))
    lugs = part("lugs", (CLAMP, ""), (LUG, ""))
    adaptor = part("adaptor", (LUG, ""), (CLAMP, ""), use=None, length_m=0.0)
    extension = part("extension", (CLAMP, ""), (CLAMP, ""), use=LeadUse.EXTENSION)
    halves = (part("half", (CLAMP, ""), (PLUG, "x")), part("other half", (PLUG, "x"), (CLAMP, "")))
    best = [(plain, ("plain",)), (lugs, ("lugs",)), (extension, ("extension",))]
    for at, (own, leads) in enumerate(best):
        rest = [each for each, _ in best[at:]]
        (choice,) = cheapest([BETWEEN], (*halves, adaptor, *rest[::-1]))
        assert (choice.leads, choice.pieces_missing) == (leads, 0), own
    (choice,) = cheapest([BETWEEN], halves)
    assert choice.leads == ("half", "other half")
    (choice,) = cheapest([BETWEEN], (lugs, adaptor))
    assert (choice.leads, choice.fittings, choice.cost) == (("lugs",), ("adaptor",), 9)
    assert choice.parts == ("lugs", "adaptor")


def test_what_is_short_is_one_fitting_where_a_lead_all_but_fits_else_a_lead() -> None:
    lugs = part("lugs", (CLAMP, ""), (LUG, ""))
    (choice,) = cheapest([BETWEEN], (lugs,))
    assert (choice.leads, choice.missing_end, choice.bare_end, choice.missing_lead) == (("lugs",), 1, LUG, False)
    turned = replace(BETWEEN, takes=(frozenset({Fitting.LUG_M10}), ON))
    (choice,) = cheapest([turned], (lugs,))
    assert (choice.missing_end, choice.bare_end, choice.pieces_missing) == (0, LUG, 1)
    for parts in ((), (replace(lugs, length_m=0.9),), (replace(lugs, use=LeadUse.HOLDER),)):
        (choice,) = cheapest([BETWEEN], parts)
        assert (choice.leads, choice.missing_lead, choice.pieces_missing) == ((), True, 1)
    reach = replace(BETWEEN, length_m=9.0)
    assert cheapest([reach], (part("plain", (CLAMP, ""), (CLAMP, "")),))[0].leads == ("plain",)


def test_words_of_what_is_short_name_the_piece_the_place_and_the_length() -> None:
    kit, trip = kit_of((POST, STUD), (HOLDER,))
    found = joining(kit, trip, polarity=Polarity.DCEP)
    assert found is not None
    assert found.missing == (
        "one link short: 2 m or longer, from b0 + to b1 −",
        "one lug M8 that takes a post clamp short at b1 +",
        "one work lead short: from b0 − to work clamp",
    )
    link_short, end_short, work_short = (join.short for join in found.joins)
    assert link_short == Short(LeadUse.LINK, (CLAMP, LUG), 2.0)
    assert end_short == Short(None, (CLAMP, LUG))
    assert work_short == Short(LeadUse.WORK, (CLAMP, Fitting.WORK_CLAMP))
    assert found.joins[1].words == "b1 + to holder: holder lead, one lug M8 that takes a post clamp short at b1 +"


def test_where_no_polarity_is_said_both_arc_leads_begin_at_an_open_end() -> None:
    kit, trip = kit_of((POST, POST), (link("a"), HOLDER, WORK))
    found = joining(kit, trip, polarity=None)
    assert found is not None
    assert [join.words for join in found.joins] == [
        "b0 + to b1 −: a",
        "an open end to holder: holder lead",
        "an open end to work clamp: work lead",
    ]


def test_a_loose_fitting_counts_only_with_both_its_sides_and_one_of_several_vehicles_asks_for_length() -> None:
    lugged = replace(HOLDER, end_a=LUG)
    made = Clamp(name="post clamp", what=ClampKind.POST_CLAMP, joins_a=LUG)
    for clamp, missing in (
        (made, 0),
        (replace(made, joins_a=None), 1),
        (replace(made, count=0), 1),
        (replace(made, what=ClampKind.ADAPTOR), 1),
        (replace(made, what=ClampKind.ADAPTOR, joins_b=CLAMP), 0),
    ):
        kit, trip = kit_of((POST, POST), (link("a"), lugged, WORK), (clamp,))
        found = joining(kit, trip, polarity=Polarity.DCEP)
        assert found is not None
        assert len(found.missing) == missing, clamp
    kit, trip = kit_of((POST, POST), (link("a", length_m=0.3), HOLDER, WORK))
    near = replace(kit, batteries=tuple(replace(b, vehicle="B0") for b in kit.batteries))
    loose = replace(kit, batteries=(kit.batteries[0], replace(kit.batteries[1], vehicle=None)))
    for shown, asked in ((kit, 2.0), (near, 0.0), (loose, 0.0)):
        first = connections(shown, trip, Polarity.DCEP)[0]
        assert first.length_m == asked
    assert connections(kit, replace(trip, parked_apart_m=None), Polarity.DCEP)[0].length_m == 0.0
    unknown = link("a", length_m=None)
    assert {p.length_m for p in packed_parts(replace(kit, leads=(unknown,)), connections(kit, trip, None))} == {2.0}
