"""The steps of a kit in words: numbers, poles, volts and reasons as the crew reads them."""

from __future__ import annotations

from kitlist.outlook.procedure_steps import floor_to
from kitlist.outlook.procedure_terms import Barred, Task
from kitlist.outlook.procedure_words import WordedTrouble, why_barred, worded
from kitlist.rules.example import Example, rod, whole, with_battery, with_kit, with_repair, with_trip
from outlook.test_procedure_whole import of, one_loose_beside_a_pair, two_strings_and_a_weak_isolator


def test_low_hydrogen_rods_are_named_once_and_scrap_is_told_dry() -> None:
    low = tuple(rod(f"low {n}", designation="E7018") for n in (1, 2))
    found = of(with_kit(rods=low))
    assert found.low_hydrogen == ("E7018",)
    assert of(whole()).low_hydrogen == ()
    text = {step.do: step for stage in worded(found) for step in stage.steps}
    plain = {step.do: step for stage in worded(of(whole())) for step in stage.steps}
    assert text[Task.SCRAP].see != plain[Task.SCRAP].see


def test_volts_and_amounts_stand_in_the_words_as_they_are_read_off_a_meter() -> None:
    found = of(whole())
    text = {step.do: step for stage in worded(found) for step in stage.steps}
    said = {do: f"{step.text} {step.see} {step.note} {step.more}" for do, step in text.items()}
    assert f"{found.bank[0].go_v:.2f} V" in said[Task.READ_ALL]
    links = [step for stage in worded(found) for step in stage.steps if step.do is Task.LINK]
    whole_v = floor_to(3 * found.bank[0].go_v)
    assert f"{whole_v:.1f} V" in links[1].see
    assert "38.5 V" in links[1].more  # what the readings make
    assert "10" in said[Task.WATER_AT_PART]
    short = {step.do: step for stage in worded(found, called={"north-main": "NM"}) for step in stage.steps}
    assert "NM" in short[Task.FREE].text or "NM" in " ".join(
        step.text for stage in worded(found, called={"north-main": "NM"}) for step in stage.steps
    )


def test_behind_each_repair_is_said_what_was_found_that_nobody_asked_or_that_it_is_never_welded() -> None:
    asked, unasked = (
        next(e for e in worded(of(with_repair(behind=said)))[0].entries if getattr(e, "repair", "") == "hanger")
        for said in ("brake line", "")
    )
    assert getattr(asked, "behind", "") == "brake line"
    assert getattr(unasked, "behind", "") not in ("", "brake line")


def said(example: Example, *tasks: Task) -> list[tuple[str, str]]:
    steps = [step for stage in worded(of(example)) for step in stage.steps if not tasks or step.do in tasks]
    return [(step.text, step.see) for step in steps]


def test_what_is_joined_to_what_is_said_by_number_and_pole() -> None:
    strings = two_strings_and_a_weak_isolator()
    joins = (Task.FUSE_IN, Task.LINK, Task.TIE_MINUS, Task.METER_TIE, Task.TIE_PLUS, Task.JOIN_WORK, Task.JOIN_HOLDER)
    assert said(strings, *joins) == [
        ("Fuse into HOLDER lead", "300 A"),
        ("Link 1 + to 2 −", "≥ 25.5 V"),
        ("Link 3 + to 4 −", "≥ 25.5 V"),
        ("Tie 1 − to 3 −", ""),
        ("Meter 2 + to 4 +", "≤ 0.2 V"),
        ("Tie 2 + to 4 +", ""),
        ("Join WORK to 1 −", ""),
        ("Join HOLDER last, to 2 +", ""),
    ]
    minus = with_kit(rods=(rod("minus", designation="E6012"),))
    ends = (Task.JOIN_WORK, Task.JOIN_HOLDER, Task.POLARITY)
    assert [text for text, _ in said(minus, *ends)] == [
        "Join WORK to 3 +",
        "Join HOLDER last, to 1 −",
        "HOLDER TO −, WORK CLAMP TO +",
    ]
    assert said(one_loose_beside_a_pair(), Task.FREE, Task.READ, Task.POLARITY, Task.READ_PACKET) == [
        ("Free 1 north-second", "2 leads off"),
        ("Read 1 north-second", "≥ 12.57 V"),
        ("Read 2 south-second", "≥ 12.58 V"),
        ("Read the rods' packet", "+ or −"),
        ("As the rods' packet says, at both ends", ""),
    ]


def test_a_link_says_where_the_meter_goes_and_what_the_readings_make() -> None:
    steps = [step for stage in worded(of(whole())) for step in stage.steps]
    first, second = (step.more for step in steps if step.do is Task.LINK)
    assert first.startswith("north-main + to north-second −. Meter from north-main − to north-second +: ")
    assert first.endswith("25.6 V by their readings, give or take 0.5.")
    assert second.startswith("north-second + to south-second −. Meter from north-main − to south-second +: ")
    unread = with_kit(readings=())
    bare = [step.more for stage in worded(of(unread)) for step in stage.steps if step.do is Task.LINK]
    assert not any("by their readings" in more for more in bare)
    apart = [step.note for stage in worded(of(one_loose_beside_a_pair())) for step in stage.steps]
    assert "Not the 24 V pair of North: it waits for its readings." in apart
    assert not any("24 V pair" in step.note for step in steps)


def test_where_only_full_shows_the_rods_it_is_said_of_all_or_of_that_battery() -> None:
    full = "That is full: even then no reading is sure of all the rods."
    notes = {
        step.do: step.note
        for stage in worded(of(two_strings_and_a_weak_isolator()))
        for step in stage.steps
        if step.do in (Task.READ_ALL, Task.READ_AFTER_ALL)
    }
    assert notes == {Task.READ_ALL: full, Task.READ_AFTER_ALL: ""}
    plain = {step.do: step.note for stage in worded(of(whole())) for step in stage.steps}
    assert plain[Task.READ_ALL] == ""
    one = [step for stage in worded(of(with_battery("north-second", c20_ah=20))) for step in stage.steps]
    assert [step.note == full for step in one if step.do is Task.READ] == [False, True, False]


def test_why_a_bank_is_barred_says_the_limit_the_battery_and_the_reason() -> None:
    wet = dict(zip(of(with_trip(wet=True)).barred, why_barred(of(with_trip(wet=True))), strict=True))
    assert "35 V" in wet[Barred.WET][0]
    cut = of(with_battery("north-main", built_in_cutoff=True))
    ((why, cure),) = why_barred(cut)
    assert "north-main, it has a built-in cut-off" in why
    assert cure
    renamed = worded(of(with_repair()), called={"north-main": "NM", "hanger": "H", "South": "S"})
    texts = " ".join(str(entry) for stage in renamed for entry in stage.entries)
    assert "Free 1 NM" in texts
    assert "Weld on S: free south-main" in texts
    assert "repair='H'" in texts


def test_a_battery_that_must_show_more_than_full_is_charged_whatever_it_reads() -> None:
    frozen = with_trip(coldest_c=-25, hottest_c=-5)
    over = "Full reads less: charge each in any case."
    for case, note in ((frozen, over), (whole(), "")):
        assert {battery.over_full for battery in of(case).bank} == {bool(note)}
        notes = [s.note for stage in worded(of(case)) for s in stage.steps if s.do is Task.READ_AFTER_ALL]
        assert notes == [note]
    assert all(battery.after_v > battery.go_v for battery in of(frozen).bank)  # full is what it may go at


def test_who_is_alone_opens_the_circuit_and_calls_to_nobody() -> None:
    said = {}
    for people in (1, 2):
        *_, wrong = worded(of(with_trip(people=people)))
        said[people] = [entry.then for entry in wrong.entries if isinstance(entry, WordedTrouble)]
    assert "Open. Water, then extinguisher." in said[1]
    assert [then.replace("“", "").replace("”", "") for then in said[2]] == said[1] != said[2]
