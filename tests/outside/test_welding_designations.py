"""AWS A5.1 and ISO 2560 row by row, typed here from published guides to the standards and not from the tables."""

import pytest

from kitlist.base.terms import Polarity, Position
from kitlist.welding.designation.designations import decode

# A rod maker's catalogue guide to AWS A5.1: tensile, yield MPa, elongation %, J / deg C, position digit, AC, DC.
A5_1 = """
E6010 430 330 22 27/-30 1 - +
E6011 430 330 22 27/-30 1 x +
E6012 430 330 17 - 1 x -
E6013 430 330 17 - 1 x +/-
E6019 430 330 22 27/-20 1 x +/-
E6020 430 330 22 - 2 x +/-
E6022 430 - - - 2 x -
E6027 430 330 22 27/-30 2 x +/-
E7014 490 400 17 - 1 x +/-
E7015 490 400 22 27/-30 1 - +
E7016 490 400 22 27/-30 1 x +
E7018 490 400 22 27/-30 1 x +
E7018M 490 365 24 67/-30 1 - +
E7024 490 400 17 - 2 x +/-
E7027 490 400 22 27/-30 2 x +/-
E7028 490 400 22 27/-20 2 x +
E7048 490 400 22 27/-30 4 x +
"""
DC = {"+": {Polarity.DCEP}, "-": {Polarity.DCEN}, "+/-": {Polarity.DCEP, Polarity.DCEN}}


def _number(word):
    return None if word == "-" else int(word)


@pytest.mark.parametrize("line", A5_1.strip().splitlines())
def test_a5_1_agrees_with_a_published_guide(line):
    name, tensile, yielding, elongation, charpy, position, ac, dc = line.split()
    rod = decode(name)
    assert rod.strength.tensile_mpa == int(tensile)
    assert rod.strength.yield_mpa == _number(yielding)
    assert rod.strength.elongation_ratio == (None if elongation == "-" else int(elongation) / 100)
    energy_j, at_c = (None, None) if charpy == "-" else map(int, charpy.split("/"))
    assert (rod.toughness.energy_j, rod.toughness.at_c) == (energy_j, at_c)
    assert (Position.OVERHEAD in rod.positions) == (position in "14")
    assert (Position.VERTICAL_DOWN in rod.positions) == (position == "4")
    assert rod.ac == (ac == "x")
    assert set(rod.flat_polarities) == DC[dc]


def test_fillets_of_the_iron_oxide_classes_run_on_dc_minus():
    """The same guide's footnote: horizontal-vertical fillets of E6020, E6027 and E7027 on DC-."""
    for name in ("E6020", "E6027", "E7027"):
        assert decode(name).polarities == (Polarity.DCEN,)


# ISO 2560-B table 4B as two guides print it: last digits, DC polarity, AC, vertical, vertical-down.
ISO_4B = """
03 +/- x v -
10 + - v d
11 + x v d
12 - x v -
13 +/- x v -
14 +/- x v -
15 + - v -
16 + x v -
18 + x v -
19 +/- x v -
20 - x - -
24 +/- x - -
27 - x - -
28 + x - -
48 + x v d
"""


@pytest.mark.parametrize("line", ISO_4B.strip().splitlines())
def test_iso_2560_b_coverings_agree_with_table_4b(line):
    code, dc, ac, up, down = line.split()
    made = [
        f"B-E{digits}{code}" for digits in ("43", "49") if f"{digits}{code}" not in ("4314", "4315", "4328", "4348")
    ]
    for name in made:
        if name == "B-E4920":
            continue
        rod = decode(name)
        assert set(rod.polarities) == DC[dc], name
        assert rod.ac == (ac == "x"), name
        assert (Position.VERTICAL in rod.positions) == (up == "v"), name
        assert (Position.VERTICAL_DOWN in rod.positions) == (down == "d"), name


def test_iso_2560_b_strengths_agree_with_table_1b():
    for name, tensile_mpa in (("B-E4313", 430), ("B-E4918", 490), ("B-E5518-N2", 550), ("B-E5716", 570)):
        assert decode(name).strength.tensile_mpa == tensile_mpa


def test_the_worked_example_of_iso_2560_b():
    """ISO 2560-B - E55 18-N2 A U H5: 550 MPa, basic iron powder, AC and DC+, as welded, 47 J, 5 mL."""
    rod = decode("ISO 2560-B - E55 18-N2 A U H5")
    assert rod.strength.tensile_mpa == 550
    assert rod.polarities == (Polarity.DCEP,)
    assert rod.hydrogen_ml_100g == 5
    assert [suffix.mark for suffix in rod.suffixes][-1] == "H5"


# ISO 2560-A as two guides print it.
@pytest.mark.parametrize(
    ("code", "yield_mpa", "tensile_mpa", "most_mpa", "elongation"),
    [
        (35, 355, 440, 570, 22),
        (38, 380, 470, 600, 20),
        (42, 420, 500, 640, 20),
        (46, 460, 530, 680, 20),
        (50, 500, 560, 720, 18),
    ],
)
def test_iso_2560_a_strengths(code, yield_mpa, tensile_mpa, most_mpa, elongation):
    strength = decode(f"E {code} 0 RC 11").strength
    assert (strength.yield_mpa, strength.tensile_mpa, strength.tensile_most_mpa) == (yield_mpa, tensile_mpa, most_mpa)
    assert strength.elongation_ratio == pytest.approx(elongation / 100)


@pytest.mark.parametrize(
    ("code", "at_c"), [("Z", None), ("A", 20), ("0", 0), ("2", -20), ("3", -30), ("4", -40), ("5", -50), ("6", -60)]
)
def test_iso_2560_a_impact_temperatures(code, at_c):
    assert decode(f"E 42 {code} B 42").toughness.at_c == at_c


@pytest.mark.parametrize(
    ("digit", "ac"), [(1, True), (2, False), (3, True), (4, False), (5, True), (6, False), (7, True), (8, False)]
)
def test_iso_2560_a_odd_recovery_digits_take_ac(digit, ac):
    assert decode(f"E 42 4 B {digit}1").ac is ac


@pytest.mark.parametrize(
    ("digit", "up", "down", "overhead"), [(1, 1, 1, 1), (2, 1, 0, 1), (3, 0, 0, 0), (4, 0, 0, 0), (5, 0, 1, 0)]
)
def test_iso_2560_a_positions(digit, up, down, overhead):
    positions = decode(f"E 42 4 B 1{digit}").positions
    assert (Position.VERTICAL in positions) == bool(up)
    assert (Position.VERTICAL_DOWN in positions) == bool(down)
    assert (Position.OVERHEAD in positions) == bool(overhead)
    assert (Position.HORIZONTAL_FILLET in positions) == (digit in (3, 5))


def test_e7018_1_h4r_reads_as_the_standard_says():
    """AWS A5.1, from memory: 70 ksi, all positions, basic iron powder, AC or DCEP, 27 J at -45 C, 4 mL, R."""
    rod = decode("E7018-1 H4R")
    assert rod.covering_words == "low-hydrogen potassium, iron powder (basic)"
    assert (rod.toughness.energy_j, rod.toughness.at_c, rod.hydrogen_ml_100g) == (27, -45, 4)
    assert rod.moisture_resistant
