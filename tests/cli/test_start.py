"""The guided start: from nothing to a verdict and a sheet; stopped anywhere it goes on; nothing is filled in."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from first_hour import ALL, HERON, KIT, LEADS, ON_LABELS, PLOVER, RODS, SETTINGS, TRIP
from terminal import Terminal

import running
from kitlist.base.errors import BadFile
from kitlist.kit import Kit
from kitlist.store import Store, settings, starting
from kitlist.store.snapshot import snapshot
from running import Done


def start(*answers: str, store: Path) -> Done:
    """Somebody at a terminal who gives these answers, and then pulls the plug."""
    typed = "".join(f"{answer}\n" for answer in answers)
    return running.kitlist("start", store=store, typed=typed, terminal=True, cwd=store.parent, env={"COLUMNS": "60"})


def kit(store: Path) -> Kit:
    return snapshot(Store(store))


def exported(store: Path) -> Any:
    """The kit as its export has it, without the moments of the readings."""
    out = store.with_suffix(".json")
    running.kitlist("export", str(out), "--replace", store=store)
    told = json.loads(out.read_text(encoding="utf-8"))
    told.pop("journal", None)
    for reading in told.get("reading", ()):
        reading.pop("taken_at")
    return told


def test_from_nothing_to_a_verdict_and_a_sheet_in_seventy_answers(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start(*ALL, store=store)
    assert len(ALL) + ON_LABELS <= 70
    assert (done.returncode, "Error" in done.stderr, "must be" in done.stderr) == (0, False, False)
    assert "NOT READY" in done.stdout
    assert "3 of 3 batteries recorded." in done.stdout
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")
    assert all(len(line) <= 60 for line in done.stdout.splitlines() if "> kitlist" not in line)


def test_what_was_answered_is_what_is_kept(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    start(*ALL[:-1], store=store)
    found = kit(store)
    assert [v.name for v in found.vehicles] == ["Heron", "Plover"]
    main = found.battery["heron-main"]
    assert (main.chemistry, main.c20_ah, main.cranking_a, main.cranking_standard) == ("calcium", 75, 720, "en")
    assert (main.condition, main.terminals, main.sits, main.stays_connected) == ("sound", "post", "bonnet", False)
    leads = {lead.name: (lead.count, lead.length_m, lead.conductor) for lead in found.leads}
    assert leads == {"links": (4, 3, "copper"), "holder lead": (1, 5, "copper"), "work lead": (1, 4, "copper")}
    (trip,) = found.trips
    assert (trip.vehicles, trip.people, trip.coldest_c, trip.wet) == (("Heron", "Plover"), 4, -6, False)
    assert {r.battery: r.rested_h for r in found.readings} == dict.fromkeys(found.battery, 8)


def test_the_same_label_as_copies_what_stands_on_it_and_nothing_that_the_eye_sees(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    start(*HERON, *PLOVER[:4], store=store)
    copied = kit(store).battery["plover-main"]
    assert (copied.chemistry, copied.c20_ah, copied.cranking_a, copied.terminals) == ("calcium", 75, 720, "post")
    assert (copied.condition, copied.in_service_since, copied.sits) == ("unknown", None, "unknown")


@pytest.mark.parametrize("after", [1, 4, 9, 21, 33, 42, 50])
def test_stopped_after_any_answer_the_same_command_goes_on_there(tmp_path: Path, after: int) -> None:
    one, two = tmp_path / "one.db", tmp_path / "two.db"
    start(*KIT, store=one)
    start(*KIT[:after], store=two)
    done = start(*KIT[after:], store=two)
    assert "must be" not in done.stderr
    assert exported(two) == exported(one)


def test_enter_alone_leaves_everything_not_known(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    start("Heron", *("",) * 40, store=store)
    found = kit(store)
    battery = found.battery["heron-main"]
    assert (battery.chemistry, battery.condition, battery.terminals, battery.sits) == ("unknown",) * 4
    assert (battery.c20_ah, battery.cranking_a, battery.stays_connected, battery.in_service_since) == (None,) * 4
    assert all(thing.count == 0 for thing in (*found.leads, *found.rods, *found.gear, *found.tools))
    assert all(lead.area_mm2 is None and lead.length_m is None for lead in found.leads)


def test_back_asks_the_question_before_again_and_a_name_can_be_put_right(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start("Hron", "<", "Heron", "24", "<", "twin", store=store)
    assert "Its name (Hron):" in done.stderr
    (vehicle,) = kit(store).vehicles
    assert (vehicle.name, vehicle.system_v, vehicle.start_batteries) == ("Heron", 12, "twin")


def test_back_at_the_trips_name_goes_to_the_rods_and_its_days_can_be_put_right(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    before = KIT[: -len(TRIP + SETTINGS)]
    start(*before, "<", "damp", "Dry lake", "2099-05-08", "2099-05-01", "2099-05-10", "<", "2099-05-11", store=store)
    (trip,) = kit(store).trips
    assert (trip.name, str(trip.starts_on), str(trip.ends_on)) == ("Dry lake", "2099-05-08", "2099-05-11")
    assert [rod.condition for rod in kit(store).rods] == ["damp"]


def test_back_at_the_count_and_at_the_readings_goes_to_the_part_before(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start(*KIT, "<", "Bo", "n", "<", "<", "Cy", "n", "n", store=store)
    assert done.stderr.count("Who types here") == 3
    assert settings.of(Store(store)).by == "Cy"


@pytest.mark.parametrize("word", ["y", "N", "yes", "no", "none"])
def test_yes_and_no_are_no_names_and_the_name_is_asked_again(tmp_path: Path, word: str) -> None:
    store = tmp_path / "kit.db"
    done = start(word, "Heron", "", word, "heron-main", *("",) * 3, word, "", "", "", store=store)
    assert done.stderr.count("is no name for") == 3
    found = kit(store)
    assert ([v.name for v in found.vehicles], list(found.battery)) == (["Heron"], ["heron-main"])


def test_a_question_mark_is_never_an_answer(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start("?", "Heron", "?", "", "?", "", store=store)
    assert done.stderr.count("A short name") == 2
    assert "Look for two" in done.stderr
    found = kit(store)
    assert ([v.name for v in found.vehicles], list(found.battery)) == (["Heron"], ["heron-main"])


def test_brackets_hold_what_enter_takes_and_nothing_else(tmp_path: Path) -> None:
    done = start(*ALL[:-1], store=tmp_path / "kit.db")
    brackets = re.findall(r"\(([^)]*)\):", " ".join(done.stderr.split()))
    assert set(brackets) == {
        "single",
        "heron-main",
        "plover-main",
        "post-clamp and holder",
        "post-clamp and post-clamp",
        "post-clamp and work-clamp",
        "metric, A4",
    }


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        ("wet 75Ah", "What is inside: 'wet': write flooded where its caps open"),
        ("75 agm", "75 of what? Say the unit. Wanted: what is inside, capacity, cranking amps"),
        ("agm 9999Ah", "Capacity: '9999Ah': must be a number from 5 to 400 Ah"),
        ("agm 680A", "needs its standard"),
        ("Ca 680A", "can be read two ways"),
        ("banana", "'banana' is not understood here"),
        ("agm 24V", "'24V' is not understood here"),
    ],
)
def test_what_cannot_be_taken_is_said_in_the_questions_words_and_asked_again(
    tmp_path: Path, answer: str, said: str
) -> None:
    store = tmp_path / "kit.db"
    done = start(*HERON[:3], answer, "calcium 75Ah", store=store)
    talk = " ".join(done.stderr.split())
    assert said in talk
    assert not re.search(r"c20_ah|cranking_a\b|area_mm2", talk)
    battery = kit(store).battery["heron-main"]
    assert (battery.chemistry, battery.c20_ah) == ("calcium", 75)


@pytest.mark.parametrize(
    ("answer", "area_mm2", "said"),
    [
        ("2/0 3m copper", None, "'2/0': write 2/0 AWG"),
        ("2/0 AWG, 3 m, tinned", 67.4, ""),
        ("copper 12ft 378x0.3", 26.7, ""),
        ("35 3m copper", None, "35 of what? Say the unit"),
    ],
)
def test_a_cable_is_taken_as_people_write_it_or_answered_with_how(
    tmp_path: Path, answer: str, area_mm2: float | None, said: str
) -> None:
    store = tmp_path / "kit.db"
    before = KIT[: -len(LEADS + RODS + TRIP + SETTINGS)]
    done = start(*before, "1", "", answer, store=store)
    assert said in " ".join(done.stderr.split())
    lead = next(lead for lead in kit(store).leads if lead.count)
    assert (lead.area_mm2 and round(lead.area_mm2, 1)) == area_mm2


def test_what_a_line_leaves_out_is_asked_for_alone(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start(*HERON[:3], "75Ah", "agm", "", "sound", "", "boot", store=store)
    assert "heron-main, cranking amps and their test" in " ".join(done.stderr.split())
    battery = kit(store).battery["heron-main"]
    assert (battery.chemistry, battery.c20_ah, battery.cranking_a) == ("agm", 75, None)
    assert (battery.condition, battery.terminals, battery.sits) == ("sound", "unknown", "boot")


def test_a_packet_counts_only_where_both_facts_were_read_off_it(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    before = KIT[: -len(RODS + TRIP + SETTINGS)]
    done = start(*before, "E7018-1 H4R", "E7018-1 H4R 2.5", "12", "dry", store=store)
    assert "The diameter too, please" in done.stderr
    (rod,) = kit(store).rods
    assert (rod.designation, rod.diameter_mm, rod.count) == ("E7018-1 H4R", 2.5, 12)


def test_the_ends_of_a_lead_are_put_right(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    before = KIT[: -len(LEADS + RODS + TRIP + SETTINGS)]
    start(*before, "1", "plug", "", "4", "m8 lug", "", "1", "earth clamp and m8 lug", store=store)
    ends = {lead.name: (lead.end_a, lead.end_b) for lead in kit(store).leads}
    assert ends == {
        "holder lead": ("plug", "holder"),
        "links": ("lug-m8", "lug-m8"),
        "work lead": ("work-clamp", "lug-m8"),
    }


def test_a_question_mark_says_where_to_look(tmp_path: Path) -> None:
    done = start(*HERON[:3], "?", store=tmp_path / "kit.db")
    assert "on the top or front label" in done.stderr


def test_a_lithium_battery_is_asked_for_its_electronics_and_for_no_cranking_amps(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start(*HERON[:3], "LiFePO4 100Ah", "y", "sound post boot", store=store)
    assert kit(store).battery["heron-main"].built_in_cutoff is True
    assert "cranking amps and their test" not in " ".join(done.stderr.split())


def test_where_there_is_one_bank_it_is_taken_by_yes(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = start(*ALL[:-2], "y", store=store)
    assert "Take this bank for the trip? y or n:" in done.stderr
    assert kit(store).trips[0].bank == ("heron-main", "plover-main", "plover-second")


def test_the_walk_through_what_is_packed_goes_by_single_keys(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    start(*KIT, store=store)
    running.kitlist("start", store=store, typed="y\n" + "tttt" + "q", terminal=True, cwd=tmp_path)
    assert sum(1 for thing in (*kit(store).gear, *kit(store).tools) if thing.count) >= 3


def test_pulled_out_at_a_real_terminal_every_answer_is_on_disk(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    with Terminal("start", store=store) as person:
        person.until("first vehicle's name:")
        person.press("Heron\n")
        person.until("starting batteries")
        person.kill()
    assert [v.name for v in kit(store).vehicles] == ["Heron"]
    with Terminal("start", store=store) as person:
        person.until("Heron, starting batteries")
        person.press("stop\n")
        person.until("goes on here")
        assert person.ended() == 0


def test_without_a_terminal_nothing_is_asked(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    done = running.kitlist("start", store=store, typed="Heron\n")
    assert (done.returncode, "name:" in done.stderr, kit(store).vehicles) == (0, False, ())
    assert running.kitlist("start", store=store).returncode == 1


def test_a_starter_kit_that_cannot_be_taken_leaves_no_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("[[bag]]\nname = 'a'\n[[gear]]\nname = 'b'\n", encoding="utf-8")
    monkeypatch.setattr(starting, "starter_file", lambda: bad)
    folder = tmp_path / "new"
    with pytest.raises(BadFile):
        starting.start_with_starter(folder / "kit.db")
    assert list(folder.iterdir()) == []


def test_an_empty_store_takes_the_starter_kit_later_and_one_with_things_does_not(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    running.kitlist("start", store=store)
    running.kitlist("vehicle", "add", "Heron", store=store)
    assert "Would" not in running.kitlist("import", "--starter", store=store).stderr
    assert len(kit(store).bags) == 4
    done = running.kitlist("import", "--starter", store=store)
    assert (done.returncode, "in its bags already" in done.stderr) == (3, True)
    assert running.kitlist("import", store=store).returncode == 2


def test_with_no_store_a_person_is_sent_to_the_questions_and_a_script_to_the_starter_kit(tmp_path: Path) -> None:
    store = tmp_path / "kit.db"
    asked = running.kitlist(store=store, terminal=True).stdout
    assert "> kitlist start\n" in asked
    assert asked.index("kitlist start\n") < asked.index("kitlist start --starter")
    assert "> kitlist start --starter\n" in running.kitlist(store=store).stdout
