"""Reading designations as people write them, and refusing what is none."""

import subprocess
import sys

import pytest

from kitlist.base.errors import BadDesignation
from kitlist.base.terms import Covering, Polarity, Position
from kitlist.welding.designation.a5_1 import classes
from kitlist.welding.designation.designation import StorageFamily, System
from kitlist.welding.designation.designations import decode, known_designations, nearest


@pytest.mark.parametrize(
    "written",
    [
        "E7018-1 H4R",
        "e7018-1h4r",
        "E 7018 - 1 H4 R",
        "E70 18-1 H4R",
        "7018-1 H4R",
        "AWS A5.1: E7018-1 H4R",
        "aws a5.1 E7018–1 H4R",
        "E-7018-1-H4R",
        "  E7018-1 H4R ",
    ],
)
def test_one_rod_is_read_alike_however_it_is_written(written):
    rod = decode(written)
    assert rod.text == "E7018-1 H4R"
    assert rod.strength.tensile_mpa == 490
    assert (rod.toughness.energy_j, rod.toughness.at_c) == (27, -45)
    assert rod.hydrogen_ml_100g == 4
    assert rod.moisture_resistant
    assert rod.covering is Covering.BASIC
    assert rod.ac
    assert rod.polarities == (Polarity.DCEP,)


@pytest.mark.parametrize("name", list(classes()))
def test_every_class_of_a5_1_decodes_fully(name):
    rod = decode(name)
    facts = {fact.label: fact for fact in rod.facts()}
    for label in ("covering", "positions", "current and polarity", "least tensile strength", "toughness", "keep as"):
        assert facts[label].words
        assert str(facts[label].source)
    assert "HOLDER TO" in facts["current and polarity"].words
    assert "WORK CLAMP TO" in facts["current and polarity"].words
    assert rod.table_class == name


def test_every_class_has_the_same_answer_under_its_metric_name():
    for name in classes():
        metric = name.replace("E60", "E43").replace("E70", "E49")
        imperial, si = decode(name), decode(f"AWS A5.1M {metric}")
        assert si.table_class == imperial.table_class == name
        assert si.strength == imperial.strength
        assert si.polarities == imperial.polarities


def test_an_australian_rod_is_the_iso_one():
    rod = decode("E4918")
    assert rod.system is System.ISO_2560_B
    assert rod.text == "B-E4918"
    assert {e.text for e in rod.equivalents} >= {"E7018", "E4818"}
    assert decode("AS/NZS 4855-B: E4918") == rod == decode("ISO 2560-B-E4918")


def test_a_u_raises_the_impact_energy_and_keeps_the_temperature():
    assert decode("B-E4918 A U H5").toughness.words == "47 J at −30 °C"
    assert decode("B-E4918-1 A U H5").toughness.words == "47 J at −45 °C"


def test_an_old_australian_packet_is_read_and_called_superseded():
    rod = decode("E4816-2 H10")
    assert "superseded" in rod.system.value
    assert rod.strength.tensile_mpa == 480
    assert rod.polarities == (Polarity.DCEP,)
    assert rod.table_class == "E7016"
    assert rod.strength.yield_mpa is None


def test_iso_a_is_a_grammar():
    rod = decode("E 46 3 1Ni B 5 4 H5")
    assert rod.text == "E 46 3 1Ni B 54 H5"
    assert (rod.strength.yield_mpa, rod.strength.tensile_mpa, rod.strength.tensile_most_mpa) == (460, 530, 680)
    assert rod.toughness.words == "47 J at −30 °C"
    assert rod.positions == (Position.FLAT,)
    assert rod.recovery_words == "recovery over 125 to 160 %, AC and DC"
    assert [s.mark for s in rod.suffixes] == ["1Ni", "H5"]


@pytest.mark.parametrize("written", ["E 42 4 B 32 H5", "E424B32H5", "e 42-4-b-32-h5", "EN ISO 2560-A: E 42 4 B 3 2 H5"])
def test_iso_a_is_read_alike_however_it_is_spaced(written):
    assert decode(written).text == "E 42 4 B 32 H5"


def test_iso_a_z_may_stand_for_impact_or_for_alloy():
    assert decode("E 42 Z B 32").toughness.energy_j is None
    assert [s.mark for s in decode("E 42 4 Z B 32").suffixes] == ["Z"]
    assert [s.mark for s in decode("E 42 Z Z B 32").suffixes] == ["Z"]


def test_iso_a_never_claims_a_polarity():
    rod = decode("E 42 4 B 42 H5")
    assert rod.polarities == ()
    assert "read it on the packet" in rod.current_words


def test_iso_a_without_its_optional_digits_leaves_current_and_positions_open():
    rod = decode("E 42 4 B")
    assert rod.ac is None
    assert rod.positions == ()
    assert rod.table_class is None
    assert "read them on the packet" in rod.current_words


def test_a_position_rule_hangs_on_the_covering():
    assert decode("E7018").largest_all_position_mm == 4.0
    assert decode("E6013").largest_all_position_mm == 5.0
    assert decode("E7024").largest_all_position_mm is None


def test_high_iron_oxide_leaves_a_choice_only_lying_flat():
    rod = decode("E6027")
    assert rod.polarities == (Polarity.DCEN,)
    assert set(rod.flat_polarities) == {Polarity.DCEP, Polarity.DCEN}
    assert "lying flat also HOLDER TO +" in rod.current_words


def test_the_last_digit_alone_does_not_decide():
    assert decode("E6020").covering is Covering.IRON_OXIDE
    assert decode("E6010").covering is Covering.CELLULOSIC


def test_military_rods_are_kept_on_their_own():
    rod = decode("E7018-M")
    assert rod.text == "E7018M"
    assert rod.storage is StorageFamily.BASIC_MILITARY
    assert rod.ac is False


@pytest.mark.parametrize(("alloy", "tensile_mpa"), [("312", 660), ("309L", 520), ("316L", 490), ("310", 550)])
def test_stainless_rods_for_unknown_steel_are_recognised(alloy, tensile_mpa):
    rod = decode(f"E{alloy}-16")
    assert rod.covering is Covering.STAINLESS
    assert rod.strength.tensile_mpa == tensile_mpa
    assert "from memory" in str(rod.strength.source)


@pytest.mark.parametrize(
    ("written", "position", "near"),
    [
        ("E7081", 4, "E7018"),
        ("E7019", 4, "E7018"),
        ("E6013-1", 7, "E6013"),
        ("E7018 H5", 7, "E7018"),
        ("B-E4918 H4", 9, "E4918"),
        ("E70181", 6, "E7018-1"),
        ("E7018/1", 6, "E7018-1"),
        ("E7018-", 6, "E7018"),
        ("E7018--1", 7, "E7018-1"),
        ("7018x", 5, "E7018"),
        ("E6013 H4", 7, "E6013"),
        ("E7018-1M", 8, "E7018-1"),
        ("E11018", 2, "E7018"),
        ("E 42 4 Q 32", 8, "E 42 4 B 12"),
        ("E 42 4 B 92", 10, "E 42 4 B 42"),
        ("E 38 0 RC 11 H5", 14, "E 38 0 RC 11"),
        ("E７018", 2, "E7018"),
        ("ISO 2560-A: E7018", 14, None),
        ("AWS A5.1 B-E4918", 10, None),
        ("", 1, None),
        ("   ", 4, None),
        ("E", 2, None),
        ("rods", 1, None),
    ],
)
def test_what_is_no_designation_is_refused_at_its_place(written, position, near):
    with pytest.raises(BadDesignation) as caught:
        decode(written)
    assert caught.value.position == position
    assert f"at character {position}" in caught.value.message
    assert caught.value.hint
    if near is not None:
        assert near in caught.value.nearest


def test_hydrogen_marks_of_the_wrong_standard_are_named_as_such():
    with pytest.raises(BadDesignation, match="AWS marks hydrogen H4, H8 or H16"):
        decode("E7018 H10")
    with pytest.raises(BadDesignation, match="ISO marks hydrogen H5, H10 or H15"):
        decode("B-E4918 H16")


def test_a_hydrogen_mark_is_never_made_tighter_in_another_system():
    order = [4, 5, 8, 10, 15, 16]
    for written in ("E7018 H4", "E7018 H8", "E7018 H16", "B-E4918 H5", "B-E4918 H10", "B-E4918 H15", "E7018"):
        rod = decode(written)
        for other in rod.equivalents:
            held = decode(other.text).hydrogen_ml_100g
            if rod.hydrogen_ml_100g is None:
                assert held is None, other
            elif held is not None:
                assert order.index(int(held)) >= order.index(int(rod.hydrogen_ml_100g)), other


def test_every_known_designation_and_every_equivalent_decodes():
    for name in known_designations():
        for other in decode(name).equivalents:
            assert decode(other.text)


def test_reading_what_was_printed_gives_the_same_rod():
    for name in known_designations():
        rod = decode(name)
        assert decode(rod.text) == rod


def test_near_names_prefer_swapped_digits():
    assert nearest("E7081")[0] == "E7018"
    assert nearest("6031")[0] == "E6013"


def test_decoding_loads_nothing_heavy():
    code = (
        "import sys; from kitlist.welding.designation.designations import decode; decode('E7018-1 H4R');"
        "heavy = {'sqlmodel', 'sqlite_utils', 'weasyprint', 'pydantic', 'jinja2', 'typer', 'difflib', 'numpy'};"
        "print(sorted(heavy & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("A5.1M E4313", "E4313"),
        ("AWS A5.1/A5.1M: E4918", "E4918"),
        ("SFA-5.1 E7018", "E7018"),
        ("ASME SFA 5.1 E7018-1", "E7018-1"),
        ("AWS A5.1:2012 E6013", "E6013"),
        ("A5.4 E309L-16", "E309L-16"),
        ("AWS A5.4/A5.4M E312-17", "E312-17"),
        ("EN 499 E 42 0 RR 12", "E 42 0 RR 12"),
        ("ISO 2560-A:2020 E 42 0 RR 12", "E 42 0 RR 12"),
        ("E6013 (AWS A5.1)", "E6013"),
        ("E6013 / E 42 0 RR 12", "E6013"),
        ("E 42 0 RR 12 / E6013", "E6013"),
    ],
)
def test_a_standard_is_named_as_packets_name_it(written: str, read: str) -> None:
    assert decode(written).text == read


def test_two_kinds_of_rod_under_one_name_are_refused() -> None:
    with pytest.raises(BadDesignation, match="two kinds: E6013 and E7018"):
        decode("E6013 / E7018")
