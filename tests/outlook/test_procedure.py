"""The procedure: one order of steps behind every face, with nothing in it that does not apply to the kit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import Chemistry, Fitting, LeadUse, StartBatteries, ToolKind
from kitlist.kit import Repair
from kitlist.outlook import look_out
from kitlist.outlook.procedure import Behind, Deed, IfThen, Procedure, Warn
from kitlist.outlook.procedure_steps import also_off, procedure_for
from kitlist.outlook.procedure_terms import Barred, Hazard, Phase, Task, Trouble
from kitlist.outlook.procedure_words import WordedStep, WordedTrouble, why_barred, worded, wording
from kitlist.rules.example import (
    Example,
    battery,
    whole,
    with_battery,
    with_kit,
    with_repair,
    with_tool,
    with_trip,
    without_tool,
)
from kitlist.rules.four_without_ballast import with_four
from kitlist.rules.short_arc_only import with_two


def procedure(example: Example) -> Procedure:
    outlook = look_out(example.kit, example.trip, on=example.on)
    return procedure_for(example.kit, example.trip, outlook, on=example.on)


def doings(example: Example, *phases: Phase) -> list[Task]:
    stages = procedure(example).stages
    kept = [stage for stage in stages if not phases or stage.phase in phases]
    return [entry.do for stage in kept for entry in stage.entries if isinstance(entry, Deed)]


def in_order(found: list[Task], *wanted: Task) -> bool:
    places = [found.index(each) for each in wanted]
    return places == sorted(places)


def test_nothing_is_live_before_somebody_watches_and_the_rod_goes_in_while_the_circuit_is_open() -> None:
    assert in_order(
        doings(with_two()),
        Task.ASK_HOT_WORK,
        Task.NAME_WATCHER,
        Task.WATER_AT_PART,
        Task.FEEDS_OUT,
        Task.SURFACE_LOAD,
        Task.KEYS_OUT,
        Task.GOGGLES,
        Task.FREE,
        Task.READ_ALL,
        Task.OPEN_ISOLATOR,
        Task.CLAMP_WORK,
        Task.LINK,
        Task.JOIN_WORK,
        Task.JOIN_HOLDER,
        Task.HELMETS,
        Task.WATCHER_AT_ISOLATOR,
        Task.ROD_IN,
        Task.SAY_CLOSE,
        Task.SCRAP,
    )


def test_it_is_undone_in_the_reverse_order_and_the_watch_does_not_keep_the_batteries_out() -> None:
    assert in_order(
        doings(with_two(), Phase.UNDO, Phase.AFTER),
        Task.SAY_OPEN,
        Task.ROD_OUT,
        Task.START_WATCH,
        Task.LEADS_OFF,
        Task.UNLINK,
        Task.PUT_BACK,
        Task.READ_AFTER_ALL,
        Task.START_ENGINES,
        Task.END_WATCH,
    )


def test_batteries_that_are_unlike_are_read_each_by_its_own_volts() -> None:
    """The smaller one has more of its charge to give for a rod: it must show more."""
    two = with_two()
    smaller = tuple(replace(b, c20_ah=50) if b.name == "north-second" else b for b in two.kit.batteries)
    unlike = replace(two, kit=replace(two.kit, batteries=smaller))
    assert Task.READ not in doings(two, Phase.READ)
    asked = [entry for entry in procedure(unlike).stage(Phase.READ).entries if isinstance(entry, Deed)]
    read = {entry.battery.name: entry.at_least_v for entry in asked if entry.do is Task.READ and entry.battery}
    assert set(read) == set(two.trip.bank)
    assert read["north-second"] > read["south-second"]
    assert Task.READ_ALL not in doings(unlike, Phase.READ)


def test_every_battery_of_every_vehicle_that_may_be_welded_on_is_freed() -> None:
    """The bank by number, the others by vehicle: those with a repair first, and the rest of the convoy too."""
    example = with_repair(vehicle="South")
    found = procedure(example)
    freed = {entry.battery.name for entry in found.stage(Phase.READ).entries if _frees(entry) and entry.battery}
    freed |= {name for entry in found.stage(Phase.READ).entries if _frees(entry) for name in entry.names}
    assert freed == {"north-main", "north-second", "south-main", "south-second"}
    assert also_off(example.kit, example.trip) == (("South", ("south-main",)),)


def _frees(entry: object) -> bool:
    return isinstance(entry, Deed) and entry.do in (Task.FREE, Task.FREE_WELDED)


def test_a_vehicle_with_a_repair_that_stays_off_the_list_of_vehicles_is_freed_all_the_same() -> None:
    """A trailer or a guest's vehicle may be welded on though it is not on the trip's own list."""
    example = with_repair(vehicle="Guest")
    kit = replace(example.kit, batteries=(*example.kit.batteries, battery("guest-main", "Guest")))
    assert also_off(kit, example.trip)[0] == ("Guest", ("guest-main",))


def test_each_warning_stands_directly_before_a_step() -> None:
    for example in (whole(), with_trip(people=1)):
        for stage in procedure(example).stages:
            for entry, after in zip(stage.entries, (*stage.entries[1:], None), strict=True):
                assert not isinstance(entry, Warn) or isinstance(after, Deed)


def test_alone_there_is_no_watcher_and_the_isolator_is_in_reach() -> None:
    found = doings(with_trip(people=1))
    assert Task.ISOLATOR_IN_REACH in found
    assert not {Task.NAME_WATCHER, Task.WATCHER_AT_ISOLATOR, Task.SAY_CLOSE, Task.SAY_OPEN} & set(found)
    assert Warn(Hazard.ALONE) in procedure(with_trip(people=1)).stage(Phase.MAKE_SAFE).entries
    assert Warn(Hazard.ALONE) not in procedure(whole()).stage(Phase.MAKE_SAFE).entries


@pytest.mark.parametrize(("people", "alone"), [(1, True), (2, False), (None, False)])
def test_only_one_person_is_alone(people: int | None, alone: bool) -> None:
    assert procedure(with_trip(people=people)).alone is alone


def stuck(example: Example) -> Trouble:
    (only,) = (e.trouble for e in procedure(example).stage(Phase.WRONG).entries if isinstance(e, IfThen) and _of(e))
    return only


def _of(entry: IfThen) -> bool:
    return entry.trouble.is_stuck


def test_an_isolator_that_may_weld_shut_names_its_second_way_or_that_there_is_none() -> None:
    weak = with_tool(ToolKind.ISOLATOR, rating_a=300)
    plugged = replace(weak.kit, leads=tuple(_plugged(x) for x in weak.kit.leads))
    assert stuck(whole()) is Trouble.STUCK
    assert stuck(weak) is Trouble.STUCK_NO_SECOND_WAY
    assert stuck(replace(weak, kit=plugged)) is Trouble.STUCK_THEN_PLUG
    bare = without_tool(ToolKind.ISOLATOR)
    assert stuck(replace(bare, kit=replace(bare.kit, leads=plugged.leads))) is Trouble.STUCK_PLUG


def _plugged(lead):
    return replace(lead, end_a=Fitting.PLUG) if lead.use is LeadUse.HOLDER else lead


def test_what_may_not_be_linked_has_no_step_and_says_why_and_what_helps() -> None:
    four = ("north-main", "north-second", "south-second", "south-main")
    barred = {
        Barred.WET: with_trip(wet=True),
        Barred.REFUSED: with_battery("north-main", chemistry=Chemistry.LITHIUM),
        Barred.NOTHING_OPENS: without_tool(ToolKind.ISOLATOR),
        Barred.FOUR: with_trip(bank=four),
        Barred.ONE: with_trip(bank=four[:1]),
        Barred.AWAY: with_trip(vehicles=("South",)),
    }
    for reason, example in barred.items():
        found = procedure(example)
        assert reason in found.barred
        assert found.stages == ()
        assert worded(found) == ()
        assert all(why and cure for why, cure in why_barred(found))


def test_a_bank_of_unknown_wetness_over_the_limit_is_not_linked_and_one_under_it_is() -> None:
    assert Barred.WET in procedure(with_trip(wet=None)).barred
    assert Barred.WET not in procedure(with_trip(wet=None, bank=("north-main", "north-second"))).barred


def test_four_in_series_lay_their_ballast_before_holder_and_work_are_joined() -> None:
    found = doings(with_four("strip"), Phase.LINK)
    assert in_order(found, Task.LINK, Task.BALLAST, Task.JOIN_WORK, Task.JOIN_HOLDER)
    assert Task.BALLAST not in doings(whole())


def test_the_volts_of_each_link_are_the_least_that_the_batteries_make_and_what_their_readings_make() -> None:
    found = procedure(whole())
    links = [e for e in found.stage(Phase.LINK).entries if isinstance(e, Deed) and e.do is Task.LINK]
    sums = [sum(battery.go_v for battery in found.bank[:count]) for count in (2, 3)]
    asked = [link.at_least_v for link in links]
    assert all(0.0 <= total - at_least < 0.1 for total, at_least in zip(sums, asked, strict=True))  # down to 0.1 V
    assert [link.expected_v for link in links] == pytest.approx([25.64, 38.46])


def test_water_is_what_is_packed_and_never_less_than_the_rulebook_asks() -> None:
    assert procedure(with_tool(ToolKind.WATER, volume_l=20)).water_l == 20
    assert procedure(with_tool(ToolKind.WATER, volume_l=1)).water_l >= whole().kit.limits.water_least_l


def test_behind_each_repair_stands_what_was_recorded_and_a_part_that_is_never_welded_says_so() -> None:
    hanger = with_repair(behind="brake line")
    rim = Repair(name="rim", part="wheel rim", vehicle="North")
    kit = replace(hanger.kit, repairs=(*hanger.kit.repairs, rim))
    found = procedure(replace(hanger, kit=kit, trip=replace(hanger.trip, repairs=("hanger", "rim"))))
    behind = [entry for entry in found.stage(Phase.MAKE_SAFE).entries if isinstance(entry, Behind)]
    assert behind == [Behind("hanger", "brake line"), Behind("rim", "", never=True)]


def test_every_kind_of_step_hazard_trouble_and_reason_is_worded_and_no_wording_is_left_over() -> None:
    words = wording()
    assert set(words["step"]) == {str(do) for do in Task}
    assert set(words["hazard"]) == {str(hazard) for hazard in Hazard}
    assert set(words["trouble"]) == {str(trouble) for trouble in Trouble}
    assert set(words["phase"]) == {str(phase) for phase in Phase}
    assert set(words["barred"]) == {str(reason) for reason in Barred}


def test_no_brace_is_left_in_any_word_of_any_kind_of_kit() -> None:
    two = with_kit(leads=tuple(_plugged(x) for x in whole().kit.leads))
    for example in (whole(), with_trip(people=1), two, with_repair(), with_trip(bank_strings=3)):
        for stage in worded(procedure(example)):
            for entry in stage.entries:
                assert "{" not in str(entry)
                if isinstance(entry, WordedStep):
                    assert entry.text
                if isinstance(entry, WordedTrouble):
                    assert entry.then


def test_a_24_v_pair_is_parted_at_its_bridge_before_its_batteries_and_rejoined_after_their_readings() -> None:
    example = whole()
    north = replace(example.kit.vehicles[0], system_v=24, start_batteries=StartBatteries.PAIR)
    kit = replace(example.kit, vehicles=(north, *example.kit.vehicles[1:]))
    found = doings(replace(example, kit=kit))
    assert in_order(found, Task.GOGGLES, Task.FREE_BRIDGE, Task.FREE, Task.LINK)
    assert in_order(found, Task.UNLINK, Task.READ_AFTER_ALL, Task.REJOIN_BRIDGE, Task.START_ENGINES)
    assert Task.FREE_BRIDGE not in doings(example)


def test_a_bank_with_a_ballast_strip_lays_it_whatever_the_number_of_batteries() -> None:
    assert Task.BALLAST in doings(with_trip(ballast="strip"), Phase.LINK)
