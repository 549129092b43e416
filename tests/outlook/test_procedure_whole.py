"""Every step of four kits, in order: what is left out, added or moved shows here, beside what each step counts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest

from kitlist.base.terms import BatteryPlace, Chemistry, Fitting, LeadUse, StartBatteries, ToolKind
from kitlist.kit import Kit
from kitlist.outlook import hardware_outlook, look_out
from kitlist.outlook.procedure import Behind, Deed, Entry, IfThen, Procedure, Warn
from kitlist.outlook.procedure_steps import also_off, floor_to, procedure_for
from kitlist.outlook.procedure_terms import Barred, Phase, Task, Trouble
from kitlist.outlook.procedure_words import worded
from kitlist.rules.example import (
    Example,
    rod,
    whole,
    with_battery,
    with_kit,
    with_repair,
    with_tool,
    with_trip,
    without_tool,
)
from kitlist.rules.short_arc_only import with_two

FOUR = ("north-main", "north-second", "south-main", "south-second")
AFTER = "chip look-for-cracks clip-back end-watch look-again !weld-breaks walking-pace look-on-the-way charge-alone"
HURT = "?shock ?acid ?arc-eye ?burn ?help"
WRONG = f"?battery ?ground-fire ?fuel-fire ?wiring-fire ?clothes-fire ?no-arc ?burns-through {HURT}"
SAFE = "water-at-part bare-earth engines-off feeds-out surface-load surface-wait"
AMOUNTS = {"water-at-part": 10, "bare-earth": 11, "rest": 3, "wait-after": 30, "end-watch": 60, "look-again": 3}
BLEED = {"surface-load": 3, "surface-wait": 5}


def parted(kit: Kit) -> Kit:
    """A holder lead that parts at a plug."""
    leads = tuple(replace(x, end_a=Fitting.PLUG) if x.use is LeadUse.HOLDER else x for x in kit.leads)
    return replace(kit, leads=leads)


def alone_at_a_plug() -> Example:
    bare = without_tool(ToolKind.ISOLATOR)
    return replace(bare, kit=parted(bare.kit), trip=replace(bare.trip, people=1))


def two_strings_and_a_weak_isolator() -> Example:
    weak = with_tool(ToolKind.ISOLATOR, rating_a=300)
    return replace(weak, trip=replace(weak.trip, bank=FOUR, bank_strings=2))


def one_loose_beside_a_pair() -> Example:
    """Two unlike batteries, one of them in no vehicle, the other beside a 24 V pair; the rods say no polarity."""
    two = with_two()
    north = replace(two.kit.vehicles[0], system_v=24, start_batteries=StartBatteries.PAIR)
    batteries = tuple(
        replace(b, c20_ah=50, vehicle=None, place=BatteryPlace.LOOSE) if b.name == "south-second" else b
        for b in two.kit.batteries
    )
    vehicles = (north, *two.kit.vehicles[1:])
    silent = (replace(two.kit.rods[0], designation="E 42 0 RR 12"),)
    return replace(two, kit=replace(two.kit, vehicles=vehicles, batteries=batteries, rods=silent))


STEPS: Mapping[str, tuple[Example, dict[Phase, str], dict[str, float]]] = {
    "three at an isolator": (
        whole(),
        {
            Phase.MAKE_SAFE: f"ask-hot-work dry name-watcher {SAFE} !falls stands look-behind keys-out",
            Phase.READ: "goggles !left-on free free free free-welded cover read-all look-up-rods",
            Phase.LINK: "open-isolator clamp-work link link !gas join-work join-holder",
            Phase.ARC: "polarity !arc-light helmets watcher-at-isolator rod-in say-close scrap new-rod rest",
            Phase.UNDO: "say-open rod-out start-watch goggles leads-off unlink !link-left-on put-back wait-after "
            "read-after-all charge-low start-engines",
            Phase.AFTER: AFTER,
            Phase.WRONG: f"?stuck {WRONG}",
        },
        {**BLEED, "helmets": 11, "start-watch": 60},
    ),
    "one person at a plug": (
        alone_at_a_plug(),
        {
            Phase.MAKE_SAFE: f"ask-hot-work dry !alone watch-alone {SAFE} !falls stands look-behind keys-out",
            Phase.READ: "goggles !left-on free free free free-welded cover read-all look-up-rods",
            Phase.LINK: "part-plug clamp-work link link !gas join-work join-holder",
            Phase.ARC: "polarity !arc-light helmet-alone plug-in-reach rod-in plug-alone scrap new-rod-alone rest",
            Phase.UNDO: "unplug-alone rod-out start-watch-alone goggles leads-off unlink !link-left-on put-back "
            "wait-after read-after-all charge-low start-engines",
            Phase.AFTER: AFTER,
            Phase.WRONG: f"?stuck-plug {WRONG}",
        },
        {**BLEED, "helmet-alone": 11, "plug-in-reach": 0.5, "start-watch-alone": 60},
    ),
    "two strings, a fuse behind the isolator": (
        two_strings_and_a_weak_isolator(),
        {
            Phase.MAKE_SAFE: f"ask-hot-work name-watcher {SAFE} !falls stands look-behind keys-out",
            Phase.READ: "goggles !left-on free free free free cover read-all",
            Phase.LINK: "open-isolator fuse-in clamp-work link link tie-minus meter-tie tie-plus !gas join-work "
            "join-holder",
            Phase.ARC: "polarity !arc-light helmets watcher-at-isolator rod-in say-close scrap new-rod rest",
            Phase.UNDO: "say-open rod-out start-watch goggles leads-off untie unlink !link-left-on put-back wait-after "
            "read-after-all charge-low start-engines",
            Phase.AFTER: AFTER,
            Phase.WRONG: f"?stuck-then-fuse {WRONG}",
        },
        {**BLEED, "fuse-in": 300, "meter-tie": 0.2, "helmets": 10, "start-watch": 60},
    ),
    "one loose, beside a pair, and rods that do not say": (
        one_loose_beside_a_pair(),
        {
            Phase.MAKE_SAFE: f"ask-hot-work name-watcher {SAFE} surface-loose !falls stands look-behind keys-out",
            Phase.READ: "goggles !left-on free free-bridge-welded free-welded free-welded cover read read look-up-rods",
            Phase.LINK: "open-isolator clamp-work link !gas read-packet",
            Phase.ARC: "polarity !arc-light helmets watcher-at-isolator rod-in say-close scrap new-rod rest",
            Phase.UNDO: "say-open rod-out start-watch goggles leads-off unlink !link-left-on put-back wait-after "
            "read-after-all charge-low rejoin-bridge start-engines",
            Phase.AFTER: AFTER,
            Phase.WRONG: f"?stuck {WRONG}",
        },
        {**BLEED, "surface-loose": 3, "helmets": 10, "start-watch": 60},
    ),
}


def of(example: Example) -> Procedure:
    outlook = look_out(example.kit, example.trip, on=example.on)
    return procedure_for(example.kit, example.trip, outlook, on=example.on)


def called(entry: Entry) -> str:
    match entry:
        case Warn(hazard):
            return f"!{hazard}"
        case IfThen(trouble):
            return f"?{trouble}"
        case Behind(repair, _, _):
            return f"behind {repair}"
        case Deed():
            return str(entry.do)


@pytest.mark.parametrize("name", STEPS)
def test_the_steps_of_a_kit_are_these_in_this_order_with_these_amounts(name: str) -> None:
    example, expected, amounts = STEPS[name]
    found = of(example)
    assert found.barred == ()
    for stage in found.stages:
        assert " ".join(map(called, stage.entries)) == expected[stage.phase]
    deeds = [entry for stage in found.stages for entry in stage.entries if isinstance(entry, Deed)]
    counted = {str(deed.do): deed.amount for deed in deeds if deed.amount is not None}
    assert counted == AMOUNTS | amounts


def deeds(example: Example, *tasks: Task) -> list[Deed]:
    entries = [entry for stage in of(example).stages for entry in stage.entries]
    return [entry for entry in entries if isinstance(entry, Deed) and entry.do in tasks]


def test_a_step_names_the_battery_the_vehicle_and_the_post_that_it_is_for() -> None:
    pair = one_loose_beside_a_pair()
    freed = [(d.battery.name if d.battery else "", d.vehicle, d.names) for d in deeds(pair, Task.FREE)]
    assert freed == [("north-second", "", ())]
    assert [(d.vehicle, d.names) for d in deeds(pair, Task.FREE_WELDED)] == [
        ("North", ("north-main",)),
        ("South", ("south-main",)),
    ]
    bridge = deeds(pair, Task.FREE_BRIDGE, Task.FREE_BRIDGE_WELDED, Task.REJOIN_BRIDGE)
    assert [(d.do, d.vehicle) for d in bridge] == [(Task.FREE_BRIDGE_WELDED, "North"), (Task.REJOIN_BRIDGE, "North")]
    assert [d.names for d in deeds(pair, Task.PUT_BACK)] == [("North",)]
    strings = two_strings_and_a_weak_isolator()
    joined = {
        str(d.do): (d.battery.name if d.battery else "", d.to.name if d.to else "")
        for d in deeds(strings, Task.TIE_MINUS, Task.METER_TIE, Task.TIE_PLUS, Task.JOIN_WORK, Task.JOIN_HOLDER)
    }
    assert joined == {
        "tie-minus": ("north-main", "south-main"),
        "meter-tie": ("north-second", "south-second"),
        "tie-plus": ("north-second", "south-second"),
        "join-work": ("north-second", "north-main"),
        "join-holder": ("north-second", "north-main"),
    }
    links = deeds(strings, Task.LINK)
    assert [(d.battery.name, d.to.name, d.names) for d in links if d.battery and d.to] == [
        ("north-main", "north-second", ("north-main",)),
        ("south-main", "south-second", ("south-main",)),
    ]


def test_each_battery_is_numbered_with_its_own_volts_before_and_after() -> None:
    found = of(one_loose_beside_a_pair())
    assert [(b.number, b.name, b.vehicle, b.only_full) for b in found.bank] == [
        (1, "north-second", "North", False),
        (2, "south-second", "", False),
    ]
    asked = {d.battery.name: d.at_least_v for d in deeds(one_loose_beside_a_pair(), Task.READ) if d.battery}
    assert asked == {b.name: b.go_v for b in found.bank}
    (after,) = deeds(one_loose_beside_a_pair(), Task.READ_AFTER_ALL)
    assert {after.at_least_v} == {b.after_v for b in found.bank}
    (link,) = deeds(one_loose_beside_a_pair(), Task.LINK)
    assert link.at_least_v == floor_to(sum(b.go_v for b in found.bank))


def test_after_volts_that_differ_are_read_each_by_its_own() -> None:
    mixed = with_battery("north-second", chemistry=Chemistry.FLOODED, c20_ah=110)
    found = of(mixed)
    assert len({b.after_v for b in found.bank}) > 1
    read = deeds(mixed, Task.READ_AFTER)
    assert [(d.battery.name, d.at_least_v) for d in read if d.battery] == [(b.name, b.after_v) for b in found.bank]
    assert deeds(mixed, Task.READ_AFTER_ALL) == []


def test_a_link_shows_volts_only_where_every_battery_of_its_string_was_read() -> None:
    example = whole()
    unread = replace(
        example,
        kit=replace(example.kit, readings=tuple(r for r in example.kit.readings if r.battery != "north-second")),
    )
    assert [d.expected_v for d in deeds(unread, Task.LINK)] == [None, None]
    charging = replace(
        example,
        kit=replace(
            example.kit,
            readings=tuple(
                replace(r, charging=True, rested_h=None) if r.battery == "north-second" else r
                for r in example.kit.readings
            ),
        ),
    )
    assert [d.expected_v for d in deeds(charging, Task.LINK)] == [None, None]


def test_the_readings_of_today_bar_strings_that_stand_apart() -> None:
    apart = two_strings_and_a_weak_isolator()
    low = tuple(replace(r, volts_v=12.70) if r.battery == "south-main" else r for r in apart.kit.readings)
    level = tuple(replace(r, volts_v=12.78) if r.battery == "south-main" else r for r in apart.kit.readings)
    assert Barred.APART not in of(apart).barred
    further = tuple(replace(r, volts_v=r.volts_v - 0.11) for r in apart.kit.readings if r.battery[:5] == "south")
    north = tuple(r for r in apart.kit.readings if r.battery[:5] == "north")
    assert Barred.APART in of(replace(apart, kit=replace(apart.kit, readings=(*north, *further)))).barred
    for readings in (low, level):
        assert Barred.APART not in of(replace(apart, kit=replace(apart.kit, readings=readings))).barred


def test_a_refused_battery_is_named_with_its_reason_and_no_other_bar_is_in_its_place() -> None:
    example = with_trip(bank=FOUR)
    found = of(example)
    assert (found.barred, found.refused) == ((Barred.FOUR,), ())
    cut = tuple(replace(b, built_in_cutoff=True) if b.name == "north-main" else b for b in example.kit.batteries)
    refused = of(replace(example, kit=replace(example.kit, batteries=cut)))
    assert set(refused.barred) == {Barred.FOUR, Barred.REFUSED}
    assert refused.refused == (("north-main", "it has a built-in cut-off"),)


def stuck(example: Example) -> Trouble:
    (only,) = (
        e.trouble for e in of(example).stage(Phase.WRONG).entries if isinstance(e, IfThen) and e.trouble.is_stuck
    )
    return only


def test_an_isolator_breaks_a_stuck_rod_from_its_rating_and_volts_and_only_where_it_is_packed() -> None:
    stuck_a = hardware_outlook(whole().kit, whole().trip, on=whole().on).bank.stuck_a
    assert stuck_a is not None
    amps, volts = stuck_a, whole().kit.limits.isolator_least_v
    weak = Trouble.STUCK_NO_SECOND_WAY
    assert stuck(with_tool(ToolKind.ISOLATOR, rating_a=amps + 1)) is Trouble.STUCK
    assert stuck(with_tool(ToolKind.ISOLATOR, rating_a=amps - 1)) is weak
    assert stuck(with_tool(ToolKind.ISOLATOR, rating_a=None)) is weak
    assert stuck(with_tool(ToolKind.ISOLATOR, rating_v=volts)) is Trouble.STUCK
    assert stuck(with_tool(ToolKind.ISOLATOR, rating_v=volts - 1)) is weak
    assert stuck(with_tool(ToolKind.ISOLATOR, rating_v=None)) is weak


def test_a_part_that_is_in_no_table_is_not_said_to_be_one_that_is_never_welded() -> None:
    made = [e for e in of(with_repair(part="nobody knows it")).stages[0].entries if isinstance(e, Behind)]
    assert [entry.never for entry in made] == [False]


def test_each_battery_of_a_repaired_vehicle_is_freed_once_and_a_loose_one_or_one_of_the_bank_is_none_of_them() -> None:
    example = with_repair(vehicle="South")
    loose = replace(example.kit.batteries[0], name="loose", vehicle=None, place=BatteryPlace.LOOSE)
    kit = replace(example.kit, batteries=(*example.kit.batteries, loose))
    trip = replace(example.trip, bank=("north-main", "north-second"))
    assert also_off(kit, trip) == (("South", ("south-main", "south-second")),)
    plain = replace(trip, repairs=())
    assert also_off(kit, replace(plain, bank=("south-main", "south-second"))) == (
        ("North", ("north-main", "north-second")),
    )
    both = replace(trip, bank=("north-main", "loose"))
    assert also_off(kit, both) == (("South", ("south-main", "south-second")), ("North", ("north-second",)))


def test_rods_are_looked_up_only_where_the_table_shows_one() -> None:
    assert deeds(with_kit(rods=()), Task.LOOK_UP_RODS) == []
    small = tuple(replace(b, c20_ah=20) for b in whole().kit.batteries)
    assert deeds(with_kit(batteries=small), Task.LOOK_UP_RODS) == []
    assert len(deeds(with_kit(rods=(rod("odd", designation="X99"), rod("good"))), Task.LOOK_UP_RODS)) == 1


def test_without_rods_the_steps_ask_for_no_volts_and_a_battery_that_the_kit_has_not_is_named_all_the_same() -> None:
    bare = of(with_kit(rods=()))
    assert [(b.go_v, b.after_v, b.only_full) for b in bare.bank] == [(0.0, 0.0, False)] * 3
    assert [b.vehicle for b in bare.bank] == ["North", "North", "South"]
    sold = of(with_trip(bank=("north-main", "sold", "south-second")))
    assert [(b.name, b.vehicle) for b in sold.bank][1] == ("sold", "")
    assert Barred.AWAY in sold.barred


def test_in_the_cold_in_which_no_reading_shows_the_rods_only_full_is_asked_for() -> None:
    found = of(with_battery("north-second", c20_ah=20))
    only = {b.name: b.only_full for b in found.bank}
    assert only["north-second"]
    marks = hardware_outlook(with_battery("north-second", c20_ah=20).kit, whole().trip, on=whole().on).marks
    for battery in found.bank:
        own = marks[battery.name]
        assert battery.go_v == (own.full_v if own.go_v is None else own.go_v)
        assert battery.after_v == own.shows_v
    text = [step for stage in worded(found) for step in stage.steps if step.do is Task.READ]
    assert len({step.note for step in text}) == 2


def test_a_bank_of_which_the_rods_hold_no_arc_is_barred_only_where_none_does() -> None:
    two = with_trip(bank=FOUR[:2])
    deep = replace(two, kit=replace(two.kit, rods=(rod("deep", designation="E6010"),)))
    assert Barred.NO_ARC in of(deep).barred
    both = replace(two, kit=replace(two.kit, rods=(rod("deep", designation="E6010"), rod("thin", diameter_mm=2.5))))
    assert Barred.NO_ARC not in of(both).barred
    assert Barred.NO_ARC not in of(replace(two, kit=replace(two.kit, rods=()))).barred


def test_troubles_are_of_the_stuck_rod_of_the_weld_of_somebody_hurt_or_of_none_of_these() -> None:
    kinds = {
        "stuck": [t for t in Trouble if t.is_stuck],
        "weld": [t for t in Trouble if t.is_of_the_weld],
        "hurt": [t for t in Trouble if t.is_first_aid],
    }
    assert " ".join(f"?{trouble}" for trouble in kinds["hurt"]) == HURT
    assert kinds["weld"] == [Trouble.NO_ARC, Trouble.BURNS_THROUGH]
    assert kinds["stuck"] == list(Trouble)[:5]
    assert (Trouble.BATTERY.is_stuck, Trouble.BATTERY.is_of_the_weld, Trouble.BATTERY.is_first_aid) == (False,) * 3
