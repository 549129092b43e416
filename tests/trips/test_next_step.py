"""The next step and the days, from kits whose gaps are known."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from kitlist.base.terms import FireRules, RodCondition
from kitlist.faces.words.trip_text import next_lines, timeline_lines
from kitlist.kit import Kit, Mend, Rod, Trip, Vehicle
from kitlist.kit.printed import PrintedPaper
from kitlist.readiness import Readiness, assess
from kitlist.rules import example
from kitlist.rules.core import Example
from kitlist.rules.doing import Doing
from kitlist.trips import next_step
from kitlist.trips.timeline import readings_basis, timeline


def judged(example: Example, *, on: date | None = None) -> Readiness:
    return assess(example.kit, example.trip, on=on or example.on)


def damp(name: str, designation: str, condition: RodCondition = RodCondition.DAMP) -> Rod:
    return example.rod(name, designation=designation, condition=condition)


def test_a_whole_kit_has_only_the_door_and_the_papers_left() -> None:
    actions = timeline(judged(example.whole()))
    assert [a.word for a in actions if not a.done and a.due_on <= date(2027, 3, 6)] == [
        "read",
        "check off",
        "print card",
        "print sheet",
    ]
    assert not any(a.late for a in actions)


def test_days_count_back_from_the_start_and_forward_from_the_end() -> None:
    readiness = judged(example.with_trip(fire_rules=FireRules.NOT_ASKED))
    due = {a.word: a.due_on for a in timeline(readiness)}
    assert due["ask"] == date(2027, 2, 27)  # seven days before the 6th of March
    assert due["check off"] == date(2027, 3, 5)
    assert due["used"] == date(2027, 3, 9)
    assert due["recharge"] == date(2027, 3, 10)


def test_a_gap_is_listed_under_the_doing_that_it_asks_and_not_by_its_name() -> None:
    actions = {a.word: a for a in timeline(judged(example.with_trip(people=1)))}
    assert "get" not in actions  # nobody buys a second person
    assert actions["mend"].what.startswith("Put right: fire watch (")  # and how
    spoiled = {a.word: a.what for a in timeline(judged(example.with_kit(rods=(damp("rutile", "E6013"),))))}
    assert "rutile" in spoiled["bake"]
    wet = example.with_kit(rods=(damp("wet", "E6013", RodCondition.WET),))
    assert "wet" in {a.word: a.what for a in timeline(judged(wet))}["get"]


def test_every_kind_of_doing_has_its_day_before_the_start() -> None:
    start = date(2027, 3, 15)
    due = {doing: (start - doing.due_on(start)).days for doing in Doing}
    assert due == {"get": 14, "check": 7, "mend": 7, "ask": 7, "charge": 3, "read": 1, "bake": 1, "print": 1}


def test_what_is_past_its_day_is_late_and_comes_next() -> None:
    readiness = judged(example.with_trip(fire_rules=FireRules.NOT_ASKED))
    actions = timeline(readiness)
    assert [a.word for a in actions if a.late] == ["ask"]
    step = next_step.of_trip(readiness, actions)
    assert (step.due_on, step.do.startswith("Ask the fire authority")) == (date(2027, 2, 27), True)


def test_the_gravest_gap_comes_before_what_is_not_due_yet() -> None:
    kit = example.without_lead("holder lead")
    readiness = judged(kit, on=date(2027, 3, 4))
    step = next_step.of_trip(readiness, timeline(readiness))
    assert step.do.startswith(readiness.gaps[0].what)
    assert readiness.gaps[0].weight == "stop"


def test_an_empty_kit_asks_for_a_vehicle_then_a_battery_then_a_trip() -> None:
    on = date(2027, 3, 4)
    whole = example.whole().kit
    asked = [
        next_step.no_trip(Kit(), None, on=on).command,
        next_step.no_trip(Kit(vehicles=(Vehicle(name="Old Bess"),)), None, on=on).command,
        next_step.no_trip(whole, None, on=on).command,
    ]
    assert asked[0].startswith("kitlist vehicle add")
    assert 'vehicle="Old Bess"' in asked[1]
    assert asked[2].startswith("kitlist trip add")


def test_a_trip_that_is_past_asks_for_what_it_took_and_then_for_restocking() -> None:
    whole = example.whole()
    on = whole.trip.ends_on + timedelta(days=1)
    assert next_step.no_trip(whole.kit, whole.trip, on=on).command == "kitlist used Example"
    assert next_step.no_trip(whole.kit, whole.trip, on=on, used=True).command == "kitlist restock Example"


def test_under_way_it_counts_the_days_of_the_trip() -> None:
    readiness = judged(example.whole(), on=date(2027, 3, 7))
    step = next_step.of_trip(readiness, timeline(readiness))
    assert step.stands == "Example: day 2 of 4, to 2027-03-09."


def test_ten_lines_of_sixty_columns_are_enough_whatever_the_names() -> None:
    long = "M" * 120
    whole = example.with_trip(name=long, fire_rules=FireRules.NOT_ASKED)
    readiness = judged(whole)
    for step in (
        next_step.of_trip(readiness, timeline(readiness)),
        next_step.no_trip(replace(whole.kit), whole.trip, on=date(2027, 4, 1)),
        next_step.no_store(),
    ):
        lines = list(next_lines(step, columns=60))
        assert len(lines) <= 10
        assert all(len(line) <= 60 for line in lines if not line.startswith("    >"))


def test_hostile_names_reach_the_terminal_without_their_controls() -> None:
    trip = Trip(name="a\x1b[2Jb\u202e", starts_on=date(2027, 1, 1), ends_on=date(2027, 1, 2))
    lines = "\n".join(next_lines(next_step.no_trip(example.whole().kit, trip, on=date(2027, 2, 1)), columns=60))
    assert "\x1b" not in lines
    assert "\u202e" not in lines


def test_each_line_of_the_days_says_its_state_in_a_word() -> None:
    actions = timeline(judged(example.with_trip(fire_rules=FireRules.NOT_ASKED)))
    lines = [line for line in timeline_lines(actions, columns=60) if line[:4] == "2027"]
    assert {line[12:17].strip() for line in lines} == {"LATE", "to do"}


def sheet_done(readiness: Readiness) -> bool:
    return next(action.done for action in timeline(readiness) if action.word == "print sheet")


def test_a_sheet_is_done_until_a_newer_reading_even_of_the_same_day() -> None:
    it = example.whole()
    before = judged(it)
    sheet = PrintedPaper(
        paper="sheet",
        trip=it.trip.name,
        content_hash="0" * 8,
        revision=1,
        printed_on=it.on,
        basis=readings_basis(before),
    )
    kit = replace(it.kit, printed=(sheet,))
    assert sheet_done(judged(replace(it, kit=kit)))
    first, *others = kit.readings
    later = replace(first, taken_at=first.taken_at + timedelta(minutes=5))
    assert later.taken_at.date() == first.taken_at.date()
    assert not sheet_done(judged(replace(it, kit=replace(kit, readings=(later, first, *others)))))


def test_a_sheet_printed_before_its_readings_were_kept_counts_by_its_day() -> None:
    it = example.whole()
    newest = max(reading.taken_at.date() for reading in it.kit.readings)
    done = [
        sheet_done(judged(replace(it, kit=replace(it.kit, printed=(old_sheet(it, on=day),)))))
        for day in (newest - timedelta(days=1), newest)
    ]
    assert done == [False, True]


def old_sheet(it: Example, *, on: date) -> PrintedPaper:
    return PrintedPaper(paper="sheet", trip=it.trip.name, content_hash="0" * 8, revision=1, printed_on=on)


def test_days_that_are_likely_slips_are_asked_about_and_others_are_not() -> None:
    trip = Trip(name="Lake", starts_on=date(2026, 3, 6), ends_on=date(2026, 3, 9))
    assert trip.doubts(on=date(2026, 3, 9)) == ()
    assert trip.doubts(on=date(2026, 3, 10)) == ("the trip ended on 2026-03-09, before today: is the year right?",)
    asked = replace(trip, fire_rules_asked_on=date(2026, 3, 5))
    assert asked.doubts(on=date(2026, 3, 5)) == ()
    assert "2026-03-05, after today" in asked.doubts(on=date(2026, 3, 4))[0]
    mend = Mend(name="hanger", part="spring hanger", welded_on=date(2026, 3, 8))
    assert mend.doubts(on=date(2026, 3, 8)) == ()
    assert mend.doubts(on=date(2026, 3, 7)) == ("it was welded on 2026-03-08, after today: is the year right?",)
    settled = replace(mend, settled_on=date(2027, 3, 8))
    assert settled.doubts(on=date(2026, 3, 9)) == ("it was put right on 2027-03-08, after today: is the year right?",)


def test_a_gap_that_hands_close_is_said_with_what_to_do_and_no_line_that_only_explains() -> None:
    rods = example.with_kit(rods=())
    step = next_step.of_trip(judged(rods), timeline(judged(rods)))
    assert "Pack E6013" in step.do
    assert step.command == ""
    assert not any("kitlist why" in line or line.strip() == ">" for line in next_lines(step, columns=60))
