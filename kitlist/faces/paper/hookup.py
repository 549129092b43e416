"""Draws the bank: batteries as boxes with a large − and +, the links between them, isolator, holder and work clamp."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise

from kitlist.base.errors import PrintError
from kitlist.base.terms import Polarity
from kitlist.faces.paper import typeface
from kitlist.faces.paper.document import Box, Hookup, LeadLine
from kitlist.faces.paper.figure import Block, Dot, Drawing, Shape, Stroke, Text

TAG_HIGH, LINK_Y, POST_HIGH = 6.8, 13.4, 1.8
POST_IN, POST_WIDE = 4.2, 3.4  # middle of a post from the side of its box
BOX_WIDEST, SIGN = 44.0, 4.6
OPENING_OFF = 2.0  # from the lead to the word for what opens it
CROWDED = 22.0  # boxes narrower than this have their link's bare number between them
WORD_GAP = 3.4  # at the least between two words on a line: over twice a space
NUMBERS_LOWER = 2.0  # by which words of 10 pt leave the space over the boxes smaller than those of 12 pt
PART_HIGH, PART_WIDE = 6.4, 3.4  # of a fuse or a ballast strip in the holder's lead
SIDE, BOX_PAD = 5.0, 1.0  # room for the bus of parallel strings; from a name to its box
ROW_GAP, ROW_GAP_CLOSE = 10.0, 7.4  # between parallel strings: room for the links of the lower one
_LEADS = {  # on the free −, on the free +
    Polarity.DCEP: (LeadLine.WORK, LeadLine.HOLDER),
    Polarity.DCEN: (LeadLine.HOLDER, LeadLine.WORK),
    None: (None, None),
}
_TAGS = {LeadLine.HOLDER: "HOLDER", LeadLine.WORK: "WORK CLAMP"}
POLARITY_UNSAID = "the rods give no one polarity, read the packet before holder and work clamp go on"


@dataclass
class _Ground:
    """The drawing while it grows."""

    width: float
    size_pt: float
    abbreviate: bool
    shapes: list[Shape] = field(default_factory=list)

    @property
    def line_high(self) -> float:
        return self.size_pt * typeface.MM_A_POINT * 1.2

    def text(self, x: float, y: float, text: str, *, bold: bool = False, anchor: str = "start") -> None:
        self.shapes.append(Text(x=x, y=y, text=text, size_pt=self.size_pt, bold=bold, anchor=anchor))

    def stroke(self, *points: tuple[float, float], width: float = 0.7, kind: str = "line") -> None:
        self.shapes.append(Stroke(points=points, width=width, kind=kind))


def fits(hookup: Hookup, *, width_mm: float) -> bool:
    """Whether every name fits its box in the drawing as it is for the card."""
    try:
        draw(hookup, width_mm=width_mm)
    except PrintError:
        return False
    return True


def draw(hookup: Hookup, *, width_mm: float, size_pt: float = 12, abbreviate: bool = False) -> Drawing:
    """The drawing, `width_mm` wide, with its text in `size_pt`.

    A name that does not fit its box is cut with … where `abbreviate` is set (the sheet has the full name beside
    it), and is otherwise refused: the card never shrinks or cuts a name.
    """
    ground = _Ground(width_mm, size_pt, abbreviate)
    detailed = any(box.detail for box in hookup.boxes)
    under = 1.2 if hookup.numbers_only else 2.2
    box_high = POST_HIGH + 6.0 + ground.line_high * _lines_needed(ground, hookup, detailed=detailed) + under
    gap = ROW_GAP_CLOSE if hookup.numbers_only else ROW_GAP
    side = SIDE if len(hookup.strings) > 1 else 0.0
    ends = []
    linked = 0
    over_mm = LINK_Y + 2.2 + PART_HIGH * len(hookup.in_holder) - (NUMBERS_LOWER if hookup.numbers_only else 0.0)
    for row, string in enumerate(hookup.strings):
        top = over_mm + row * (box_high + gap)
        shown = tuple(replace(box, name="") for box in string) if hookup.numbers_only else string
        word = (0.0, 0.0) if row else _opening_span(ground, hookup, side=side)
        ends.append(
            _string(ground, shown, top=top, high=box_high, side=side, linked=linked, detailed=detailed, word=word)
        )
        linked += len(string) - 1
    first, last = ends[0]
    for place, (lower_first, lower_last) in enumerate(ends[1:]):
        _bus(ground, first, lower_first, x=first[0] - POST_IN - 3.0, number=2 * place + 1)
        _bus(ground, last, lower_last, x=last[0] + POST_IN + 3.0, number=2 * place + 2)
    _tags(ground, hookup, minus=first, plus=last)
    height = over_mm + len(hookup.strings) * (box_high + gap) - gap + 0.4
    return Drawing(title=in_words(hookup), width=width_mm, height=round(height, 2), shapes=tuple(ground.shapes))


def in_words(hookup: Hookup) -> str:
    """The drawing as a sentence: alternate text, and what a terminal shows."""
    strings = []
    for string in hookup.strings:
        order = ", ".join(f"{left.name} + to {right.name} −" for left, right in pairwise(string))
        strings.append(order or f"{string[0].name} alone")
    joined = "; and in parallel: ".join(strings)
    opening = f", {hookup.opening} in the {hookup.opening_in} lead" if hookup.opening else ""
    more = f", {' and '.join(hookup.in_holder)} in the holder lead" if hookup.in_holder else ""
    return f"Hookup: {joined}; {hookup.polarity.words if hookup.polarity else POLARITY_UNSAID}{opening}{more}."


def _opening_span(ground: _Ground, hookup: Hookup, *, side: float) -> tuple[float, float]:
    """From where to where the word for the opening is drawn, beside the free post of the lead it is in."""
    on_minus, on_plus = _LEADS[hookup.polarity]
    if not hookup.opening or hookup.opening_in not in (on_minus, on_plus):
        return 0.0, 0.0
    count = len(hookup.strings[0])
    gap, wide = _gap_and_width(ground, count, side)
    edge = (ground.width - count * wide - (count - 1) * gap) / 2
    long = typeface.width_mm(hookup.opening, size_pt=ground.size_pt)
    if hookup.opening_in is on_minus:
        return edge + POST_IN + OPENING_OFF, edge + POST_IN + OPENING_OFF + long
    right = ground.width - edge - POST_IN - OPENING_OFF
    return right - long, right


def _clear_of(word: tuple[float, float], label: str, *, middle: float, ground: _Ground) -> float | None:
    """The middle at which a label keeps its gap to a word on its line; None where it would leave its link."""
    half = typeface.width_mm(label, size_pt=ground.size_pt) / 2
    if word == (0.0, 0.0) or middle + half + WORD_GAP <= word[0] or middle - half - WORD_GAP >= word[1]:
        return middle
    moved = word[0] - WORD_GAP - half if middle < (word[0] + word[1]) / 2 else word[1] + WORD_GAP + half
    return moved if abs(moved - middle) <= POST_IN else None


def _string(
    ground: _Ground,
    string: tuple[Box, ...],
    *,
    top: float,
    high: float,
    side: float,
    linked: int,
    detailed: bool,
    word: tuple[float, float],
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Draws one string, after `linked` links of others; returns where its free − and its free + post are.

    `word` is the stretch above it that another word takes.
    """
    count = len(string)
    gap, wide = _gap_and_width(ground, count, side)
    left = (ground.width - count * wide - (count - 1) * gap) / 2
    posts = []
    for place, box in enumerate(string):
        x = left + place * (wide + gap)
        _box(ground, box, x=x, top=top, wide=wide, high=high, detailed=detailed)
        posts.append(((x + POST_IN, top), (x + wide - POST_IN, top)))
    link_y = top - 2.2
    for place in range(count - 1):
        plus, minus = posts[place][1], posts[place + 1][0]
        ground.stroke(plus, (plus[0], link_y), (minus[0], link_y), minus, width=1.0, kind="link")
        number, middle = linked + place + 1, (plus[0] + minus[0]) / 2
        at = None if wide < CROWDED else _clear_of(word, f"link {number}", middle=middle, ground=ground)
        if at is None:
            ground.text(middle, link_y + 4.6, str(number), anchor="middle")
        else:
            ground.text(at, link_y - 1.4, f"link {number}", anchor="middle")
    return posts[0][0], posts[-1][1]


def _gap_and_width(ground: _Ground, count: int, side: float) -> tuple[float, float]:
    gap = 4.0 if count > 3 else 5.0
    return gap, min(BOX_WIDEST, (ground.width - 2 * side - (count - 1) * gap) / count)


def name_room_mm(hookup: Hookup, *, width_mm: float) -> float:
    """How wide a name may be in a box of a drawing, mm: parallel strings have as many boxes each."""
    side = SIDE if len(hookup.strings) > 1 else 0.0
    ground = _Ground(width_mm, 12, False)
    return _gap_and_width(ground, len(hookup.strings[0]), side)[1] - BOX_PAD


def _lines_needed(ground: _Ground, hookup: Hookup, *, detailed: bool) -> int:
    """The most lines of text that any box of the drawing has under its signs."""
    if hookup.numbers_only:
        return 0
    side = SIDE if len(hookup.strings) > 1 else 0.0
    most = 1
    for string in hookup.strings:
        _, wide = _gap_and_width(ground, len(string), side)
        most = max(most, *(len(_name_lines(ground, box, width_max_mm=wide - BOX_PAD)) for box in string))
    return most + detailed


def _box(ground: _Ground, box: Box, *, x: float, top: float, wide: float, high: float, detailed: bool) -> None:
    ground.shapes.append(Block(x=x, y=top + POST_HIGH, width=wide, height=high - POST_HIGH, line=0.6, kind="battery"))
    minus_x, plus_x, sign_y = x + POST_IN, x + wide - POST_IN, top + POST_HIGH + 3.6
    for post_x, kind in ((minus_x, "post-minus"), (plus_x, "post-plus")):
        post_left = post_x - POST_WIDE / 2
        ground.shapes.append(
            Block(x=post_left, y=top, width=POST_WIDE, height=POST_HIGH, filled=True, line=0, kind=kind)
        )
    half = SIGN / 2
    ground.stroke((minus_x - half, sign_y), (minus_x + half, sign_y), width=1.1, kind="minus")
    ground.stroke((plus_x - half, sign_y), (plus_x + half, sign_y), width=1.1, kind="plus")
    ground.stroke((plus_x, sign_y - half), (plus_x, sign_y + half), width=1.1, kind="plus-upright")
    middle, baseline = x + wide / 2, top + POST_HIGH + 5.2
    ground.text(middle, baseline, box.number, bold=True, anchor="middle")
    lines = _name_lines(ground, box, width_max_mm=wide - BOX_PAD)
    baseline += 1.4
    for number, line in enumerate(lines, start=1):
        ground.text(middle, baseline + number * ground.line_high, line, bold=True, anchor="middle")
    if detailed and box.detail:
        detail = typeface.cut(box.detail, width_max_mm=wide - BOX_PAD, size_pt=ground.size_pt)
        ground.text(middle, baseline + (len(lines) + 1) * ground.line_high, detail, anchor="middle")


def _name_lines(ground: _Ground, box: Box, *, width_max_mm: float) -> tuple[str, ...]:
    lines = typeface.wrap(box.name, width_max_mm=width_max_mm, size_pt=ground.size_pt, bold=True)
    if ground.abbreviate:
        lines = (*lines[:1], " ".join(lines[1:])) if len(lines) > 1 else lines
        return tuple(typeface.cut(line, width_max_mm=width_max_mm, size_pt=ground.size_pt, bold=True) for line in lines)
    widest = max(typeface.width_mm(line, size_pt=ground.size_pt, bold=True) for line in lines or ("",))
    if len(lines) > 2 or widest > width_max_mm:
        named = typeface.cut(box.name, width_max_mm=80, size_pt=12)
        raise PrintError(
            f"The name “{named}” does not fit its box in the hookup drawing "
            f"({width_max_mm:.0f} mm wide, two lines of {ground.size_pt:g} pt).",
            hint="Give that battery a shorter name; the card never shrinks or cuts one.",
        )
    return lines


def _bus(ground: _Ground, upper: tuple[float, float], lower: tuple[float, float], *, x: float, number: int) -> None:
    """Joins the like ends of two parallel strings past the side of the boxes: the tie lead of that number."""
    upper_y, lower_y = upper[1] - 2.2, lower[1] - 2.2
    ground.stroke(upper, (upper[0], upper_y), (x, upper_y), (x, lower_y), (lower[0], lower_y), lower, kind="parallel")
    inward, anchor = (1.0, "start") if x < lower[0] else (-1.0, "end")
    ground.text(x + inward, lower_y - 1.2, f"tie {number}", anchor=anchor)


def _tags(ground: _Ground, hookup: Hookup, *, minus: tuple[float, float], plus: tuple[float, float]) -> None:
    """The two ends in words, above the free posts, with the place where the circuit is opened."""
    on_minus, on_plus = _LEADS[hookup.polarity]
    for lead, sign, post, inward in ((on_minus, "−", minus, 1.0), (on_plus, "+", plus, -1.0)):
        text = f"{_TAGS[lead]} TO {sign}" if lead else f"{sign} END: READ PACKET"
        wide = typeface.width_mm(text, size_pt=ground.size_pt, bold=True) + 2.6
        opens_here = bool(hookup.opening) and hookup.opening_in is lead
        kind = lead.value if lead else "end"
        edge = post[0] - inward * POST_IN  # the outer side of the box
        left = edge if inward > 0 else edge - wide
        ground.shapes.append(Block(x=left, y=0.4, width=wide, height=TAG_HIGH, line=1.0, kind=f"tag-{kind}"))
        baseline = 0.4 + TAG_HIGH / 2 + ground.size_pt * typeface.MM_A_POINT * 0.34
        ground.text(left + wide / 2, baseline, text, bold=True, anchor="middle")
        foot = 0.4 + TAG_HIGH
        if lead is LeadLine.HOLDER:
            foot = _parts(ground, hookup.in_holder, x=post[0], top=foot, inward=inward)
        if opens_here:
            upper, lower = foot + 1.6, foot + 5.6
            ground.stroke(post, (post[0], lower), width=1.0, kind=f"lead-{kind}")
            ground.stroke((post[0], upper), (post[0], foot), width=1.0, kind=f"lead-{kind}-tag")
            ground.stroke((post[0], lower), (post[0] - inward * 2.4, upper + 0.2), width=1.0, kind="switch")
            for y in (upper, lower):
                ground.shapes.append(Dot(x=post[0], y=y, radius=0.9, kind="switch-dot"))
            anchor = "start" if inward > 0 else "end"
            ground.text(post[0] + inward * OPENING_OFF, foot + 4.2, hookup.opening, anchor=anchor)
        else:
            ground.stroke(post, (post[0], foot), width=1.0, kind=f"lead-{kind}")


def _parts(ground: _Ground, parts: tuple[str, ...], *, x: float, top: float, inward: float) -> float:
    """What else is in the holder's lead, each with its word, the last of them below its tag; returns where it ends."""
    anchor = "start" if inward > 0 else "end"
    for part in reversed(parts):
        foot = top + PART_HIGH
        ground.stroke((x, top), (x, foot), width=1.0, kind="lead-part")
        ground.shapes.append(
            Block(
                x=x - PART_WIDE / 2, y=top + 0.9, width=PART_WIDE, height=PART_HIGH - 1.8, line=0.8, kind=f"part-{part}"
            )
        )
        ground.text(x + inward * (PART_WIDE / 2 + 1.2), top + PART_HIGH / 2 + 1.4, part, anchor=anchor)
        top = foot
    return top
