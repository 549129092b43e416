"""Where a phase of the procedure goes on to a second face: few steps, read aloud in half a minute, with white left.

Published guidance on cockpit lists keeps a list to nine items and a line to one action; half a minute at 130 words a
minute is 65 words. A face that would hold more is parted as evenly as it can be, never between a warning and its step.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise

from kitlist.faces.paper import chart, hookup, typeface
from kitlist.faces.paper.card_document import Bars, Blanks, Block, Grid, IfThenLine, Lines, PolarityBanner, Step
from kitlist.faces.paper.document import Caution, Hookup, Signal

STEPS_A_FACE = 9
WORDS_A_MINUTE, SECONDS_A_FACE = 130, 30
WORDS_A_FACE = WORDS_A_MINUTE * SECONDS_A_FACE // 60
LIVE_WIDE_MM, LIVE_HIGH_MM = 86.0, 88.0  # of a face, between its head and its foot
STEPS_HIGH_MM = 80.0  # of that, so that the rest stays white
STEP_PT, SMALL_PT = 14.5, 12.0
NUMBER_MM = 7.6  # two digits at 14.5 pt and a space
STEP_WIDE_MM = LIVE_WIDE_MM - NUMBER_MM
SEE_GAP_MM = 3.0
_STEP_LINE_MM, _LINE_MM = STEP_PT * 1.25 * typeface.MM_A_POINT, SMALL_PT * 1.25 * typeface.MM_A_POINT
_GAP_MM = 1.2
_BORDER_MM = {Signal.DANGER: 4.1, Signal.WARNING: 2.9, Signal.CAUTION: 2.9}
_CAUTION_WIDE_MM = LIVE_WIDE_MM - 5.6
THEN_IN_MM = 6.0  # what to do stands in from its trigger
ROW_GAP_MM = 0.9
FIRST_OF_FOUR_MM = 30.0  # the first column of a table of four


def lines_of(step: Step) -> int:
    """How many lines a step takes on the card, its answer included.

    >>> lines_of(Step("Chock all wheels", see="firm")), lines_of(Step("Chock all wheels of the white one too"))
    (1, 2)
    """
    wrapped = typeface.wrap(step.text, width_max_mm=STEP_WIDE_MM, size_pt=STEP_PT)
    widths = [typeface.width_mm(line, size_pt=STEP_PT) for line in wrapped]
    count = sum(max(1, -int(-width // STEP_WIDE_MM)) for width in widths)
    if step.see and widths:
        answer = typeface.width_mm(step.see, size_pt=STEP_PT, bold=True) + SEE_GAP_MM
        count += widths[-1] + answer > STEP_WIDE_MM
    return count


def words_of(block: Block) -> int:
    """How many words of a block are read aloud; drawings and tables are looked at.

    >>> words_of(Step("Wait from the last rod", see="30 min")), words_of(Lines("Fuel,", ("brake lines.",)))
    (7, 3)
    """
    match block:
        case Step():
            return _spoken(block.text, block.see)
        case Caution():
            return _spoken(block.signal, block.sentences)
        case Lines():
            return _spoken(block.title, *block.lines)
        case PolarityBanner():
            return _spoken(block.polarity.words)
        case IfThenLine():
            return _spoken(block.trigger, block.then)
    return 0


def _spoken(*texts: str) -> int:
    return sum(any(character.isalnum() for character in word) for text in texts for word in text.split())


def high_mm(block: Block) -> float:
    """How high a block comes out on a face, mm, with the space below it."""
    match block:
        case Step():
            return lines_of(block) * _STEP_LINE_MM + _GAP_MM
        case Caution():
            words = f"{block.signal}  {block.sentences}"
            return _lines_high(words, wide_mm=_CAUTION_WIDE_MM, bold=False) + _BORDER_MM[block.signal]
        case Lines():
            return _lines_high(f"{block.title} {' '.join(block.lines)}", wide_mm=LIVE_WIDE_MM) + _GAP_MM / 2
        case Hookup():
            return hookup.draw(block, width_mm=LIVE_WIDE_MM).height + _GAP_MM
        case PolarityBanner():
            return 9.0
        case IfThenLine():
            then = _lines_high(block.then, wide_mm=LIVE_WIDE_MM - THEN_IN_MM)
            return then + _lines_high(block.trigger, wide_mm=LIVE_WIDE_MM, bold=True) + 1.3
        case Grid():
            notes = sum(_lines_high(note, wide_mm=LIVE_WIDE_MM) for note in block.notes)
            first_mm = FIRST_OF_FOUR_MM if len(block.headings) > 2 and not block.numbers else LIVE_WIDE_MM * 0.7
            rows = sum(_lines_high(row[0], wide_mm=first_mm, bold=True) + ROW_GAP_MM for row in block.rows)
            return head_mm(block) * block.headed + rows + notes
        case Bars():
            title = _lines_high(block.chart.title, wide_mm=LIVE_WIDE_MM, bold=True) + 0.4
            return title + chart.draw(block.chart, width_mm=LIVE_WIDE_MM, size_pt=SMALL_PT).height + _GAP_MM
        case Blanks():
            return 9.0 * len(block.words)


def head_mm(block: Block) -> float:
    """How high title, headings and foot of a table are, which it has on a face that it goes on to as well; else 0."""
    if not isinstance(block, Grid):
        return 0.0
    title = _lines_high(block.title, wide_mm=LIVE_WIDE_MM, bold=True) + ROW_GAP_MM if block.title else 0.0
    return title + _LINE_MM + ROW_GAP_MM + _GAP_MM  # the space below a table: once, on however many rows it stands


def _lines_high(text: str, *, wide_mm: float, bold: bool = False) -> float:
    return len(typeface.wrap(text, width_max_mm=wide_mm, size_pt=SMALL_PT, bold=bold)) * _LINE_MM


def parted(
    blocks: Sequence[Block], *, spoken: int = 0, high_most_mm: float = STEPS_HIGH_MM, words_most: int = WORDS_A_FACE
) -> tuple[tuple[Block, ...], ...]:
    """The blocks on as few faces as keep the limits, as even as can be. `spoken` words stand in every face's head.

    One that is too long for any face stands alone; the check of the layout refuses it by name.
    """
    units = list(_units(blocks))
    loads = [_load(unit) for unit in units]
    # What is too long for any face stands alone, and the others are parted as if it just fitted.
    full = max((_weight([load], spoken, high_most_mm, words_most) for load in loads), default=1.0)

    @cache
    def best(start: int, faces: int) -> tuple[float, tuple[int, ...]]:
        if faces == 1:
            return _weight(loads[start:], spoken, high_most_mm, words_most), ()
        found: tuple[float, tuple[int, ...]] = (float("inf"), ())
        for cut in range(start + 1, len(units) - faces + 2):
            first = _weight(loads[start:cut], spoken, high_most_mm, words_most)
            rest, cuts = best(cut, faces - 1)
            found = min(found, (max(first, rest), (cut, *cuts)))
        return found

    for faces in range(1, len(units) + 1):
        weight, cuts = best(0, faces)
        if weight <= max(1.0, full) or faces == len(units):
            edges = (0, *cuts, len(units))
            return tuple(tuple(block for unit in units[one:other] for block in unit) for one, other in pairwise(edges))
    return ()


def _units(blocks: Iterable[Block]) -> Iterator[tuple[Block, ...]]:
    """What stays together: a warning with its step, a step with the lines below it."""
    unit: list[Block] = []
    for block in blocks:
        follows = isinstance(block, Lines) or (bool(unit) and isinstance(unit[-1], Caution))
        if unit and not follows:
            yield tuple(unit)
            unit = []
        unit.append(block)
    if unit:
        yield tuple(unit)


def _load(unit: Sequence[Block]) -> tuple[int, int, float, float]:
    """Its steps, its words, its height, and what is added where a face begins with it."""
    return (
        sum(isinstance(block, Step) for block in unit),
        sum(words_of(block) for block in unit),
        sum(high_mm(block) for block in unit),
        head_mm(unit[0]) if isinstance(unit[0], Grid) and not unit[0].headed else 0.0,
    )


def _weight(loads: Sequence[tuple[int, int, float, float]], spoken: int, high_most_mm: float, words_most: int) -> float:
    """How full a face is: 1 where it just keeps its tightest limit."""
    steps, words, high = (sum(load[place] for load in loads) for place in range(3))
    high += loads[0][3] if loads else 0.0
    return max(steps / STEPS_A_FACE, (words + spoken) / words_most, high / high_most_mm)
