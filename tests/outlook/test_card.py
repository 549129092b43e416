"""A card shows one polarity: where the rods give none, there is no card, and no sheet or step that guesses one."""

from __future__ import annotations

import pytest

from kitlist.errors import PrintError
from kitlist.kit import Rod
from kitlist.outlook.card import CardFacts, card_facts
from kitlist.prints.build_sheet import build_sheet
from kitlist.prints.linking import linking
from kitlist.prints.text import render
from kitlist.readiness import assess
from kitlist.rules.example import rod, whole, with_kit
from kitlist.terms import Polarity, RodStorage


def card(*rods: Rod) -> CardFacts:
    example = with_kit(rods=rods)
    return card_facts(example.kit, example.trip, on=example.on, wet_limit_v=35.0)


def test_a_rod_that_does_not_say_its_polarity_gets_no_card_with_one() -> None:
    with pytest.raises(PrintError, match="one polarity, and that of silent is not known") as caught:
        card(*whole().kit.rods, rod("silent", designation="E 42 0 RR 12"))
    assert "Read the packet" in caught.value.hint


def test_rods_that_need_different_polarities_get_no_card_with_one() -> None:
    plus = rod("plus", designation="E7018", storage=RodStorage.SEALED, opened_on=None)
    minus = rod("minus", designation="E6012")
    with pytest.raises(PrintError, match="need different ones"):
        card(plus, minus)
    assert (card(plus).polarity, card(minus).polarity) == (Polarity.DCEP, Polarity.DCEN)


SILENT = (rod("silent", designation="E 42 0 RR 12"),)
TWO = (rod("plus", designation="E7018"), rod("minus", designation="E6012"))


@pytest.mark.parametrize(
    "rods", [(), SILENT, TWO, (rod("odd", designation="X99"),)], ids=["none", "silent", "two", "odd"]
)
def test_where_no_polarity_is_said_neither_sheet_nor_steps_nor_leads_say_one(rods: tuple[Rod, ...]) -> None:
    example = with_kit(rods=rods)
    judged = assess(example.kit, example.trip, on=example.on)
    told = render(build_sheet(judged, actions=()))
    steps = " ".join(linking(example.kit, example.trip, judged.outlook).link)
    assert "the rods give no one polarity, read the packet before holder and work clamp go on" in " ".join(told.split())
    assert "Where it does not say, do not link." in steps
    assert "HOLDER TO" not in steps + ("" if rods == TWO else told)  # of two, the gap says what each of them needs
    assert "an open end to holder: " in told
    with pytest.raises(PrintError, match="one polarity"):
        card(*rods)


def test_where_one_is_said_the_steps_say_it_at_both_ends() -> None:
    for rods, words in ((whole().kit.rods, "HOLDER TO +, WORK CLAMP TO −"), (TWO[1:], "HOLDER TO −, WORK CLAMP TO +")):
        example = with_kit(rods=rods)
        judged = assess(example.kit, example.trip, on=example.on)
        assert any(words in step for step in linking(example.kit, example.trip, judged.outlook).link)
        assert words in " ".join(render(build_sheet(judged, actions=())).split())
