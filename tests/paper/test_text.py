"""The papers on a terminal: sixty columns, the same words as on paper."""

from __future__ import annotations

import pytest

from kitlist.faces.paper import text
from kitlist.faces.paper.card_document import IfThenLine, Step
from kitlist.faces.paper.document import Caution
from paper import samples
from paper.papers import CARDS, SHEETS, document


@pytest.mark.parametrize("name", [*SHEETS, *CARDS])
@pytest.mark.parametrize("columns", [60, 80, 100])
def test_no_line_is_wider_than_the_terminal(name: str, columns: int) -> None:
    lines = text.render(document(name), columns=columns).splitlines()
    assert max(len(line) for line in lines) <= columns


def test_every_gap_with_its_remedy_and_every_item_is_there() -> None:
    shown = " ".join(text.render(samples.DEMO_SHEET).split())
    for gap in (*samples.DEMO_SHEET.gaps, *samples.DEMO_SHEET.accepted):
        assert " ".join(gap.what.split()) in shown
        assert gap.do in shown
        assert gap.accepted in shown
    for section in samples.DEMO_SHEET.sections():
        assert all(item.what in shown for item in section.items)
    assert shown.count("[ ]") == sum(len(section.items) for section in samples.DEMO_SHEET.sections())
    assert "[−1] short" in shown


def test_every_step_and_every_warning_of_the_card_is_there_in_order() -> None:
    shown = " ".join(text.render(samples.CARD).split())
    place = 0
    for face in samples.CARD.faces:
        for block in face.blocks:
            if isinstance(block, Step | Caution | IfThenLine):
                words = {Step: "text", Caution: "sentences", IfThenLine: "then"}[type(block)]
                words = getattr(block, words)
                place = shown.index(" ".join(words.split()), place)


def test_hash_and_verdict_are_the_papers() -> None:
    shown = text.render(samples.DEMO_SHEET)
    assert "NOT READY (2 stop, 3 fix, 1 note)" in shown
    assert samples.DEMO_SHEET.content_hash() in shown
    assert samples.CARD.content_hash() in shown


def test_no_escape_sequence_reaches_the_terminal() -> None:
    shown = text.render(samples.HOSTILE_SHEET)
    assert not {character for character in shown if ord(character) < 32} - {"\n"}
    assert "\u202e" not in shown
