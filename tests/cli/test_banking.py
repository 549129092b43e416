"""bank, charge, bead, decode, repairs, rod: the demo's answers, and what is refused."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

import running
from running import Done

NONSENSE = ("rest=12.7", "bank-v=12.9", "current=90")
ON = ("--on", "2027-05-05")


def kitlist(store: Path, *words: str) -> Done:
    return running.kitlist(*words, store=store)


def test_the_demo_s_best_bank_is_the_mixed_one_with_its_warnings_and_the_failing_battery_is_refused(demo: Path) -> None:
    answer = json.loads(kitlist(demo, "bank", *ON, "--json").stdout)
    best = answer["banks"][0]
    assert set(best["strings"][0]) == {"heron-main", "plover-main", "plover-second"}
    assert any("mixed chemistry" in warning for warning in best["warnings"])
    assert [entry["battery"] for entry in answer["refused"]] == ["stilt-main"]
    assert answer["changes"]


def test_every_link_comes_with_the_reading_to_expect_and_the_last_joint_is_never_at_a_post(demo: Path) -> None:
    said = " ".join(kitlist(demo, "bank", *ON).stdout.split())
    assert "heron-main + to plover-main −. Meter from heron-main − to plover-main +: " in said
    assert "plover-main + to plover-second −. Meter from heron-main − to plover-second +: " in said
    assert said.index("25.6 V by their readings") < said.index("38.4 V by their readings")
    assert (
        said.index("Isolator open, in HOLDER lead")
        < said.index("heron-main + to plover-main −")
        < said.index("closes the isolator")
    )
    assert "never a spark at a post" in said
    assert "Local codes and licensed practice come first" in said
    undo = said[said.index("Undo and move.") :]
    assert undo.index("Say “open”") < undo.index("Take the rod out") < undo.index("Links off, last one first")


def test_a_chosen_bank_is_kept_on_the_trip(demo: Path) -> None:
    kitlist(demo, "trip", "edit", "Dry", "bank=none", "bank-strings=1")
    kitlist(demo, "trip", "edit", "Dry", "bank=plover-main,heron-main")
    done = kitlist(demo, "bank", *ON, "--choose", "1", "--json")
    assert json.loads(done.stdout)["chosen"] == [json.loads(done.stdout)["banks"][0]["strings"][0]]
    trip = json.loads(kitlist(demo, "trip", "show", "Dry", "--json").stdout)
    assert len(trip["bank"]) == 3


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("bank", *ON, "--choose", "9"), 2, "there is no bank 9"),
        (("bank", *ON, "--four"), 3, "only with ballast"),
        (("bank", *ON, "--ballast", "much"), 3, "is not a number"),
        (("bank", *ON, "--chart", "chart.png"), 2, "does not end in .svg"),
        (("decode", "E7081"), 3, "at character 4"),
        (("decode", "hello"), 3, "designation"),
        (("rod", "used", "general", "99"), 3, "it holds 28"),
        (("rod", "opened", "strong"), 3, "was opened on 2026-10-30"),
        (("rod", "opened", "strong", "--into", "bucket"), 3, "must be one of"),
        (("repair", "pick", "moon landing"), 4, "no typical repair"),
        (("bead", "add", "b", "welded-on=2027-05-01", "bank=heron-main", *NONSENSE), 3, "rose"),
    ],
)  # fmt: skip
def test_wrong_words_get_a_sentence(demo: Path, words: tuple[str, ...], code: int, said: str) -> None:
    done = kitlist(demo, *words)
    assert done.returncode == code
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_a_bank_without_readings_leads_or_rods_is_an_answer_with_reasons(tmp_path: Path) -> None:
    store = tmp_path / "bare.db"
    kitlist(store, "start")
    kitlist(store, "trip", "add", "Bare", "starts-on=2027-05-08", "ends-on=2027-05-09")
    done = kitlist(store, "bank", *ON)
    assert done.returncode == 0
    assert "No bank can be looked for" in done.stdout
    assert "no holder lead is packed" in done.stdout


def test_the_chart_is_an_svg_with_the_bands_of_two_three_and_four(demo: Path, tmp_path: Path) -> None:
    out = tmp_path / "chart.svg"
    assert kitlist(demo, "bank", *ON, "--chart", str(out), "--no-steps").returncode == 0
    drawn = "".join(ElementTree.parse(out).getroot().itertext())
    for words in ("Two in series", "Three in series", "Four in series", "3.2 mm E6013"):
        assert words in drawn


def test_sources_name_every_figure_that_was_used_and_no_other(demo: Path) -> None:
    from kitlist.physics import figures

    said = " ".join(kitlist(demo, "bank", *ON, "--sources", "--no-steps").stdout.split())
    used = (figures.CRANK_VOLTS, figures.ARC_FOOT_V, figures.ACTIVATION_V, figures.KINETIC_C, figures.RESERVE_WARM)
    assert all(" ".join(figure.name.split()) in said for figure in used)
    assert figures.CLAMP_METER_RATIO.name not in said
    assert "common practice" in said
    assert "cold capacity" in said


def test_the_charge_plan_names_days_and_says_each_alone(demo: Path) -> None:
    answer = json.loads(kitlist(demo, "charge", *ON, "--json").stdout)
    assert (answer["charge_by"], answer["read_on"], answer["rest_h"]) == ("2027-05-05", "2027-05-07", 24)
    do = {line["name"]: line["do"] for line in answer["batteries"]}
    assert (do["stilt-main"], do["heron-main"]) == ("replace or test", "top up")
    assert "never as a string" in kitlist(demo, "charge", *ON).stdout


def test_a_practice_weld_narrows_the_band_by_half_and_is_listed_against_what_was_predicted(demo: Path) -> None:
    def width() -> float:
        low, _, high = json.loads(kitlist(demo, "ready", *ON, "--json").stdout)["rods"][0]["current_a"]
        return float(high - low)

    before = width()
    readings = ("rest=38.3", "bank-v=32.6", "current=176", "holder=30.1")
    bank = "bank=heron-main,plover-main,plover-second"
    assert kitlist(demo, "bead", "add", "test 1", "welded-on=2027-05-05", bank, *readings).returncode == 0
    assert width() < before / 2
    (bead,) = json.loads(kitlist(demo, "bead", "list", "--json").stdout)
    assert (bead["measured_a"], bead["inside"]) == (176, True)


def test_decode_says_polarity_at_both_ends_and_where_it_comes_from() -> None:
    done = kitlist(Path("unused"), "decode", "e7018-1", "h4r", "--sources")
    assert "HOLDER TO +, WORK CLAMP TO −" in done.stdout
    assert "AWS A5.1" in done.stdout
    assert json.loads(kitlist(Path("unused"), "decode", "E6013", "--json").stdout)["polarities"] == ["DCEP", "DCEN"]


def test_the_slip_about_polarity_is_caught_and_shown_at_both_ends() -> None:
    done = kitlist(Path("unused"), "decode", "E6011", "--work", "+", "--said", "DCEP")
    assert "Called DCEP but wired DCEN: HOLDER TO −, WORK CLAMP TO +" in done.stderr
    assert "E6011 needs HOLDER TO +, WORK CLAMP TO −" in done.stderr
    assert kitlist(Path("unused"), "decode", "E6011", "--holder", "sideways").returncode == 3
    assert kitlist(Path("unused"), "decode", "E6011", "--said", "DCEP").returncode == 2


def test_a_bank_that_holds_no_arc_gets_no_card_and_is_told_why(demo: Path, tmp_path: Path) -> None:
    out = ("--out", str(tmp_path / "two.pdf"))
    one = kitlist(demo, "print", "card", *ON, "--bank", "plover-main", *out)
    assert (one.returncode, "one battery never holds an arc" in one.stderr) == (1, True)


def test_the_demo_s_matrix_has_a_cell_of_every_kind(demo: Path) -> None:
    matrix = {row["repair"]: row for row in json.loads(kitlist(demo, "repairs", *ON, "--json").stdout)}
    classes = {row["class"] for row in matrix.values()}
    assert {"sound", "get home then rework", "never"} <= classes
    assert matrix["stilt spring hanger"]["rods"][0]["suits"] == "too hot"  # 5 mm; the bank asks for more
    assert matrix["heron rack leg"]["best_rod"] is None
    assert all(cell["reasons"] for row in matrix.values() for cell in row["rods"])


def test_what_happens_to_rods_is_kept(demo: Path) -> None:
    from kitlist.store import Store
    from kitlist.store.rod_events import history

    assert "25 left" in kitlist(demo, "rod", "used", "general", "3").stderr
    assert "baked 1 time" in kitlist(demo, "rod", "baked", "strong", "--on", "2027-05-04").stderr
    assert [(e.what, e.count) for e in history(Store(demo), "general")] == [("used", 3)]
    assert [e.what for e in history(Store(demo), "strong")] == ["baked"]
    shown = json.loads(kitlist(demo, "rod", "show", "strong", "--json").stdout)
    assert (shown["bakes"], shown["opened_on"]) == (1, "2027-05-04")


def test_a_typical_repair_can_be_picked(demo: Path) -> None:
    assert "spring hanger, torn" in kitlist(demo, "repair", "pick").stdout
    assert kitlist(demo, "repair", "pick", "shock", "--vehicle", "her").returncode == 0
    shown = json.loads(kitlist(demo, "repair", "show", "her shock", "--json").stdout)
    assert (shown["part"], shown["vehicle"]) == ("shock mount", "Heron")


def test_with_a_stop_standing_the_steps_begin_with_it(demo: Path) -> None:
    said = " ".join(kitlist(demo, "bank", *ON).stdout.split())
    stop = json.loads(kitlist(demo, "ready", *ON, "--json").stdout)["gaps"][0]
    assert stop["severity"] == "stop"
    assert f"Do not link it: {stop['what']}, and" in said
    assert said.index("Do not link it") < said.index("Link. 1 h or more")


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("pick", "fuel tank"), "NEVER weld it: fuel or gas part. Never in the field, however empty: vapour explodes."),
        (("pick", "wheel rim", "--vehicle", "her"), "NEVER weld it: wheel."),
        (("add", "old rim", "part=front wheel"), "NEVER weld it: wheel."),
        (("edit", "trailer drawbar", "part=LPG tank"), "NEVER weld it: fuel or gas part."),
    ],
)
def test_a_repair_that_must_never_be_welded_says_so_at_once_and_is_kept(
    demo: Path, words: tuple[str, ...], why: str
) -> None:
    done = kitlist(demo, "repair", *words)
    assert (done.returncode, done.stdout) == (0, "")
    assert why in done.stderr
    assert "usual, not measured" not in done.stderr


def test_a_repair_that_may_be_welded_or_is_not_known_says_nothing_of_never(demo: Path) -> None:
    for words in (("pick", "spring hanger"), ("add", "x", "part=thing"), ("edit", "wheel rim", "thickness=6mm")):
        assert "NEVER" not in kitlist(demo, "repair", *words).stderr


def test_a_galvanised_repair_is_told_of_its_zinc_whatever_rod_it_is(demo: Path) -> None:
    said = " ".join(kitlist(demo, "repairs", *ON).stdout.split())
    assert "zinc" not in said
    kitlist(demo, "repair", "edit", "heron rack leg", "steel=galvanised")
    said = " ".join(kitlist(demo, "repairs", *ON).stdout.split())
    assert "Grind the zinc off to bare steel 50 mm each side" in said
    assert "weld upwind, in a P2, FFP2 or better mask" in said
