"""print, as a person types it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from running import kitlist


def printed(store: Path, *words: str, name: str = "paper.txt") -> str:
    out = store.with_name(name)
    done = kitlist("print", *words, "--on", "2027-05-05", "--out", str(out), store=store)
    assert done.returncode == 0, done.stderr
    return " ".join(out.read_text(encoding="utf-8").split())


def test_a_second_sheet_marks_what_changed_since_the_first_and_a_reprint_is_the_same_paper(demo: Path) -> None:
    first = printed(demo, "sheet")
    assert "changed since" not in first
    kitlist("tool", "edit", "shovel", "count=2", store=demo)
    second = printed(demo, "sheet")
    assert "changed since revision 1 of 2027-05-05" in second
    assert re.search(r"\*\[ \] \d+\. Shovel", second)
    assert not re.search(r"\*\[ \] \d+\. Grinder", second)
    assert printed(demo, "sheet") == second


def test_a_card_whose_kit_changed_is_a_gap_until_it_is_printed_again(demo: Path) -> None:
    def card_gap() -> bool:
        return "(kitlist why card-out-of-date)" in kitlist("ready", "--on", "2027-05-05", store=demo).stdout

    printed(demo, "card")
    assert not card_gap()
    kitlist("volts", "heron-main", "12.60", "--rested", "12h", "--at", "2027-05-05T12:00", store=demo)
    assert not card_gap()
    kitlist("tool", "edit", "isolator", "count=0", store=demo)
    kitlist("lead", "edit", "holder lead", "end-a=plug", store=demo)
    assert card_gap()
    printed(demo, "card")
    assert not card_gap()


def test_a_pocket_page_is_remembered_and_one_of_an_older_kit_is_a_gap_until_it_is_made_again(demo: Path) -> None:
    def page_gap() -> bool:
        return "(kitlist why pocket-page-out-of-date)" in kitlist("ready", "--on", "2027-05-05", store=demo).stdout

    def make() -> None:
        out = demo.with_name("pocket.html")
        assert kitlist("print", "pocket", "--on", "2027-05-05", "--out", str(out), store=demo).returncode == 0

    make()
    assert not page_gap()
    kitlist("tool", "edit", "isolator", "count=0", store=demo)
    kitlist("lead", "edit", "holder lead", "end-a=plug", store=demo)
    assert page_gap()
    make()
    assert not page_gap()


def test_a_card_of_another_bank_can_be_printed_and_both_hold(demo: Path) -> None:
    assert "Free 3 plover-second" in printed(demo, "card")
    other = printed(demo, "card", "--bank", "plover-m,plover-s,heron")
    assert "Free 3 heron-main" in other
    assert "rev 2" in other
    assert "card-out-of-date" not in kitlist("ready", "--on", "2027-05-05", store=demo).stdout


def test_a_card_of_a_bank_that_may_not_be_linked_is_refused_with_the_reason_and_the_cure(demo: Path) -> None:
    done = kitlist("print", "card", "--bank", "heron,plover-m,stilt", store=demo)
    assert done.returncode != 0
    assert "no card is printed for this bank: a battery of this bank must not weld: stilt-main" in done.stderr
    assert "kitlist bank" in done.stderr


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["print", "card", "--bank", "heron,heron"], 2, "a battery stands in the bank twice"),
        (["print", "card", "--bank", "heron,nothing"], 4, "nothing"),
        (["print", "card", "--bank", "heron,plover-m,plover-s", "--strings", "2"], 2, "equal strings"),
        (["print", "card", "--bank", ","], 2, "no battery is named"),
        (["print", "sheet", "--out", "sheet.doc"], 2, "ends in none of"),
        (["print", "sheet", "--paper", "A3"], 2, "no paper is called"),
    ],
)
def test_what_cannot_be_printed_is_said_in_a_sentence(demo: Path, words: list[str], code: int, said: str) -> None:
    done = kitlist(*words, store=demo)
    assert done.returncode == code
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_labels_show_polarity_and_history_and_the_form_asks_for_the_crew_s_batteries(demo: Path) -> None:
    kitlist("rod", "baked", "strong rods", "--on", "2027-05-04", store=demo)
    labels = printed(demo, "labels")
    assert "3.2 MM E7018" in labels
    assert "HOLDER TO +, WORK CLAMP TO −" in labels
    assert "once, 2027-05-04" in labels
    assert "Long link" in labels
    form = printed(demo, "form")
    places = [form.index(words) for words in ("Rested how long", "heron-main (Heron)", "stilt-main (Stilt)", "Rest, V")]
    assert places == sorted(places)


def test_the_form_s_columns_for_practice_welds_stand_in_the_order_of_the_command_s_own_help(demo: Path) -> None:
    told = kitlist("bead", "add", "--help", store=demo).stdout
    fields = [line.split(":")[0].strip() for line in told.splitlines() if line.startswith("  ") and ":" in line]
    fields = [field for field in fields if field in {"welded-on", "bank", "rod", "rest", "bank-v", "current", "holder"}]
    form = printed(demo, "form")
    headings = ["Day", "Bank, by", "Rod", "Rest, V", "Bank, V", "Amps, A", "Holder, V"]
    places = [form.index(heading) for heading in headings]
    assert places == sorted(places)
    assert fields == ["welded-on", "bank", "rod", "rest", "bank-v", "current", "holder"]


def test_all_trips_are_printed_into_a_folder_each_under_a_name_of_its_own(demo: Path, tmp_path: Path) -> None:
    for name in ("Coast: out/back", "coast out back"):
        done = kitlist("trip", "add", name, "starts-on=2027-06-01", "ends-on=2027-06-03", "vehicles=Heron", store=demo)
        assert done.returncode == 0, done.stderr
    folder = tmp_path / "sheets"
    done = kitlist("print", "sheet", "--all-trips", "--on", "2027-05-05", "--out", str(folder), store=demo)
    assert done.returncode == 0, done.stderr
    assert {path.name for path in folder.iterdir()} == {
        "coast-out-back.pdf", "coast-out-back-2.pdf", "dry-lake-survey.pdf"
    }  # fmt: skip
    assert "Wrote 3 sheets" in done.stderr


def test_the_sheet_says_what_is_left_to_do_by_which_day_and_not_what_is_done(demo: Path) -> None:
    first = printed(demo, "sheet")
    assert "WHAT IS LEFT TO DO, BY DAY" in first
    assert "2027-05-01 late Ask the fire authority" in first
    assert "Print the glovebox card" in first
    assert "Print the sheet" not in first
    printed(demo, "card", name="card.txt")
    assert "Print the glovebox card" not in printed(demo, "sheet")


def test_the_fire_authority_and_its_words_stand_on_the_sheet(demo: Path) -> None:
    kitlist("trip", "edit", "Dry", "fire-authority=lake ranger, by radio", store=demo)
    asked = printed(demo, "sheet")
    assert "Fire rules: ask lake ranger, by radio" in asked
    assert "Ask lake ranger, by radio whether welding is allowed" in asked
    answer = "fire-answer=Not after noon, 20 L of water beside it"
    kitlist("trip", "edit", "Dry", "fire-rules=with-conditions", "fire-rules-asked-on=2027-05-04", answer, store=demo)
    told = printed(demo, "sheet")
    assert "Not after noon, 20 L of water beside it" in told
    assert "whether welding is allowed" not in told


def test_the_sheet_draws_each_battery_over_time_and_says_what_it_loses(demo: Path) -> None:
    told = printed(demo, "sheet", "--annex", name="sheet.html")
    assert told.count("rested volts over time") == 3
    assert "stilt-main: Losing 29 % a week" in told


def test_guests_with_long_names_go_by_their_numbers_on_the_card(demo: Path) -> None:
    whose = "of Bartholomew Featherstone-Haugh"
    for name in ("Heron", "Plover", "Stilt"):
        kitlist("vehicle", "edit", name, f"name={name} {whose}", store=demo)
    for name in ("heron-main", "plover-main", "plover-second"):
        assert kitlist("battery", "edit", name, f"name={name} {whose}", store=demo).returncode == 0
    card = printed(demo, "card", name="card.pdf.txt")
    assert len(set(re.findall(r"Free \d (.*?): 2 leads off", card))) == 3
    assert "Link 1 + to 2 −" in card
    done = kitlist("print", "card", "--on", "2027-05-05", "--out", str(demo.with_name("card.pdf")), store=demo)
    assert done.returncode == 0, done.stderr


def test_rods_that_must_be_baked_say_so_on_the_sheet_beside_what_the_bank_is_for_them(demo: Path) -> None:
    told = printed(demo, "sheet")
    assert "3.2 mm E7018, 115–160 A: hot; bake first" in told
    assert "3.2 mm E6013, 80–130 A: hot;" not in told


def test_the_sheet_is_to_be_printed_again_after_a_reading_of_the_same_day(demo: Path) -> None:
    def done() -> bool:
        listed = json.loads(kitlist("next", "--all", "--on", "2027-05-05", "--json", store=demo).stdout)
        return next(action["done"] for action in listed if action["word"] == "print sheet")

    before = done()
    printed(demo, "sheet")
    assert (before, done()) == (False, True)
    taken = ("heron-main", "12.73", "--at", "2027-05-05T09:00", "--rested", "16h", "--temp", "9")
    assert kitlist("volts", *taken, store=demo).returncode == 0
    assert not done()
