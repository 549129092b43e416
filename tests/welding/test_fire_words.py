"""What is a ban and what is none, in the words of those who answer the telephone."""

from __future__ import annotations

import pytest

from kitlist.welding.repairs.fire_words import says_ban


@pytest.mark.parametrize(
    "text",
    [
        "No hot works until further notice",
        "total fire ban over Easter",
        "the ban has not been lifted",
        "the ban will be lifted on Friday",
        "ban until it is over",
        "no welding before 1 April",
        "hot work is prohibited",
        "permits suspended",
        "ban on campfires and on welding",
        "campfires are fine, no welding",
        "fire danger extreme",
        "no ban in the east, total fire ban in the west",
        "not one but two bans are in force, a harvest ban too",
    ],
)
def test_a_ban_is_read(text: str) -> None:
    assert says_ban(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "allowed",
        "not under any fire ban",
        "no ban is declared",
        "ban lifted on Monday",
        "the ban ended, welding is allowed",
        "not on total fire ban days",
        "welding is allowed except on days of total fire ban",
        "if a ban is declared, stop",
        "no welding after noon",
        "no grinding within 20 m of scrub",
        "ban on campfires only, welding allowed on bare ground",
        "outside the prohibited season",
    ],
)
def test_no_ban_is_read_into_an_answer(text: str) -> None:
    assert not says_ban(text)
