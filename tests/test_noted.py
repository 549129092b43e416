"""What notes and answers say, and what they deny."""

from __future__ import annotations

import pytest

from kitlist.base.noted import answer, clauses, first_of, noted


@pytest.mark.parametrize(
    ("role", "text", "found"),
    [
        ("battery damage", "weeps a little", "weeps"),
        ("battery damage", "no leaks or cracks", ""),
        ("battery damage", "not new, leaks at the post", "leaks"),
        ("battery damage", "never dropped but it bulges", "bulges"),
        ("battery damage", "leaked, since replaced", "leaked"),
        ("battery damage", "leaked and since replaced", ""),
        ("battery damage", "no, it was not one of those, and it is cracked", "cracked"),
        ("lithium label", "LiFePO4", "lifepo4"),
        ("lithium label", "lithium-compatible charger used", ""),
        ("lead join", "tapes", "tapes"),
        ("lead join", "taped-over", "taped"),
        ("lead join", "tapestry", ""),
        ("gear damage", "", ""),
    ],
)
def test_a_note_says_what_stands_in_it_and_is_not_denied(role: str, text: str, found: str) -> None:
    assert noted(role, text) == found


def test_a_no_reaches_four_words_and_no_further() -> None:
    assert noted("battery damage", "no one two three leaks") == ""
    assert noted("battery damage", "no one two three four leaks") == "leaks"


def test_the_first_text_that_says_it_counts() -> None:
    assert noted("melts", "leather", "nylon", "fleece") == "nylon"


def test_the_longest_word_is_named() -> None:
    assert first_of("a cast iron plate", ["cast", "iron", "cast iron"]) == "cast iron"
    assert first_of("plain plate", ["cast"]) == ""


def test_a_role_without_words_is_an_error_of_ours() -> None:
    with pytest.raises(KeyError, match="no words of 'nonsense'"):
        noted("nonsense", "anything")


@pytest.mark.parametrize(
    "text", ["", "  ", "?", "-", "...", "nobody", "TBD", "n/a", "not yet", "Dr Rose, not answered"]
)
def test_what_only_says_that_there_is_none_yet_is_no_answer(text: str) -> None:
    assert answer(text) == ""


@pytest.mark.parametrize("text", ["Ada", "no objection, Dr Rose", "5 m off, Dr May", "No.", "allowed"])
def test_an_answer_is_kept_as_it_was_given(text: str) -> None:
    assert answer(f" {text} ") == text


def test_a_number_is_not_cut_at_its_point() -> None:
    assert clauses("12.5 V, at rest. Good") == ["12.5 V", " at rest", " Good"]
