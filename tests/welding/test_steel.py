"""Which rod for which steel."""

import pytest

from kitlist.base.terms import Steel
from kitlist.welding.designation.designations import decode, known_designations
from kitlist.welding.repairs.steel import steel_suits
from kitlist.welding.repairs.suitability import Suits


@pytest.mark.parametrize("name", ["E6013", "E6011", "E7018", "E7024", "E312-16"])
def test_mild_steel_takes_any_rod(name):
    assert steel_suits(decode(name), Steel.MILD, load_bearing=True) is None


@pytest.mark.parametrize("steel", [Steel.SPRING, Steel.HARDENED, Steel.HIGH_STRENGTH])
@pytest.mark.parametrize("name", ["E6010", "E6013", "E7014", "E6027"])
def test_rods_that_bring_hydrogen_are_wrong_for_hard_steel(steel, name):
    """EN 1011-2: cracking needs hydrogen, a hard structure and tension together."""
    assert steel_suits(decode(name), steel, load_bearing=True).suits == Suits.WRONG_STEEL


def test_no_rod_mends_a_spring_as_if_it_were_whole():
    for name in known_designations():
        verdict = steel_suits(decode(name), Steel.SPRING, load_bearing=True)
        assert not Suits(verdict.suits).usable or "temper" in verdict.words


def test_a_316_rod_is_not_taken_for_one_that_forgives():
    assert steel_suits(decode("E316L-16"), Steel.HARDENED, load_bearing=True).suits == Suits.WRONG_STEEL
    assert steel_suits(decode("E312-16"), Steel.HARDENED, load_bearing=True).suits == Suits.ONLY_JUST


def test_every_pair_gives_a_word_that_the_fit_knows():
    for name in known_designations():
        for steel in Steel:
            for load_bearing in (True, False, None):
                verdict = steel_suits(decode(name), steel, load_bearing=load_bearing)
                assert verdict is None or (Suits(verdict.suits) and verdict.words and str(verdict.source))
