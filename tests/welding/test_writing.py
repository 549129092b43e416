"""The cursor over a written designation."""

import pytest

from kitlist.base.errors import BadDesignation
from kitlist.welding.designation.writing import LONGEST, Writing, squeezed


def test_the_longest_option_is_taken():
    assert Writing("RR12").take(["R", "RR"]) == "RR"
    assert Writing("1NiMo").take(["1Ni", "1NiMo"]) == "1NiMo"


def test_an_option_is_not_put_together_across_a_gap():
    writing = Writing("E 7 0")
    assert writing.take(["E"]) == "E"
    assert writing.take(["70"]) is None
    assert writing.gap


def test_the_place_of_an_error_counts_what_stands_between():
    writing = Writing("E  70 99")
    writing.take(["E"])
    writing.take(["70"])
    with pytest.raises(BadDesignation) as caught:
        writing.need(["18"], what="the class")
    assert caught.value.position == 7
    assert "18" in caught.value.message


@pytest.mark.parametrize("dash", ["-", "–", "—", "−", "‑"])
def test_every_kind_of_dash_is_a_hyphen(dash):
    writing = Writing(f"E{dash}1")
    writing.take(["E"])
    assert writing.gap
    assert writing.take(["1"]) == "1"
    assert writing.done


def test_a_text_too_long_is_refused_and_not_repeated_whole():
    with pytest.raises(BadDesignation) as caught:
        Writing("E" * 5000)
    assert caught.value.position == LONGEST + 1
    assert len(caught.value.message) < 200


def test_squeezing_leaves_letters_and_digits():
    assert squeezed(" e 42-4 b 42 h5.") == "E424B42H5"
