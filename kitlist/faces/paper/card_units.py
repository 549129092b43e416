"""A card's texts in the owner's units beside the metric."""

from __future__ import annotations

from dataclasses import replace

from kitlist.base.measures import spelled
from kitlist.base.terms import Units
from kitlist.faces.paper import card_split
from kitlist.faces.paper.card_document import Block, Grid, IfThenLine, Lines, Step
from kitlist.faces.paper.document import Caution


def in_units(block: Block, units: Units) -> Block:
    """The block with the other units where it has quantities; a step that would need a second line keeps the metric.

    >>> in_units(Step("Park on bare earth", see="11 m"), Units.IMPERIAL).see
    '11 m (36.1 ft)'
    >>> in_units(Step("Park on bare earth, cleared all round", see="11 m"), Units.IMPERIAL).see
    '11 m'
    """

    def said(text: str) -> str:
        return spelled(text, units=units)

    match block:
        case Step():
            longer = Step(said(block.text), see=said(block.see))
            return longer if card_split.lines_of(longer) == 1 else block
        case Lines():
            return Lines(block.title, tuple(map(said, block.lines)))
        case Caution():
            return replace(block, hazard=said(block.hazard), result=said(block.result), avoid=said(block.avoid))
        case IfThenLine():
            return IfThenLine(block.trigger, said(block.then))
        case Grid():
            return replace(block, notes=tuple(map(said, block.notes)))
    return block
