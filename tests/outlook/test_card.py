"""A card shows one polarity: where the rods give none, there is no card."""

from __future__ import annotations

import pytest

from kitlist.errors import PrintError
from kitlist.kit import Rod
from kitlist.outlook.card import CardFacts, card_facts
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
