"""What the rod needs against what somebody wired."""

import pytest

from kitlist.base.errors import BadData
from kitlist.base.terms import Polarity, Position
from kitlist.welding.designation.designations import decode
from kitlist.welding.designation.polarity import Wired, check_polarity, of_holder, of_name, of_work


def test_the_holder_on_plus_is_dcep_and_the_work_on_plus_is_not():
    assert of_holder("+") is Polarity.DCEP
    assert of_work("+") is Polarity.DCEN
    assert of_holder("−") is of_holder("-") is of_work("plus") is Polarity.DCEN


@pytest.mark.parametrize("name", ["DCEP", "dcrp", "Reverse polarity", "electrode positive", "reverse"])
def test_reverse_polarity_is_dcep(name):
    assert of_name(name) is Polarity.DCEP


@pytest.mark.parametrize("name", ["DCEN", "DCSP", "straight", "straight polarity"])
def test_straight_polarity_is_dcen(name):
    assert of_name(name) is Polarity.DCEN


def test_a_word_that_is_no_polarity_is_refused():
    with pytest.raises(BadData, match="DCEP"):
        of_name("earth")
    with pytest.raises(BadData, match="holder is on"):
        of_holder("black")


def test_the_common_slip_is_told_from_plain_wrong():
    rod = decode("E6011")
    slip = check_polarity(rod, of_work("+"), said=of_name("DCEP"))
    assert slip.result is Wired.SLIP
    assert slip.words.count("HOLDER TO") == 3
    assert "E6011 needs HOLDER TO +, WORK CLAMP TO −" in slip.words
    assert check_polarity(rod, of_work("+")).result is Wired.WRONG
    assert check_polarity(rod, of_work("-"), said=Polarity.DCEP).result is Wired.RIGHT


def test_a_slip_is_caught_even_with_a_rod_that_takes_either():
    assert check_polarity(decode("E6013"), Polarity.DCEN, said=Polarity.DCEP).result is Wired.SLIP


def test_a_rod_that_does_not_say_is_not_known():
    checked = check_polarity(decode("E 42 4 B 42 H5"), Polarity.DCEP)
    assert checked.result is Wired.NOT_KNOWN
    assert "Read the packet" in checked.words


def test_iron_oxide_rods_take_dcep_only_lying_flat():
    rod = decode("E6027")
    assert check_polarity(rod, Polarity.DCEP).result is Wired.WRONG
    assert check_polarity(rod, Polarity.DCEP, position=Position.FLAT).result is Wired.RIGHT


def test_polarity_is_never_printed_at_one_end_only():
    for name in ("E6010", "E6012", "E6013", "E6020", "E7018"):
        for wired in Polarity:
            words = check_polarity(decode(name), wired).words
            assert words.count("HOLDER TO") == words.count("WORK CLAMP TO") > 0
