"""A word of a printed command line is one word for a shell, whatever stands in it."""

from __future__ import annotations

import shlex

import pytest

from kitlist.base.names import quoted

AWKWARD = ("Dry lake", "Bob's link", 'the "long" link', "$HOME", "a`b`", "back\\slash", "wow! much", "a;b", "Köln", "")


@pytest.mark.parametrize("word", ["heron-main", "a,b", *AWKWARD])
def test_a_quoted_word_is_read_back_as_it_was(word: str) -> None:
    assert shlex.split(f"kitlist vehicle edit {quoted(word)} FIELD=DAY")[3] == word


def test_what_needs_none_has_no_quotes_and_a_space_gets_those_that_people_read_best() -> None:
    assert (quoted("heron-main"), quoted("Dry lake")) == ("heron-main", '"Dry lake"')
